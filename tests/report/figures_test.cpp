#include "report/figures.hpp"

#include <limits>

#include <gtest/gtest.h>

#include "sample_reports.hpp"

namespace graftcast {
namespace {

using testing::day_of_june;
using testing::june;

const TerminalStyle metric{};
const TerminalStyle us{.units = UnitSystem::us};
const TerminalStyle ascii{.utf8 = false};

TEST(TemperatureWords, AreInTheWantedUnitAndCharacters) {
  EXPECT_EQ(temperature_words(metric, 46.2), "46 \u00b0C");
  EXPECT_EQ(temperature_words(us, 46.0), "115 \u00b0F");  // 46 x 1.8 + 32 = 114.8
  EXPECT_EQ(temperature_words(ascii, 46.2), "46 degC");
  EXPECT_EQ(temperature_figure(metric, -0.04, 1), "0.0");  // Never a negative nothing.
  EXPECT_EQ(temperature_figure(us, -40, 1), "-40.0");
}

TEST(PercentWords, NeverClaimCertainty) {
  EXPECT_EQ(percent_words(0), "under 1 %");
  EXPECT_EQ(percent_words(0.004), "under 1 %");
  EXPECT_EQ(percent_words(0.006), "1 %");
  EXPECT_EQ(percent_words(0.59), "59 %");
  EXPECT_EQ(percent_words(1), "over 99 %");
}

TEST(PercentRangeWords, SayWhenThereIsNoRange) {
  EXPECT_EQ(percent_range_words(ascii, 0.43, 0.77), "43-77 %");
  EXPECT_EQ(percent_range_words(metric, 0.43, 0.77), "43\u201377 %");
  EXPECT_EQ(percent_range_words(metric, 0.998, 1), "all members alike");
}

TEST(DayWords, NameTheYearOnlyWhereItDiffers) {
  EXPECT_EQ(day_words(day_of_june(18), day_of_june(1)), "Wed 18 Jun");
  EXPECT_EQ(day_words(LocalDay(std::chrono::year(2026) / 1 / 1), day_of_june(1)), "Thu 1 Jan 2026");
}

TEST(MomentWords, AreOnTheSitesClock) {
  const Clock madrid("Europe/Madrid");  // UTC+2 in June
  EXPECT_EQ(moment_words(madrid, june(9, 18), june(9, 4)), "today 20:00");
  EXPECT_EQ(moment_words(madrid, june(9, 23), june(9, 4)), "tomorrow 01:00");
  EXPECT_EQ(moment_words(madrid, june(8, 4), june(9, 4)), "yesterday 06:00");
  EXPECT_EQ(moment_words(madrid, june(12, 5), june(9, 4)), "Thu 12 Jun 07:00");
}

TEST(DurationWords, GrowWithTheLength) {
  EXPECT_EQ(duration_words(std::chrono::minutes(40)), "40 min");
  EXPECT_EQ(duration_words(std::chrono::hours(47)), "47 h");
  EXPECT_EQ(duration_words(std::chrono::hours(48)), "2 days");
}

TEST(Listed, EndsInAnd) {
  EXPECT_EQ(listed(std::vector<std::string>{}), "");
  EXPECT_EQ(listed(std::vector<std::string>{"a"}), "a");
  EXPECT_EQ(listed(std::vector<std::string>{"a", "b", "c"}), "a, b and c");
}

TEST(Sparkline, RunsFromTheLowestToTheHighestBar) {
  const std::vector<double> rising{10, 20, 30};
  EXPECT_EQ(sparkline(rising), "\u2581\u2585\u2588");
  const std::vector<double> holed{10, std::numeric_limits<double>::quiet_NaN(), 30};
  EXPECT_EQ(sparkline(holed), "\u2581 \u2588");
  const std::vector<double> even{5, 5};
  EXPECT_EQ(sparkline(even), "\u2585\u2585");
  EXPECT_EQ(sparkline({}), "");
}

}  // namespace
}  // namespace graftcast
