// Arithmetic on several numbers at once, against the C++ library's on one.

#include "science/lanes.hpp"

#include <array>
#include <cmath>
#include <functional>
#include <random>

#include <gtest/gtest.h>

namespace graftcast {
namespace {

constexpr std::size_t eight = 8;
using Values = std::array<double, eight>;

template <int width, class Formula>
Values by_lanes(const Values& values, Formula formula) {
  Values results{};
  for (std::size_t first = 0; first < eight; first += width)
    formula(Lanes<width>::load(values.data() + first)).store(results.data() + first);
  return results;
}

/// Results of `formula` with one, two, four and eight lanes at a time.
template <class Formula>
std::array<Values, 4> at_all_widths(const Values& values, Formula formula) {
  return {by_lanes<1>(values, formula), by_lanes<2>(values, formula), by_lanes<4>(values, formula),
          by_lanes<8>(values, formula)};
}

double unit_in_last_place(double value) {
  return std::nextafter(std::abs(value), 1e308) - std::abs(value);
}

/// Draws values from `draw` and holds `formula` against `exact` to `units` in the last place.
template <class Formula>
void expect_close(Formula formula, const std::function<double()>& draw, long double (*exact)(long double),
                  double units) {
  for (int round = 0; round < 20000; ++round) {
    Values values{};
    for (double& value : values) value = draw();
    const auto results = at_all_widths(values, formula);
    for (std::size_t i = 0; i < eight; ++i) {
      const auto truth = static_cast<double>(exact(static_cast<long double>(values[i])));
      ASSERT_NEAR(results[3][i], truth, units * unit_in_last_place(truth)) << values[i];
    }
    for (const Values& narrower : results) ASSERT_EQ(narrower, results[3]);
  }
}

class LanesOfNumbers : public ::testing::Test {
 protected:
  std::function<double()> between(double low, double high) {
    return [this, low, high] { return std::uniform_real_distribution(low, high)(random_); };
  }
  std::mt19937_64 random_{20250611};
};

TEST_F(LanesOfNumbers, RaiseETheSameAtAnyWidthAndWithinTwoUnits) {
  const auto exp = [](const auto& x) { return x.exp(); };
  expect_close(exp, between(-708, 709), &std::exp, 2);
  expect_close(exp, between(-1, 1), &std::exp, 2);
  expect_close(exp, between(-1e-9, 1e-9), &std::exp, 2);
}

TEST_F(LanesOfNumbers, TakeLogarithmsTheSameAtAnyWidthAndWithinTwoUnits) {
  const auto log = [](const auto& x) { return x.log(); };
  const auto exponent = between(-700, 700);
  expect_close(
      log, [&] { return std::exp(exponent()); }, &std::log, 2);
  expect_close(log, between(0.5, 2), &std::log, 2);
  EXPECT_EQ(at_all_widths({1, 1, 1, 1, 1, 1, 1, 1}, log)[3], Values{});
}

TEST_F(LanesOfNumbers, TakeRootsAsTheLibraryDoes) {
  expect_close([](const auto& x) { return x.sqrt(); }, between(0, 1e6), &std::sqrt, 1);
}

TEST_F(LanesOfNumbers, HoldWhatIsBeyondTheExponentialsRange) {
  const auto exp = [](const auto& x) { return x.exp(); };
  const Values far = at_all_widths({-1e300, -709, 710, 1e300, 0, -0.0, 709, -708}, exp)[3];
  EXPECT_EQ(far[0], far[1]);
  EXPECT_GT(far[0], 0);
  EXPECT_EQ(far[2], far[3]);
  EXPECT_TRUE(std::isfinite(far[3]));
  EXPECT_EQ(far[4], 1);
  EXPECT_EQ(far[5], 1);
}

TEST_F(LanesOfNumbers, CompareAndChooseEachForItself) {
  const Values values{-2, -1, 0, 1, 2, 3, 4, 5};
  const auto held = [](const auto& x) { return x.max(-1.0).min(3.0); };
  const auto chosen = [](const auto& x) { return (x > 0.0 && x < 4.0).select(x * 10.0, 1.0 - x); };
  for (const Values& results : at_all_widths(values, held))
    EXPECT_EQ(results, (Values{-1, -1, 0, 1, 2, 3, 3, 3}));
  for (const Values& results : at_all_widths(values, chosen))
    EXPECT_EQ(results, (Values{3, 2, 1, 10, 20, 30, -3, -4}));
}

}  // namespace
}  // namespace graftcast
