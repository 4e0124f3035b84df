#pragma once
// What-if runs of one union: single factors of its life made harmless, everything else as it was.

#include <bitset>
#include <cstddef>
#include <map>
#include <memory>
#include <mutex>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "ensemble/graft_run.hpp"
#include "graftcast/factor.hpp"

namespace graftcast {

/// A set of factors.
using Factors = std::bitset<factor_count>;
inline Factors only(Factor factor) {
  return Factors().set(static_cast<std::size_t>(factor));
}
inline bool has(const Factors& factors, Factor factor) {
  return factors.test(static_cast<std::size_t>(factor));
}
/// All of them: everything as it was.
inline Factors all_factors() {
  return Factors().set();
}

/// `setting` with the method's usual wrap and cover where it has less: a bare bud wrapped, the tip sealed, a
/// cover that holds vapour where that is usual for the species.
Setting with_usual_protection(const GraftCase& graft, Setting setting, const Models& models);

/// Climates of the past in which the air is as damp, or the wind as weak, as does no harm; each worked out
/// once and shared by all grafts and runs under it. Thread-safe. Refers to the season.
class HarmlessClimates {
 public:
  explicit HarmlessClimates(const Season& season);
  /// Of the hours up to now.
  const ScionClimate& of(Exposure exposure, bool dry_air_as_it_was, bool wind_as_it_was) const;

 private:
  struct Slot {
    std::once_flag once;
    ScionClimate climate;
  };
  const ScionClimate& with_any_wind(const Exposure& exposure, bool dry_air_as_it_was) const;

  const Season& season_;
  double humidity_share_, wind_m_s_;
  Ambient damp_;
  mutable SiteClimates damp_climates_;
  mutable std::mutex mutex_;
  mutable std::map<std::string, std::unique_ptr<Slot>> calm_;
};

/// Runs of one union from grafting to an hour of the past, by the members as they are made (no note weighs
/// them). Thread-safe. Refers to the graft's run and the climates.
class Counterfactuals {
 public:
  /// `end` at most the season's now.
  Counterfactuals(const GraftRun& run, const HarmlessClimates& climates, std::size_t end);

  /// Members at the end, with the factors in `as_they_were` as they were and all others harmless.
  UnionStates states(const Factors& as_they_were) const;
  /// Chance that weather loses it by the end: 1 less the mean survival of those states.
  double loss(const Factors& as_they_were) const;
  /// Everything as it was, but under `treatment`; `marks` as in run_union.
  UnionStates under(const Treatment& treatment, std::span<const std::size_t> marks,
                    std::vector<UnionStates>& at_marks) const;

  const GraftRun& run() const { return run_; }
  std::size_t begin() const { return run_.begin(); }
  std::size_t end() const { return end_; }
  /// The climate in which the graft stood in the past hour `hour` of the series, and its column.
  std::pair<const ScionClimate*, Eigen::Index> climate_at(std::size_t hour) const;

 private:
  const UnionMembers& members(const Setting& setting, const Factors& as_they_were) const;
  std::vector<Stretch> stretches(const std::vector<Setting>& settings, const Factors& as_they_were) const;
  UnionStates through(const std::vector<Setting>& settings, std::span<const double> stock_stress,
                      const Factors& as_they_were, std::span<const std::size_t> marks,
                      std::vector<UnionStates>& at_marks) const;

  const GraftRun& run_;
  const HarmlessClimates& climates_;
  std::size_t end_;
  std::vector<Setting> protected_;      ///< The settings with nothing missing.
  std::vector<double> watered_stress_;  ///< Kst of a stock that never runs short.
  mutable std::mutex mutex_;
  mutable std::map<std::tuple<std::string, bool, bool, bool, bool>, UnionMembers> members_;
};

/// 1 less the mean survival of `states`, all members alike.
double mean_loss(const SurvivalLimits& limits, const UnionStates& states);

}  // namespace graftcast
