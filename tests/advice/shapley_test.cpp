// Shapley's values: their axioms, all orders of joining, and published games.

#include "advice/shapley.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <random>

#include "graftcast/error.hpp"

namespace graftcast::testing {
namespace {

std::vector<double> random_worths(std::size_t players, std::mt19937_64& random) {
  std::vector<double> worth(std::size_t{1} << players);
  for (double& one : worth) one = std::uniform_real_distribution(-1.0, 1.0)(random);
  return worth;
}

/// The mean of what each adds, over every order in which they can join.
std::vector<double> by_all_orders(std::size_t players, const std::vector<double>& worth) {
  std::vector<std::size_t> order(players);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<double> sums(players, 0.0);
  double orders = 0;
  do {
    std::size_t joined = 0;
    for (const std::size_t player : order) {
      sums[player] += worth[joined | std::size_t{1} << player] - worth[joined];
      joined |= std::size_t{1} << player;
    }
    ++orders;
  } while (std::next_permutation(order.begin(), order.end()));
  for (double& sum : sums) sum /= orders;
  return sums;
}

double sum_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

TEST(Shapley, AgreesWithAllOrdersOfJoining) {
  std::mt19937_64 random(1);
  for (std::size_t players = 0; players <= 6; ++players) {
    for (int repeat = 0; repeat < 10; ++repeat) {
      const std::vector<double> worth = random_worths(players, random);
      const std::vector<double> values = shapley_values(players, worth);
      const std::vector<double> expected = by_all_orders(players, worth);
      for (std::size_t i = 0; i < players; ++i) EXPECT_NEAR(values[i], expected[i], 1e-12);
    }
  }
}

TEST(Shapley, SharesOutTheWholeAndNoMore) {
  std::mt19937_64 random(2);
  for (std::size_t players = 0; players <= 12; ++players) {
    const std::vector<double> worth = random_worths(players, random);
    EXPECT_NEAR(sum_of(shapley_values(players, worth)), worth.back() - worth.front(), 1e-12) << players;
  }
}

TEST(Shapley, GivesAlikeToThoseWhoAddAlike) {
  std::mt19937_64 random(3);
  std::vector<double> worth = random_worths(6, random);
  // Players 1 and 4 change places: what one brings the other brings as well.
  for (std::size_t m = 0; m < worth.size(); ++m) {
    const bool one = (m >> 1 & 1U) != 0, four = (m >> 4 & 1U) != 0;
    if (one && !four) worth[m] = worth[(m ^ 2U) | 16U];
  }
  const std::vector<double> values = shapley_values(6, worth);
  EXPECT_NEAR(values[1], values[4], 1e-12);
  EXPECT_GT(std::abs(values[1] - values[0]), 1e-3);
}

TEST(Shapley, GivesNothingToOneWhoNeverAdds) {
  std::mt19937_64 random(4);
  std::vector<double> worth = random_worths(5, random);
  for (std::size_t m = 0; m < worth.size(); ++m)
    if ((m >> 2 & 1U) != 0) worth[m] = worth[m ^ 4U];
  EXPECT_NEAR(shapley_values(5, worth)[2], 0, 1e-15);
}

TEST(Shapley, OfTwoGamesTogetherIsTheSum) {
  std::mt19937_64 random(5);
  const std::vector<double> a = random_worths(4, random), b = random_worths(4, random);
  std::vector<double> both(a.size());
  for (std::size_t m = 0; m < a.size(); ++m) both[m] = a[m] + b[m];
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_NEAR(shapley_values(4, both)[i], shapley_values(4, a)[i] + shapley_values(4, b)[i], 1e-12);
}

// Shapley & Shubik 1954, A method for evaluating the distribution of power in a committee system: votes of
// 50, 49 and 1 with a majority of 51 have the power 4/6, 1/6, 1/6 (recalled).
TEST(Shapley, IsThePowerOfVotesInACommittee) {
  constexpr std::array<int, 3> votes{50, 49, 1};
  std::vector<double> wins(8);
  for (std::size_t m = 0; m < wins.size(); ++m) {
    int sum = 0;
    for (std::size_t i = 0; i < 3; ++i) sum += (m >> i & 1U) != 0 ? votes[i] : 0;
    wins[m] = sum >= 51 ? 1 : 0;
  }
  const std::vector<double> power = shapley_values(3, wins);
  EXPECT_NEAR(power[0], 4.0 / 6, 1e-15);
  EXPECT_NEAR(power[1], 1.0 / 6, 1e-15);
  EXPECT_NEAR(power[2], 1.0 / 6, 1e-15);
}

// Littlechild & Owen 1973, A simple expression for the Shapley value in a special case (recalled): where a
// coalition costs as much as its dearest member, each step of cost is shared alike by all who need it.
TEST(Shapley, SharesARunwayStepByStep) {
  constexpr std::array<double, 4> costs{8, 11, 13, 18};
  std::vector<double> cost(16, 0.0);
  for (std::size_t m = 1; m < cost.size(); ++m)
    cost[m] = costs[static_cast<std::size_t>(std::bit_width(m)) - 1];
  const std::vector<double> shares = shapley_values(4, cost);
  EXPECT_NEAR(shares[0], 8.0 / 4, 1e-12);
  EXPECT_NEAR(shares[1], 8.0 / 4 + 3.0 / 3, 1e-12);
  EXPECT_NEAR(shares[2], 8.0 / 4 + 3.0 / 3 + 2.0 / 2, 1e-12);
  EXPECT_NEAR(shares[3], 8.0 / 4 + 3.0 / 3 + 2.0 / 2 + 5, 1e-12);
}

TEST(Shapley, RefusesAnotherNumberOfWorthsAndTooManyPlayers) {
  EXPECT_THROW(shapley_values(2, std::vector<double>(3)), RangeError);
  EXPECT_THROW(shapley_values(most_shapley_players + 1, std::vector<double>(1)), RangeError);
}

}  // namespace
}  // namespace graftcast::testing
