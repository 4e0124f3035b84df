#pragma once
// Degree-days, healing and release dates of a site's grafts.

#include <optional>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/since.hpp"

namespace graftcast {

/// What to count degree-days by; absent members take the site's, then the species'. `also` are further ways
/// of counting, to be shown beside it. With `hours_to` each graft has its hours up to the end of that local
/// day.
SinceReport since(const Season& season, const std::vector<GraftRecord>& grafts,
                  const DegreeDaySettings& asked, int threads,
                  const std::vector<DegreeDaySettings>& also = {},
                  const std::optional<LocalDay>& hours_to = {});

/// The rule for a species at this site.
DegreeDayRule degree_day_rule(const Species& species, const DegreeDaySettings& site,
                              const DegreeDaySettings& asked);

}  // namespace graftcast
