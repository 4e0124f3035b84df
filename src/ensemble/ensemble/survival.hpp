#pragma once
// From the running extremes of each member to chances: survival, risk with its band, and what observations
// say.

#include <span>
#include <vector>

#include "ensemble/ensemble.hpp"
#include "graftcast/risk.hpp"

namespace graftcast {

/// Limits of what a scion stands, with their spread between scions; from models/.
struct SurvivalLimits {
  double lost_water = 0, lost_water_sd = 0;  ///< Reserve at which half are lost, and its sd.
  double heat_ln_sd = 0;                     ///< Of the log-normal limit of the heat dose about 1.
  double stores_ln_sd = 0;                   ///< Of the log-normal limit of the stores about 1.
};
SurvivalLimits survival_limits(const GraftCase& graft, const Models& models);

/// The four ways in which weather loses a scion; survival is their product.
struct SurvivalParts {
  double water, heat, cold, stores;
  double all() const { return water * heat * cold * stores; }
};

/// Parts of survival of a member: thresholds are integrated out, nothing is stopped.
SurvivalParts survival_parts(const SurvivalLimits& limits, const UnionStates& states, std::size_t member);

/// Survival of every member.
std::vector<double> survival(const SurvivalLimits& limits, const UnionStates& states);

/// Mean over members; `weights` have sum 1.
double weighted_mean(const Eigen::ArrayXd& values, std::span<const double> weights);
/// First state of `course` in which a member is healed to `healing`; their number where it never is.
std::size_t first_healed(std::span<const UnionStates> course, std::size_t member, double healing);

/// How each member fares until it drinks, judged at the moments of its course.
struct UntilDrinking {
  std::vector<std::size_t> first;  ///< Moment at which it drinks; the number of moments where it never does.
  std::vector<double> survival;    ///< Until then, or until the last moment.
};
/// `course`: states at rising moments, at least one; `drinking_healing`: from when on a union drinks.
UntilDrinking until_drinking(const SurvivalLimits& limits, std::span<const UnionStates> course,
                             double drinking_healing);

/// Probability that a note is made of a graft that is alive, and of one that is dead, both above 0.
struct NoteChance {
  double if_alive = 1, if_dead = 1;
};

/// Probability that `event` is noted of a member, allowing for a mistaken note; 1 for an event that is no
/// evidence. `joined`: share of vessels connected.
NoteChance note_chance(const ObservationConstants& constants, Event event, const UnionStates& states,
                       std::size_t member, double joined);

/// Risk between two moments, from the survival of every member at each.
Risk risk_between(std::span<const double> weights, std::span<const double> survival_then,
                  std::span<const double> survival_later);

/// Weighted quantile of `values` at `p` (0..1): the smallest value whose cumulated weight reaches p.
double weighted_quantile(std::span<const double> values, std::span<const double> weights, double p);

}  // namespace graftcast
