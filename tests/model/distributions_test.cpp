// The ensemble's distributions against tables, closed forms and sums; the random numbers against a second
// implementation and the usual statistics.

#include "ensemble/distributions.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "graftcast/error.hpp"

namespace graftcast::testing {
namespace {

TEST(NormalCdf, AgreesWithTheTable) {
  // Abramowitz & Stegun (1964) table 26.1, P(x); recalled, recomputed with another library.
  EXPECT_NEAR(normal_cdf(0), 0.5, 1e-16);
  EXPECT_NEAR(normal_cdf(1), 0.841344746068543, 1e-15);
  EXPECT_NEAR(normal_cdf(2), 0.977249868051821, 1e-15);
  EXPECT_NEAR(normal_cdf(3), 0.998650101968370, 1e-15);
  EXPECT_NEAR(normal_cdf(-1), 1 - 0.841344746068543, 1e-15);
}

TEST(NormalQuantile, AgreesWithTheTable) {
  // 97.5 % point to sixteen digits; the others Abramowitz & Stegun (1964) table 26.5 (recalled), five
  // decimals.
  EXPECT_NEAR(normal_quantile(0.975), 1.959963984540054, 1e-15);
  for (const auto& [upper_tail, x] : {std::pair{0.1, 1.28155},
                                      {0.05, 1.64485},
                                      {0.01, 2.32635},
                                      {0.001, 3.09023},
                                      {0.0001, 3.71902},
                                      {1e-6, 4.75342},
                                      {1e-9, 5.99781}}) {
    EXPECT_NEAR(normal_quantile(upper_tail), -x, 5.1e-6) << upper_tail;
  }
}

TEST(NormalQuantile, AgreesWithTheChecksOfItsPaper) {
  // Wichura (1988), AS 241, PPND16: p 0.25, 0.001 and 1e-20; recalled.
  EXPECT_NEAR(normal_quantile(0.25), -0.6744897501960817, 1e-15);
  EXPECT_NEAR(normal_quantile(0.001), -3.090232306167814, 3e-15);
  EXPECT_NEAR(normal_quantile(1e-20), -9.262340089798408, 1e-14);
}

TEST(NormalQuantile, GoesToTheDistributionFunctionAndBack) {
  for (double exponent = -15; exponent < std::log10(0.5); exponent += 0.01) {
    const double p = std::pow(10, exponent);
    EXPECT_NEAR(normal_cdf(normal_quantile(p)) / p, 1, 1e-13) << p;
    EXPECT_NEAR(normal_cdf(normal_quantile(1 - p)), 1 - p, 1e-15) << 1 - p;
  }
}

TEST(NormalQuantile, RisesAndIsOddAboutTheMiddle) {
  double before = normal_quantile(1e-15);
  for (int i = 1; i < 2000; ++i) {
    const double p = i / 2000.0;
    const double z = normal_quantile(p);
    EXPECT_GT(z, before) << p;
    EXPECT_NEAR(z, -normal_quantile(1 - p), 1e-12) << p;
    before = z;
  }
}

TEST(NormalQuantile, RefusesWhatIsNoProbabilityOfTheOpenUnitInterval) {
  for (const double p : {0.0, 1.0, -0.1, 1.1, std::numeric_limits<double>::quiet_NaN()}) {
    EXPECT_THROW(normal_quantile(p), RangeError) << p;
    EXPECT_THROW(truncated_normal_quantile(p, 2), RangeError) << p;
    EXPECT_THROW(beta_quantile(p, 2, 3), RangeError) << p;
  }
}

TEST(TruncatedNormal, EndsAtItsLimitsAndKeepsItsMiddle) {
  EXPECT_NEAR(truncated_normal_quantile(0.5, 2), 0, 1e-15);
  EXPECT_NEAR(truncated_normal_quantile(1e-14, 2), -2, 1e-12);
  EXPECT_NEAR(truncated_normal_quantile(1 - 1e-14, 2), 2, 1e-12);
  // Its distribution function is (Phi(z) - Phi(-2)) / (Phi(2) - Phi(-2)).
  const double share = normal_cdf(2) - normal_cdf(-2);
  for (int i = 1; i < 100; ++i) {
    const double z = truncated_normal_quantile(i / 100.0, 2);
    EXPECT_NEAR((normal_cdf(z) - normal_cdf(-2)) / share, i / 100.0, 1e-14);
  }
}

/// Upper tail of a binomial: P(at least a of a + b - 1), which I_x(a, b) equals (Abramowitz &
/// Stegun 26.5.24).
double binomial_tail(double x, int a, int b) {
  const int n = a + b - 1;
  double sum = 0;
  double term = std::pow(1 - x, n);
  for (int k = 0; k <= n; ++k) {
    if (k >= a) sum += term;
    term *= (n - k) * x / ((k + 1) * (1 - x));
  }
  return sum;
}

TEST(BetaQuantile, IsWhereTheBinomialSumReachesTheShareForWholeShapes) {
  for (int a = 1; a <= 12; ++a)
    for (int b = 1; b <= 12; ++b)
      for (const double p : {0.001, 0.1, 0.5, 0.77, 0.99})
        EXPECT_NEAR(binomial_tail(beta_quantile(p, a, b), a, b), p, 1e-13) << p << ' ' << a << ' ' << b;
}

TEST(BetaQuantile, HasItsClosedForms) {
  using std::numbers::pi;
  for (int i = 1; i < 100; ++i) {
    const double p = i / 100.0;
    EXPECT_NEAR(beta_quantile(p, 1, 1), p, 1e-14);
    EXPECT_NEAR(beta_quantile(p, 2, 1), std::sqrt(p), 1e-14);
    EXPECT_NEAR(beta_quantile(p, 1, 3), 1 - std::cbrt(1 - p), 1e-14);
    EXPECT_NEAR(beta_quantile(p, 0.5, 0.5), std::pow(std::sin(pi / 2 * p), 2), 1e-13);  // arcsine law
    EXPECT_NEAR(beta_quantile(p, 3.7, 1.2), 1 - beta_quantile(1 - p, 1.2, 3.7), 1e-13);
  }
}

TEST(BetaQuantile, RefusesShapesThatAreNotAboveZero) {
  EXPECT_THROW(beta_quantile(0.5, 0, 2), RangeError);
  EXPECT_THROW(beta_quantile(0.5, 2, -1), RangeError);
  EXPECT_THROW(beta_quantile(0.5, std::nan(""), 2), RangeError);
}

constexpr int draws = 20000;
double uniform(std::uint64_t counter) {
  return random_uniform(1, Purpose::jitter, counter);
}

TEST(RandomUniform, StaysInsideTheOpenIntervalWithTheMomentsOfAUniform) {
  std::array<int, 100> bins{};
  double sum = 0, squares = 0;
  for (std::uint64_t i = 0; i < draws; ++i) {
    const double u = uniform(i);
    ASSERT_GT(u, 0);
    ASSERT_LT(u, 1);
    sum += u;
    squares += u * u;
    ++bins[static_cast<std::size_t>(u * 100)];
  }
  // Four standard errors: sqrt(1/12/n) of the mean, sqrt(4/45/n) of the mean square.
  EXPECT_NEAR(sum / draws, 0.5, 4 * std::sqrt(1.0 / 12 / draws));
  EXPECT_NEAR(squares / draws, 1.0 / 3, 4 * std::sqrt(4.0 / 45 / draws));
  double chi_square = 0;
  for (const int n : bins) chi_square += (n - draws / 100.0) * (n - draws / 100.0) / (draws / 100.0);
  EXPECT_GT(chi_square, 61.1);   // 0.1 % point with 99 degrees of freedom
  EXPECT_LT(chi_square, 148.2);  // 99.9 % point
}

double correlation(auto&& x, auto&& y) {
  double sum = 0;
  for (std::uint64_t i = 0; i < draws; ++i) sum += (x(i) - 0.5) * (y(i) - 0.5);
  return 12 * sum / draws;
}

TEST(RandomUniform, OfNeighbouringCountersSeedsAndPurposesIsUncorrelated) {
  const double limit = 4 / std::sqrt(static_cast<double>(draws));
  EXPECT_LT(std::abs(correlation(uniform, [](auto i) { return uniform(i + 1); })), limit);
  EXPECT_LT(std::abs(correlation(uniform, [](auto i) { return random_uniform(2, Purpose::jitter, i); })),
            limit);
  EXPECT_LT(std::abs(correlation(uniform, [](auto i) { return random_uniform(1, Purpose::resampling, i); })),
            limit);
  EXPECT_LT(std::abs(correlation(uniform, [](auto i) { return random_uniform(1, Purpose::jitter, 0, i); })),
            limit);
  EXPECT_LT(std::abs(correlation([](auto i) { return random_uniform(1, Purpose::jitter, 7, i); },
                                 [](auto i) { return random_uniform(1, Purpose::jitter, 8, i); })),
            limit);
}

TEST(RandomBits, FlipEachForHalfOfAllNeighbouringCounters) {
  std::array<int, 64> flips{};
  for (std::uint64_t i = 0; i < draws; ++i) {
    const std::uint64_t changed = random_bits(3, Purpose::jitter, i) ^ random_bits(3, Purpose::jitter, i + 1);
    for (std::size_t bit = 0; bit < 64; ++bit) flips[bit] += static_cast<int>(changed >> bit & 1U);
  }
  for (const int n : flips) EXPECT_NEAR(n, draws / 2, 5 * std::sqrt(draws / 4.0));
}

TEST(RandomBits, AreTheSameOnEveryMachineAndInEveryVersion) {
  // Worked out by a second implementation of the documented chain of splitmix64 finalisers.
  constexpr std::uint64_t largest = std::numeric_limits<std::uint64_t>::max();
  EXPECT_EQ(random_bits(1, Purpose::forecast_temperature, 0), 0xc1d0439c2e54b27eU);
  EXPECT_EQ(random_bits(1, Purpose::forecast_temperature, 5, 7), 0xcc6cf1ac9cc23bafU);
  EXPECT_EQ(random_bits(42, Purpose::past_year, 2, 100), 0x0784bd50c55a28b8U);
  EXPECT_EQ(random_bits(0, Purpose::stratum, 0), 0xd1c0270687984b37U);
  EXPECT_EQ(random_bits(largest, Purpose::resampling, largest, largest), 0xdfa360893de22de8U);
  EXPECT_EQ(random_uniform(1, Purpose::forecast_temperature, 0), 0.757084107999918);
}

TEST(NameKey, IsFowlerNollVo) {
  // Test vectors of the 64-bit FNV-1a by its authors; recalled.
  EXPECT_EQ(name_key(""), 0xcbf29ce484222325U);
  EXPECT_EQ(name_key("a"), 0xaf63dc4c8601ec8cU);
  EXPECT_EQ(name_key("foobar"), 0x85944171f73967e8U);
}

}  // namespace
}  // namespace graftcast::testing
