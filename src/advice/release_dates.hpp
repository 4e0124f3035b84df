#pragma once
// When a union gets where: dates with their band over the ensemble.

#include <functional>

#include "graftcast/graft_run.hpp"
#include "graftcast/since.hpp"

namespace graftcast {

/// The states of one union at the beginning of each local day from grafting to the end of the outlook.
struct UnionCourse {
  std::vector<std::size_t> marks;   ///< Hours of the series.
  std::vector<UnionStates> states;  ///< At each mark.
  std::vector<double> weights;      ///< Of the members.
};

/// For each member the first mark at which `reached(states, member)` holds, else marks.size().
std::vector<std::size_t> first_marks(const UnionCourse& course,
                                     const std::function<bool(const UnionStates&, std::size_t)>& reached);

/// Weighted 10, 50 and 90 % of those marks as local days; absent where the share of members that get there is
/// smaller.
DateBand date_band(const Season& season, const UnionCourse& course, std::span<const std::size_t> firsts);

}  // namespace graftcast
