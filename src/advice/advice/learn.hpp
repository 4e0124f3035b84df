#pragma once
// Learning from a site's own results.

#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/learn.hpp"

namespace graftcast {

/// Fits shifts to all outcomes of `grafts`, scores them batch by batch, and sums up the groups asked for.
/// `season` must rest on models with nothing learned. Deterministic on any number of threads.
LearnReport learn(const Season& season, const std::vector<GraftRecord>& grafts,
                  const std::vector<GroupBy>& groups, int threads);

/// Score of the published numbers with nothing fitted, to compare models (other degree-day bases, say).
TakeScore score_of_published(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

}  // namespace graftcast
