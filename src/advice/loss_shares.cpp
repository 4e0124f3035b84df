#include "loss_shares.hpp"

#include <algorithm>
#include <cmath>

#include "advice/shapley.hpp"
#include "parallel.hpp"

namespace graftcast {

namespace {

Factor factor_at(std::size_t index) {
  return static_cast<Factor>(index);
}

std::vector<FactorTrial> tried(const Counterfactuals& runs, int threads) {
  std::vector<FactorTrial> trials(factor_count);
  for_each_parallel(2 * factor_count, threads, [&](std::size_t i) {
    const Factor factor = factor_at(i / 2);
    FactorTrial& trial = trials[i / 2];
    trial.factor = factor;
    (i % 2 == 0 ? trial.without : trial.alone) =
        runs.loss(i % 2 == 0 ? all_factors() ^ only(factor) : only(factor));
  });
  return trials;
}

Factors together(const std::vector<Factor>& factors) {
  Factors set;
  for (const Factor factor : factors) set |= only(factor);
  return set;
}

/// The factor that, as it was beside `applying`, moves the loss most.
Factor next_factor(const Counterfactuals& runs, const std::vector<Factor>& applying, double loss) {
  const Factors set = together(applying);
  Factor most{};
  double moved = -1;
  for (std::size_t i = 0; i < factor_count; ++i) {
    if (set.test(i)) continue;
    const double by = std::abs(runs.loss(set | only(factor_at(i))) - loss);
    if (by > moved) {
      moved = by;
      most = factor_at(i);
    }
  }
  return most;
}

std::vector<Factor> applying_factors(const Counterfactuals& runs, const LossShares& found,
                                     double applies_loss) {
  std::vector<Factor> applying;
  for (const FactorTrial& trial : found.trials) {
    if (std::abs(trial.without - found.all) >= applies_loss ||
        std::abs(trial.alone - found.none) >= applies_loss)
      applying.push_back(trial.factor);
  }
  while (applying.size() < factor_count) {
    const double loss = runs.loss(together(applying));
    if (std::abs(loss - found.all) < applies_loss) break;
    applying.push_back(next_factor(runs, applying, loss));
  }
  std::sort(applying.begin(), applying.end());
  return applying;
}

/// Losses with the same factors as they were, and heat beside them or not.
struct HeatOrNot {
  double without = 0, with = 0;
};

/// Heat harms by its dose alone, on which nothing else depends: one run tells both. `harmless` has what is
/// left of survival, member by member, with heat harmless: next to 1, whatever else is.
HeatOrNot heat_or_not(const Counterfactuals& runs, const Factors& others, std::span<const double> harmless) {
  const UnionStates states = runs.states(others | only(Factor::heat));
  HeatOrNot loss;
  for (std::size_t i = 0; i < harmless.size(); ++i) {
    const SurvivalParts parts = survival_parts(runs.run().limits(), states, i);
    const double but_for_heat = parts.water * parts.cold * parts.stores;
    loss.with += (1 - but_for_heat * parts.heat) / static_cast<double>(harmless.size());
    loss.without += (1 - but_for_heat * harmless[i]) / static_cast<double>(harmless.size());
  }
  return loss;
}

std::vector<double> survival_of_harmless_heat(const Counterfactuals& runs) {
  const UnionStates states = runs.states(all_factors() ^ only(Factor::heat));
  std::vector<double> parts;
  for (std::size_t i = 0; i < states.members(); ++i)
    parts.push_back(survival_parts(runs.run().limits(), states, i).heat);
  return parts;
}

Factors coalition(const std::vector<Factor>& factors, std::size_t mask) {
  Factors set;
  for (std::size_t i = 0; i < factors.size(); ++i)
    if ((mask >> i & 1U) != 0) set |= only(factors[i]);
  return set;
}

/// Loss of every coalition of the factors that apply.
std::vector<double> worths(const Counterfactuals& runs, const LossShares& found,
                           const std::vector<Factor>& applying, int threads) {
  std::vector<double> worth(std::size_t{1} << applying.size());
  if (!applying.empty() && applying.front() == Factor::heat) {
    const std::vector<double> harmless = survival_of_harmless_heat(runs);
    for_each_parallel(worth.size() / 2, threads, [&](std::size_t i) {
      const HeatOrNot loss = heat_or_not(runs, coalition(applying, 2 * i), harmless);
      worth[2 * i] = loss.without;
      worth[2 * i + 1] = loss.with;
    });
  } else {
    for_each_parallel(worth.size(), threads,
                      [&](std::size_t i) { worth[i] = runs.loss(coalition(applying, i)); });
  }
  worth.front() = found.none;
  if (!applying.empty()) worth.back() = found.all;
  return worth;
}

}  // namespace

LossShares loss_shares(const Counterfactuals& runs, double applies_loss, int threads) {
  LossShares found;
  found.all = runs.loss(all_factors());
  found.none = runs.loss({});
  found.trials = tried(runs, threads);
  const std::vector<Factor> applying = applying_factors(runs, found, applies_loss);
  const std::vector<double> worth = worths(runs, found, applying, threads);
  const std::vector<double> values = shapley_values(applying.size(), worth);
  for (std::size_t i = 0; i < applying.size(); ++i) found.shares.push_back({applying[i], values[i]});
  return found;
}

}  // namespace graftcast
