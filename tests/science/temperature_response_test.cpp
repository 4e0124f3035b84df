#include "graftcast/temperature_response.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "graftcast/error.hpp"

namespace graftcast {
namespace {

constexpr CardinalTemperatures wheat{.lower_c = 0, .optimum_c = 24, .upper_c = 35};

// Yan & Hunt 1999 (formula seen; values computed by a second program).
TEST(BetaResponse, MatchesASecondProgram) {
  const double computed[][2] = {{5, 0.0890}, {10, 0.3365}, {15, 0.6521}, {20, 0.9161}, {30, 0.7396}};
  for (const auto& [t, rate] : computed) EXPECT_NEAR(beta_response(t, wheat), rate, 5e-5) << t;
  const CardinalTemperatures warm{.lower_c = 0, .optimum_c = 32.1, .upper_c = 43.7};
  EXPECT_NEAR(beta_response(20, warm), 0.5517, 5e-5);
  EXPECT_NEAR(beta_response(25, warm), 0.8072, 5e-5);
}

TEST(BetaResponse, IsOneAtTheOptimumAndNothingAtAndBeyondTheLimits) {
  EXPECT_EQ(beta_response(24, wheat), 1);
  for (const double t : {-80.0, -1.0, 0.0, 35.0, 36.0, 100.0}) EXPECT_EQ(beta_response(t, wheat), 0) << t;
  EXPECT_GT(beta_response(1e-3, wheat), 0);
  EXPECT_GT(beta_response(35 - 1e-3, wheat), 0);
}

TEST(BetaResponse, MovesWithItsLimits) {
  // Shifting all temperatures by one amount changes nothing: only distances count.
  for (double t = -5; t <= 40; t += 1.7) {
    EXPECT_NEAR(beta_response(t + 7, {.lower_c = 7, .optimum_c = 31, .upper_c = 42}), beta_response(t, wheat),
                1e-12);
  }
}

TEST(BetaResponse, RisesToTheOptimumAndFallsFromItForAnyLimits) {
  std::mt19937_64 generator(9);
  std::uniform_real_distribution<double> lower(-10, 15), part(3, 20);
  for (int i = 0; i < 500; ++i) {
    const double a = lower(generator);
    const double o = a + part(generator);
    const CardinalTemperatures cardinals{.lower_c = a, .optimum_c = o, .upper_c = o + part(generator)};
    double last = 0;
    for (int k = 0; k <= 50; ++k) {
      const double rate = beta_response(a + (o - a) * k / 50, cardinals);
      EXPECT_GE(rate, last);
      last = rate;
    }
    for (int k = 0; k <= 50; ++k) {
      const double rate = beta_response(o + (cardinals.upper_c - o) * k / 50, cardinals);
      EXPECT_LE(rate, last + 1e-12);
      last = rate;
    }
  }
}

TEST(BetaResponse, RefusesLimitsOutOfOrder) {
  EXPECT_THROW(beta_response(10, {.lower_c = 5, .optimum_c = 5, .upper_c = 30}), RangeError);
  EXPECT_THROW(beta_response(10, {.lower_c = 5, .optimum_c = 30, .upper_c = 30}), RangeError);
  EXPECT_THROW(beta_response(10, {.lower_c = 5, .optimum_c = 31, .upper_c = 30}), RangeError);
  EXPECT_THROW(beta_response(10, {.lower_c = 5, .optimum_c = std::nan(""), .upper_c = 30}), RangeError);
}

}  // namespace
}  // namespace graftcast
