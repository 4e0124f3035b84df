#pragma once
// A union hour by hour, for charts (private to the layer).

#include <span>
#include <vector>

#include "advice/since.hpp"
#include "ensemble/graft_run.hpp"

namespace graftcast {

/// First hour of the series after the local day `day`, held within the series.
std::size_t hour_after(const Season& season, LocalDay day);

/// Every hour of [from, to] where that is not empty, with `marks` (in rising order, none before `from`).
std::vector<std::size_t> hours_and_marks(std::size_t from, std::size_t to,
                                         std::span<const std::size_t> marks);

/// The hours from grafting on; `states` are those at the beginning of each, and at the end of the last.
SinceHours hours_of_union(const GraftRun& run, std::span<const double> weights,
                          std::span<const UnionStates> states);

}  // namespace graftcast
