#include "ensemble/ensemble.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "ensemble/distributions.hpp"
#include "member_lanes.hpp"
#include "science/lanes.hpp"
#include "science/widest_lanes.hpp"

namespace graftcast {

namespace {

/// Below this temperature some row of the table kills a noticeable share; above it cold need not be looked
/// at.
double cold_threshold_c(const std::vector<ColdRow>& rows) {
  double threshold = -std::numeric_limits<double>::infinity();
  for (const ColdRow& row : rows) {
    const double spread = (row.t10_c.value - row.t90_c.value) / 2.56;
    threshold = std::max(threshold, 0.5 * (row.t10_c.value + row.t90_c.value) + 6 * spread);
  }
  return threshold;
}

/// The climate's values in one hour.
class ClimateOfHour {
 public:
  ClimateOfHour(const Stretch& stretch, std::size_t hour, const Drive& drive)
      : climate_(*stretch.climate),
        drive_(drive),
        hour_(hour),
        first_(static_cast<Eigen::Index>(hour - stretch.climate_begin) * climate_.rows()),
        deficit_bark_(stretch.cover_just_closed && hour == stretch.begin ? climate_.opening_deficit_bark
                                                                         : climate_.deficit_bark) {}

  /// For some neighbouring members, the first of them `member`.
  template <int width>
  UnionHour<Lanes<width>> of_members(Eigen::Index member) const {
    const bool one = climate_.rows() == 1;
    const Eigen::Index at = one ? first_ : first_ + member % climate_.rows();
    const auto of = [&](const Eigen::ArrayXXf& values) {
      const float* from = values.data() + at;
      return one ? Lanes<width>::Constant(static_cast<double>(*from)) : Lanes<width>::load(from);
    };
    return {of(climate_.tissue_c),
            of(deficit_bark_),
            of(climate_.deficit_leaf),
            of(climate_.boundary_mol),
            (of(climate_.heat_per_hour) * drive_.heat_factor).min(drive_.heat_limit_per_hour),
            of(climate_.respiration),
            Lanes<width>::Constant(drive_.stock_stress[hour_]),
            Lanes<width>::Constant(drive_.daylight[hour_])};
  }

 private:
  const ScionClimate& climate_;
  const Drive& drive_;
  std::size_t hour_;
  Eigen::Index first_;
  const Eigen::ArrayXXf& deficit_bark_;
};

/// Raises `highest_kill` of `width` members to what cold does to them in an hour.
[[gnu::noinline]] void apply_cold(const std::vector<ColdRow>& rows, double threshold_c, int width,
                                  const double* tissue_c, const double* bud_clock, double* highest_kill) {
  for (int i = 0; i < width; ++i) {
    if (tissue_c[i] < threshold_c)
      highest_kill[i] = std::max(highest_kill[i], cold_kill(rows, bud_clock[i], tissue_c[i]));
  }
}

/// All members through all stretches, hour by hour: the climate of an hour lies together in memory.
struct UnionCourseRun {
  const UnionConstants& constants;
  const Drive& drive;
  std::span<const Stretch> stretches;
  std::span<const std::size_t> marks;
  UnionStates& end_states;
  std::vector<UnionStates>& at_marks;
  double threshold_c;

  template <int width>
  void over() const {
    std::vector<UnionState<Lanes<width>>> states;
    for (Eigen::Index first = 0; first < end_states.water.size(); first += width)
      states.push_back(lanes_of<width>(end_states, first));
    std::size_t next_mark = 0;
    const auto mark = [&](std::size_t hour) {
      for (; next_mark < marks.size() && marks[next_mark] <= hour; ++next_mark)
        copy_out<width>(states, at_marks[next_mark]);
    };
    for (const Stretch& stretch : stretches) {
      const auto members = prepared<width>(*stretch.members);
      for (std::size_t hour = stretch.begin; hour < stretch.end; ++hour) {
        mark(hour);
        step_all<width>(stretch, hour, members, states);
      }
      mark(stretch.end);
    }
    copy_out<width>(states, end_states);
  }

 private:
  template <int width>
  std::vector<PreparedMember<Lanes<width>>> prepared(const UnionMembers& members) const {
    std::vector<PreparedMember<Lanes<width>>> result;
    for (Eigen::Index first = 0; first < members.bridge_days.size(); first += width)
      result.emplace_back(constants, lanes_of<width>(members, first));
    return result;
  }

  template <int width>
  void step_all(const Stretch& stretch, std::size_t hour,
                const std::vector<PreparedMember<Lanes<width>>>& members,
                std::vector<UnionState<Lanes<width>>>& states) const {
    const ClimateOfHour climate(stretch, hour, drive);
    const UnionConstants constant = constants;
    const bool cold = stretch.climate->coldest_c[hour - stretch.climate_begin] < threshold_c;
    for (std::size_t i = 0; i < states.size(); ++i) {
      const UnionHour<Lanes<width>> now =
          climate.template of_members<width>(static_cast<Eigen::Index>(i) * width);
      UnionState<Lanes<width>> state = states[i];
      if (cold) apply_cold_to<width>(now, state);
      step_union(constant, members[i], now, state);
      states[i] = state;
    }
  }

  template <int width>
  static void copy_out(const std::vector<UnionState<Lanes<width>>>& states, UnionStates& arrays) {
    for (std::size_t i = 0; i < states.size(); ++i)
      put<width>(states[i], static_cast<Eigen::Index>(i) * width, arrays);
  }

  template <int width>
  void apply_cold_to(const UnionHour<Lanes<width>>& now, UnionState<Lanes<width>>& state) const {
    double tissue_c[width], bud_clock[width], highest_kill[width];
    now.tissue_c.store(tissue_c);
    state.bud_clock.store(bud_clock);
    state.highest_cold_kill.store(highest_kill);
    apply_cold(*drive.cold_rows, threshold_c, width, tissue_c, bud_clock, highest_kill);
    state.highest_cold_kill = Lanes<width>::load(highest_kill);
  }
};

}  // namespace

double heat_factor(const HeatConstants& heat, const Species& species) {
  return std::exp((heat.reference_c - species.heat_reference_c) * std::numbers::ln10 / heat.slope_k);
}

double cold_kill(const std::vector<ColdRow>& rows, double bud_clock, double tissue_c) {
  const ColdRow* row = &rows.front();
  for (const ColdRow& candidate : rows) {
    if (bud_clock >= candidate.bud_stage_from) row = &candidate;
  }
  const double middle = 0.5 * (row->t10_c.value + row->t90_c.value);
  const double spread = (row->t10_c.value - row->t90_c.value) / 2.56;
  return normal_cdf((middle - tissue_c) / spread);
}

UnionStates fresh_states(std::size_t members, double first_water) {
  UnionStates states;
  const auto count = static_cast<Eigen::Index>(members);
  states.each([count](Eigen::ArrayXd& values) { values.setZero(count); }, states);
  states.water.setConstant(first_water);
  states.lowest_reserve.setConstant(first_water);
  return states;
}

void run_union(const UnionConstants& constants, const Drive& drive, std::span<const Stretch> stretches,
               UnionStates& states, std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks) {
  at_marks.assign(marks.size(), states);
  over_widest_lanes(UnionCourseRun{constants, drive, stretches, marks, states, at_marks,
                                   cold_threshold_c(*drive.cold_rows)});
}

}  // namespace graftcast
