#pragma once
// Trying the mornings ahead.

#include <map>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/when.hpp"

namespace graftcast {

/// Tries each graft on each of the coming `days` mornings. The season must reach `days` + `when_follow_days`
/// ahead; from the year's midwinter on, bark slip is known from the log. `slips` says for each stock species
/// what notes say of it; a stock that was seen `bleeding` (see stock_notes.hpp) is waited for. Error:
/// DataError for names that the models or the site do not have.
WhenReport when_to_graft(const Season& season, const std::vector<WhenAsk>& asked, int days,
                         const std::map<std::string, bool>& slips, int threads,
                         const std::map<std::string, LocalDay>& bleeding = {});

/// The midwinter from which a stock's degree-days count: 21 December north of the equator, 21 June south of
/// it.
LocalDay midwinter_before(LocalDay day, double latitude_deg);

}  // namespace graftcast
