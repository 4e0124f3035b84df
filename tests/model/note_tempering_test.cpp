// Members that take in notes: against a posterior known in closed form.

#include "note_tempering.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <numeric>

#include "ensemble/distributions.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

double log_normal_likelihood(double z, double sd) {
  return -0.5 * z * z / (sd * sd);
}

struct Posterior {
  double mean = 0, sd = 0, effective = 0;
  int rounds = 0;
};

/// Members of a standard normal number of which `seen` was measured with an error of `error_sd`.
Posterior filtered(double seen, double error_sd, int members, std::uint64_t seed) {
  MemberQuantiles quantiles(seed, members);
  quantiles.set_match_shapes(published_models());
  const auto likelihood = [&](const MemberQuantiles& q) {
    std::vector<double> values;
    for (const double z : q.normal(Uncertain::pace))
      values.push_back(log_normal_likelihood(z - seen, error_sd));
    return values;
  };
  NoteTempering tempering(static_cast<std::size_t>(quantiles.members()));
  std::vector<double> l = likelihood(quantiles);
  while (!tempering.count_notes(l)) {
    const auto ancestors = tempering.ancestors(seed, 9);
    quantiles = quantiles.redrawn(ancestors, tempering.weights(), 0.98, seed, 9,
                                  static_cast<std::uint64_t>(tempering.rounds()));
    const auto drawn = likelihood(quantiles);
    tempering.redrawn(ancestors, l, drawn);
    l = drawn;
  }
  const auto& z = quantiles.normal(Uncertain::pace);
  const std::vector<double> weights = tempering.weights();
  const Eigen::Map<const Eigen::ArrayXd> w(weights.data(), z.size());
  Posterior p;
  p.mean = (w * z).sum();
  p.sd = std::sqrt((w * (z - p.mean).square()).sum());
  p.effective = effective_members(weights);
  p.rounds = tempering.rounds();
  return p;
}

// Source of the closed form: the normal prior with a normal measurement, Gelman et al., Bayesian Data
// Analysis (3rd ed. 2013), eqs. 2.9-2.10. The prior here is cut at two standard deviations, far from what was
// seen.
TEST(NoteTempering, ComesToThePosteriorOfANormalMeasurement) {
  for (const auto& [seen, error_sd] : {std::pair{0.8, 0.3}, {-0.5, 0.1}, {1.0, 0.05}}) {
    const double precision = 1 + 1 / (error_sd * error_sd);
    const double mean = seen / (error_sd * error_sd) / precision, sd = 1 / std::sqrt(precision);
    for (const int members : {64, 1024}) {
      double bias = 0, spread = 0;
      constexpr int repeats = 20;
      for (std::uint64_t seed = 1; seed <= repeats; ++seed) {
        const Posterior p = filtered(seen, error_sd, members, seed);
        EXPECT_GE(p.effective, 0.25 * members);
        EXPECT_LE(p.rounds, 12);
        bias += (p.mean - mean) / repeats;
        spread += p.sd / repeats;
      }
      EXPECT_NEAR(bias, 0, 0.3 * sd) << seen << ' ' << members;
      EXPECT_NEAR(spread / sd, 1, 0.25) << seen << ' ' << members;
    }
  }
}

TEST(NoteTempering, NeedsNoNewMembersWhereEnoughFit) {
  EXPECT_EQ(filtered(0.2, 1.0, 64, 1).rounds, 0);
  EXPECT_GT(filtered(1.5, 0.05, 64, 1).rounds, 0);
}

TEST(NoteTempering, TakesInNotesThatHardlyAnyMemberFits) {
  const Posterior p = filtered(1.9, 0.001, 64, 3);
  EXPECT_NEAR(p.mean, 1.9, 0.1);
  EXPECT_TRUE(std::isfinite(p.sd));
}

TEST(NoteTempering, ResamplesEachMemberAsOftenAsItsWeight) {
  std::vector<double> likelihoods(64);
  for (std::size_t i = 0; i < likelihoods.size(); ++i) likelihoods[i] = -0.02 * static_cast<double>(i);
  NoteTempering tempering(likelihoods.size());
  ASSERT_TRUE(tempering.count_notes(likelihoods));
  const std::vector<double> weights = tempering.weights();
  const std::vector<std::size_t> ancestors = tempering.ancestors(1, 2);
  ASSERT_EQ(ancestors.size(), weights.size());
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const auto times = static_cast<double>(std::count(ancestors.begin(), ancestors.end(), i));
    EXPECT_NEAR(times, 64 * weights[i], 1) << i;
  }
}

TEST(RedrawnMembers, KeepTheWeightedMeanAndSpreadOfEveryNumber) {
  MemberQuantiles quantiles(4, 4096);
  quantiles.set_match_shapes(published_models());
  std::vector<double> log_weights;
  for (const double z : quantiles.normal(Uncertain::bark_conductance)) log_weights.push_back(0.7 * z);
  NoteTempering tempering(log_weights.size());
  ASSERT_TRUE(tempering.count_notes(log_weights));
  const std::vector<double> weights = tempering.weights();
  const MemberQuantiles next = quantiles.redrawn(tempering.ancestors(1, 1), weights, 0.98, 1, 1, 0);
  const Eigen::Map<const Eigen::ArrayXd> w(weights.data(), 4096);
  for (const Uncertain what : {Uncertain::bark_conductance, Uncertain::pace, Uncertain::bud_push}) {
    const auto& z = quantiles.normal(what);
    const double mean = (w * z).sum();
    const double sd = std::sqrt((w * (z - mean).square()).sum());
    EXPECT_NEAR(next.normal(what).mean(), mean, 0.03);
    EXPECT_NEAR(std::sqrt((next.normal(what) - next.normal(what).mean()).square().mean()), sd, 0.03);
    EXPECT_LE(next.normal(what).abs().maxCoeff(), 2);
  }
  EXPECT_NEAR(next.match(false).mean(), quantiles.match(false).mean(), 0.01);
}

}  // namespace
}  // namespace graftcast::testing
