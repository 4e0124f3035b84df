#include "ensemble/survival.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "ensemble/distributions.hpp"

namespace graftcast {

namespace {

/// Chance that a log-normal limit about 1 lies above `dose`.
double stands(double dose, double ln_sd) {
  return normal_cdf(-std::log(std::max(dose, 1e-12)) / ln_sd);
}

}  // namespace

SurvivalLimits survival_limits(const GraftCase& graft, const Models& models) {
  return {graft.scion_state->lost_water, graft.scion_state->lost_water_sd, models.heat.limit_ln_sd,
          models.stores.limit_ln_sd};
}

SurvivalParts survival_parts(const SurvivalLimits& limits, const UnionStates& states, std::size_t member) {
  const auto i = static_cast<Eigen::Index>(member);
  return {normal_cdf((states.lowest_reserve[i] - limits.lost_water) / limits.lost_water_sd),
          stands(states.highest_heat_dose[i], limits.heat_ln_sd), 1.0 - states.highest_cold_kill[i],
          stands(states.stores_spent[i], limits.stores_ln_sd)};
}

std::vector<double> survival(const SurvivalLimits& limits, const UnionStates& states) {
  std::vector<double> result(states.members());
  for (std::size_t i = 0; i < result.size(); ++i) result[i] = survival_parts(limits, states, i).all();
  return result;
}

double weighted_mean(const Eigen::ArrayXd& values, std::span<const double> weights) {
  return (values * Eigen::Map<const Eigen::ArrayXd>(weights.data(), values.size())).sum();
}

std::size_t first_healed(std::span<const UnionStates> course, std::size_t member, double healing) {
  const auto found = std::ranges::find_if(course, [&](const UnionStates& states) {
    return states.healing[static_cast<Eigen::Index>(member)] >= healing;
  });
  return static_cast<std::size_t>(found - course.begin());
}

UntilDrinking until_drinking(const SurvivalLimits& limits, std::span<const UnionStates> course,
                             double drinking_healing) {
  UntilDrinking result;
  for (std::size_t i = 0; i < course.front().members(); ++i) {
    result.first.push_back(first_healed(course, i, drinking_healing));
    const UnionStates& then = course[std::min(result.first.back(), course.size() - 1)];
    result.survival.push_back(survival_parts(limits, then, i).all());
  }
  return result;
}

NoteChance note_chance(const ObservationConstants& c, Event event, const UnionStates& s, std::size_t member,
                       double joined) {
  const auto i = static_cast<Eigen::Index>(member);
  const auto noted = [&](double p) { return c.reliability * p + 0.5 * (1.0 - c.reliability); };
  const auto either = [&](double z) { return NoteChance{noted(normal_cdf(z)), noted(normal_cdf(z))}; };
  switch (event) {
    case Event::green:
      return {noted(1), noted(0)};
    case Event::dead:
      return {noted(0), noted(1)};
    case Event::taken:
      return {noted(joined), noted(0)};
    case Event::callus:
      return either((s.healing[i] - c.callus_healing) / c.callus_sd);
    case Event::buds_moving:
      return either((s.bud_clock[i] - 1.0) / c.bud_sd);
    case Event::leafed_out:
      return either((s.leaf_share[i] - c.leaf_share) / c.leaf_sd);
    case Event::wilted:
      return either((c.wilt_water - s.water[i]) / c.wilt_sd);
    case Event::shrivelled:
      return either((c.shrivel_water - s.water[i]) / c.shrivel_sd);
    default:
      return {};
  }
}

double weighted_quantile(std::span<const double> values, std::span<const double> weights, double p) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
  double cumulated = 0;
  for (const std::size_t i : order) {
    cumulated += weights[i];
    if (cumulated >= p * total) return values[i];
  }
  return values[order.back()];
}

Risk risk_between(std::span<const double> weights, std::span<const double> survival_then,
                  std::span<const double> survival_later) {
  const std::size_t n = weights.size();
  std::vector<double> share(n);
  std::vector<double> lost(n);
  double alive = 0;
  double later = 0;
  for (std::size_t i = 0; i < n; ++i) {
    share[i] = weights[i] * survival_then[i];
    lost[i] = survival_then[i] > 0 ? 1.0 - survival_later[i] / survival_then[i] : 1.0;
    alive += share[i];
    later += weights[i] * survival_later[i];
  }
  if (!(alive > 0)) return {1, 1, 1, 0};
  Risk risk;
  risk.p = std::clamp(1.0 - later / alive, 0.0, 1.0);
  risk.low = weighted_quantile(lost, share, 0.1);
  risk.high = weighted_quantile(lost, share, 0.9);
  double variance = 0;  // of the ratio estimator
  for (std::size_t i = 0; i < n; ++i) {
    const double residual = share[i] / alive * (lost[i] - risk.p);
    variance += residual * residual;
  }
  risk.error = std::sqrt(variance);
  return risk;
}

}  // namespace graftcast
