#pragma once
// Runs all members of one union through the hours.

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

#include "ensemble/members.hpp"
#include "parameters/models.hpp"
#include "plant/scion_climate.hpp"
#include "plant/union_hour.hpp"

namespace graftcast {

/// The state of every member: `states.water[i]` is member i's.
struct UnionStates : UnionState<Eigen::ArrayXd> {
  std::size_t members() const { return static_cast<std::size_t>(water.size()); }
};

/// A stretch of hours under one climate and one set of members. Hours count from the start of the whole
/// series.
struct Stretch {
  std::size_t begin = 0, end = 0;
  const ScionClimate* climate = nullptr;
  std::size_t climate_begin = 0;  ///< Hour of the series that is column 0 of the climate.
  const UnionMembers* members = nullptr;
  bool cover_just_closed = false;  ///< The first hour still has the vapour of the outside.
};

/// What else drives the hours; spans are indexed by hour of the whole series.
struct Drive {
  std::span<const double> stock_stress;  ///< Kst.
  std::span<const double> daylight;      ///< 1 by day.
  double heat_factor = 1;  ///< Lethal doses of this species relative to HeatConstants::reference_c.
  const std::vector<ColdRow>* cold_rows = nullptr;
  /// Lethal doses an hour beyond which none are counted.
  double heat_limit_per_hour = std::numeric_limits<double>::infinity();
};

/// Factor on ScionClimate::heat_per_hour for a species with another heat reference.
double heat_factor(const HeatConstants& heat, const Species& species);

/// Probability that an hour at `tissue_c` kills buds at `bud_clock`: Phi((T50 - T) / s) with T50 = (T10 +
/// T90)/2 and s = (T10 - T90)/2.56, so that T10 and T90 kill 10 % and 90 %. The row is the last whose stage
/// is reached.
double cold_kill(const std::vector<ColdRow>& rows, double bud_clock, double tissue_c);

/// Unions just made: full of water (or `first_water`), nothing healed, nothing harmed.
UnionStates fresh_states(std::size_t members, double first_water = 1);

/// Runs `states` through `stretches` (in order, without gaps). `marks` are hours of the series in rising
/// order; the states at the beginning of each marked hour are written to `at_marks` (resized to
/// marks.size()). Members are as many as MemberQuantiles has them, a multiple of `member_multiple`.
void run_union(const UnionConstants& constants, const Drive& drive, std::span<const Stretch> stretches,
               UnionStates& states, std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks);

}  // namespace graftcast
