#pragma once
// Explaining losses.

#include <vector>

#include "ensemble/counterfactual.hpp"
#include "graftcast/why.hpp"

namespace graftcast {

struct WhyAsk {
  bool actions = true;
  bool lesson = false;
};

/// Explains one graft. `climates` are of the same season. Error: none beyond those of graft_case.
GraftWhy why(const Season& season, const HarmlessClimates& climates, const GraftRecord& record,
             const WhyAsk& ask, int threads);

/// Explains every row made in the season of the season's moment, of which some graft is noted dead by then.
WhyLosses why_losses(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

/// Those rows.
std::vector<GraftRecord> lost_this_season(const Site& site, const Clock& clock, Instant as_of,
                                          const std::vector<GraftRecord>& grafts);

}  // namespace graftcast
