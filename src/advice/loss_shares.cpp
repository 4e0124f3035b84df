#include "loss_shares.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/shapley.hpp"
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

Factors coalition(const std::vector<Factor>& factors, std::size_t mask) {
  Factors set;
  for (std::size_t i = 0; i < factors.size(); ++i)
    if ((mask >> i & 1U) != 0) set |= only(factors[i]);
  return set;
}

}  // namespace

LossShares loss_shares(const Counterfactuals& runs, double applies_loss, int threads) {
  LossShares found;
  found.all = runs.loss(all_factors());
  found.none = runs.loss({});
  found.trials = tried(runs, threads);
  const std::vector<Factor> applying = applying_factors(runs, found, applies_loss);
  std::vector<double> worth(std::size_t{1} << applying.size());
  worth.front() = found.none;
  worth.back() = applying.empty() ? found.none : found.all;
  if (worth.size() > 2) {
    for_each_parallel(worth.size() - 2, threads,
                      [&](std::size_t i) { worth[i + 1] = runs.loss(coalition(applying, i + 1)); });
  }
  const std::vector<double> values = shapley_values(applying.size(), worth);
  for (std::size_t i = 0; i < applying.size(); ++i) found.shares.push_back({applying[i], values[i]});
  return found;
}

}  // namespace graftcast
