#include "graftcast/ensemble.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "graftcast/distributions.hpp"

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

/// The climate's values for one pack of members in one hour.
class PackClimate {
 public:
  PackClimate(const ScionClimate& climate, Eigen::Index pack)
      : climate_(climate),
        one_(climate.lanes() == 1),
        first_(one_ ? 0 : pack * pack_size % climate.lanes()) {}

  UnionHour<Pack> at(Eigen::Index column, bool just_closed, const Drive& drive) const {
    UnionHour<Pack> hour;
    hour.tissue_c = of(climate_.tissue_c, column);
    hour.deficit_bark = of(just_closed ? climate_.opening_deficit_bark : climate_.deficit_bark, column);
    hour.deficit_leaf = of(climate_.deficit_leaf, column);
    hour.boundary_mol = of(climate_.boundary_mol, column);
    hour.heat_per_hour =
        (of(climate_.heat_per_hour, column) * drive.heat_factor).min(drive.heat_limit_per_hour);
    hour.respiration = of(climate_.respiration, column);
    return hour;
  }

 private:
  Pack of(const Eigen::ArrayXXd& values, Eigen::Index column) const {
    if (one_) return Pack::Constant(values(0, column));
    return values.col(column).segment<pack_size>(first_);
  }
  const ScionClimate& climate_;
  bool one_;
  Eigen::Index first_;
};

void apply_cold(const std::vector<ColdRow>& rows, const Pack& tissue_c, UnionState<Pack>& state) {
  for (Eigen::Index i = 0; i < pack_size; ++i) {
    state.highest_cold_kill[i] =
        std::max(state.highest_cold_kill[i], cold_kill(rows, state.bud_clock[i], tissue_c[i]));
  }
}

/// One pack through all stretches. The state is copied out at the marks.
class PackRun {
 public:
  PackRun(const UnionConstants& constants, const Drive& drive, std::span<const std::size_t> marks,
          std::vector<UnionStates>& at_marks, std::size_t pack)
      : constants_(constants),
        drive_(drive),
        marks_(marks),
        at_marks_(at_marks),
        pack_(pack),
        threshold_c_(cold_threshold_c(*drive.cold_rows)) {}

  void through(const Stretch& stretch, UnionState<Pack>& state) {
    const PackClimate climate(*stretch.climate, static_cast<Eigen::Index>(pack_));
    const UnionMember<Pack>& member = (*stretch.members)[pack_];
    for (std::size_t hour = stretch.begin; hour < stretch.end; ++hour) {
      mark(hour, state);
      UnionHour<Pack> now = climate.at(static_cast<Eigen::Index>(hour - stretch.climate_begin),
                                       stretch.cover_just_closed && hour == stretch.begin, drive_);
      now.stock_water_stress.setConstant(drive_.stock_stress[hour]);
      now.daylight.setConstant(drive_.daylight[hour]);
      if (now.tissue_c.minCoeff() < threshold_c_) apply_cold(*drive_.cold_rows, now.tissue_c, state);
      step_union(constants_, member, now, state);
    }
    mark(stretch.end, state);
  }

 private:
  void mark(std::size_t hour, const UnionState<Pack>& state) {
    for (; next_ < marks_.size() && marks_[next_] <= hour; ++next_) at_marks_[next_][pack_] = state;
  }

  const UnionConstants& constants_;
  const Drive& drive_;
  std::span<const std::size_t> marks_;
  std::vector<UnionStates>& at_marks_;
  std::size_t pack_;
  double threshold_c_;
  std::size_t next_ = 0;
};

}  // namespace

double heat_factor(const RateConstants& rates, const Entry& species) {
  return std::exp((rates.heat_reference_c - species.value("heat_reference_c")) * std::numbers::ln10 /
                  rates.heat_slope_k);
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

UnionStates fresh_states(const UnionMembers& members, double first_water) {
  return UnionStates(members.size(), fresh_union<Pack>(first_water));
}

void run_union(const UnionConstants& constants, const Drive& drive, std::span<const Stretch> stretches,
               UnionStates& states, std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks) {
  at_marks.assign(marks.size(), states);
  for (std::size_t pack = 0; pack < states.size(); ++pack) {
    PackRun run(constants, drive, marks, at_marks, pack);
    for (const Stretch& stretch : stretches) run.through(stretch, states[pack]);
  }
}

}  // namespace graftcast
