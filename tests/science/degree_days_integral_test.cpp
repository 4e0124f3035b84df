// The closed forms against numerical integration of the same curve. Nothing here is shared with the library
// but the definition of the curves and of the cut-offs, written out anew.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <ostream>
#include <random>
#include <vector>

#include "graftcast/degree_days.hpp"

namespace graftcast {
namespace {

double reference_rate(double t, const DegreeDayRule& rule) {
  if (t <= rule.base_c) return 0;
  if (rule.cutoff == Cutoff::none || t <= rule.upper_c) return t - rule.base_c;
  if (rule.cutoff == Cutoff::horizontal) return rule.upper_c - rule.base_c;
  if (rule.cutoff == Cutoff::vertical) return 0;
  return std::max(0.0, (rule.upper_c - rule.base_c) - (t - rule.upper_c));
}

/// Temperature at `s` in 0..1 of half a day that goes from `from` to `to`.
double curve_c(DegreeDayMethod method, double from, double to, double s) {
  switch (method) {
    case DegreeDayMethod::average:
      return (from + to) / 2;
    case DegreeDayMethod::average_floored:
      return s < 0.5 ? from : to;
    case DegreeDayMethod::triangle:
    case DegreeDayMethod::double_triangle:
      return from + (to - from) * s;
    default:
      return from + (to - from) * (1 - std::cos(std::numbers::pi * s)) / 2;
  }
}

/// Where in 0..1 the monotonic half-day crosses `threshold`, by bisection; 0 or 1 where it does not.
double crossing(DegreeDayMethod method, double from, double to, double threshold) {
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    const bool before = to >= from ? curve_c(method, from, to, middle) < threshold
                                   : curve_c(method, from, to, middle) > threshold;
    (before ? low : high) = middle;
  }
  return high;
}

/// Gauss-Legendre with five points on [a, b].
double integral(const std::function<double(double)>& f, double a, double b) {
  constexpr std::array<double, 3> node{0, 0.538469310105683, 0.906179845938664};
  constexpr std::array<double, 3> weight{0.568888888888889, 0.478628670499366, 0.236926885056189};
  const double middle = (a + b) / 2, half = (b - a) / 2;
  double sum = weight[0] * f(middle);
  for (std::size_t i = 1; i < 3; ++i) {
    sum += weight[i] * (f(middle - half * node[i]) + f(middle + half * node[i]));
  }
  return sum * half;
}

/// Mean rate over a half-day, cut into smooth pieces at the thresholds and those into eight.
double half_day(const DegreeDayRule& rule, double from, double to) {
  const double turning = 2 * rule.upper_c - rule.base_c;
  std::vector<double> cuts{0, 0.5, 1};
  for (const double threshold : {rule.base_c, rule.upper_c, turning}) {
    cuts.push_back(crossing(rule.method, from, to, threshold));
  }
  std::sort(cuts.begin(), cuts.end());
  double sum = 0;
  for (std::size_t i = 1; i < cuts.size(); ++i) {
    const double step = (cuts[i] - cuts[i - 1]) / 8;
    if (step < 1e-14) continue;
    for (int k = 0; k < 8; ++k) {
      sum += integral([&](double s) { return reference_rate(curve_c(rule.method, from, to, s), rule); },
                      cuts[i - 1] + k * step, cuts[i - 1] + (k + 1) * step);
    }
  }
  return sum;
}

double numerical(const DailyExtremes& day, const DegreeDayRule& rule) {
  const bool twofold =
      rule.method == DegreeDayMethod::double_triangle || rule.method == DegreeDayMethod::double_sine;
  return (half_day(rule, day.minimum_c, day.maximum_c) +
          half_day(rule, day.maximum_c, twofold ? day.next_minimum_c : day.minimum_c)) /
         2;
}

/// Extremes and thresholds on whole degrees half of the time, so that they often coincide.
struct RandomDay {
  DailyExtremes day;
  double base_c, upper_c;
};
RandomDay random_day(std::mt19937_64& generator) {
  std::uniform_real_distribution<double> temperature(-15, 45), span(0.5, 30);
  const bool whole = generator() % 2 == 0;
  const auto draw = [&](auto& distribution) {
    const double value = distribution(generator);
    return whole ? std::ceil(value) : value;
  };
  const double a = draw(temperature), b = draw(temperature), next = draw(temperature);
  const double base = draw(temperature);
  return {.day = {.minimum_c = std::min(a, b), .maximum_c = std::max(a, b), .next_minimum_c = next},
          .base_c = base,
          .upper_c = base + draw(span)};
}

struct Combination {
  DegreeDayMethod method;
  Cutoff cutoff;
};

/// How the test framework shows one.
void PrintTo(const Combination& combination, std::ostream* out) {
  *out << degree_day_method_word(combination.method) << ' ' << cutoff_word(combination.cutoff);
}

class ClosedForm : public ::testing::TestWithParam<Combination> {};

TEST_P(ClosedForm, IsTheIntegralOfItsCurveIn10000RandomCases) {
  std::mt19937_64 generator(6);
  for (int i = 0; i < 10'000; ++i) {
    const RandomDay random = random_day(generator);
    const DegreeDayRule rule{.method = GetParam().method,
                             .cutoff = GetParam().cutoff,
                             .base_c = random.base_c,
                             .upper_c = random.upper_c};
    ASSERT_NEAR(degree_days(random.day, rule), numerical(random.day, rule), 1e-6)
        << random.day.minimum_c << " " << random.day.maximum_c << " " << random.day.next_minimum_c
        << " between " << rule.base_c << " and " << rule.upper_c;
  }
}

TEST_P(ClosedForm, OrdersTheCutoffsAndNeverFallsBelowZero) {
  std::mt19937_64 generator(7);
  for (int i = 0; i < 2'000; ++i) {
    const RandomDay random = random_day(generator);
    const auto with = [&](Cutoff cutoff) {
      return degree_days(random.day, {.method = GetParam().method,
                                      .cutoff = cutoff,
                                      .base_c = random.base_c,
                                      .upper_c = random.upper_c});
    };
    constexpr double rounding = 1e-9;
    EXPECT_GE(with(Cutoff::vertical), 0);
    EXPECT_LE(with(Cutoff::vertical), with(Cutoff::intermediate) + rounding);
    EXPECT_LE(with(Cutoff::intermediate), with(Cutoff::horizontal) + rounding);
    EXPECT_LE(with(Cutoff::horizontal), with(Cutoff::none) + rounding);
    EXPECT_LE(with(Cutoff::horizontal), random.upper_c - random.base_c + rounding);
  }
}

std::vector<Combination> every_combination() {
  std::vector<Combination> all;
  for (const auto& method : degree_day_method_words()) {
    if (method == "hourly") continue;
    for (const auto& cutoff : cutoff_words()) {
      all.push_back({.method = *parse_degree_day_method(method), .cutoff = *parse_cutoff(cutoff)});
    }
  }
  return all;
}

std::string combination_name(const ::testing::TestParamInfo<Combination>& info) {
  std::string name = std::string(degree_day_method_word(info.param.method)) + "_" +
                     std::string(cutoff_word(info.param.cutoff));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(DegreeDays, ClosedForm, ::testing::ValuesIn(every_combination()), combination_name);

/// The seventh method: hours are a curve of steps.
TEST(DegreeDays, OfHoursAreTheMeanRateOfTheHours) {
  std::mt19937_64 generator(8);
  std::uniform_real_distribution<double> temperature(-15, 45);
  for (int i = 0; i < 10'000; ++i) {
    const RandomDay random = random_day(generator);
    std::vector<double> hours(23 + generator() % 3);
    for (double& t : hours) t = temperature(generator);
    for (const auto& word : cutoff_words()) {
      const DegreeDayRule rule{
          .cutoff = *parse_cutoff(word), .base_c = random.base_c, .upper_c = random.upper_c};
      double sum = 0;
      for (const double t : hours) sum += reference_rate(t, rule) / 24;
      ASSERT_NEAR(degree_days_of_hours(hours, rule), sum, 1e-9);
    }
  }
}

}  // namespace
}  // namespace graftcast
