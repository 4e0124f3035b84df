#include "graftcast/degree_days.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "graftcast/error.hpp"
#include "published/degree_days.hpp"

namespace graftcast {
namespace {

using enum DegreeDayMethod;

double celsius(double fahrenheit) {
  return (fahrenheit - 32) / 1.8;
}

/// Degree-days in degF of extremes in degF.
double degree_days_f(DegreeDayMethod method, Cutoff cutoff, double low_f, double high_f, double next_low_f,
                     double base_f, double upper_f) {
  return 1.8 *
         degree_days(
             {.minimum_c = celsius(low_f),
              .maximum_c = celsius(high_f),
              .next_minimum_c = celsius(next_low_f)},
             {.method = method, .cutoff = cutoff, .base_c = celsius(base_f), .upper_c = celsius(upper_f)});
}

double degree_days_c(DegreeDayMethod method, Cutoff cutoff, double low, double high, double base,
                     double upper) {
  return degree_days({.minimum_c = low, .maximum_c = high, .next_minimum_c = low},
                     {.method = method, .cutoff = cutoff, .base_c = base, .upper_c = upper});
}

TEST(DegreeDays, MatchZalomTable7) {
  constexpr double base = published::zalom_base_f, upper = published::zalom_upper_f;
  for (const auto& row : published::zalom_table) {
    const auto value = [&](DegreeDayMethod method) {
      return degree_days_f(method, Cutoff::horizontal, row.minimum_f, row.maximum_f, row.next_minimum_f, base,
                           upper);
    };
    constexpr double tolerance = 0.006;  // the leaflet rounds its halves too
    EXPECT_NEAR(value(triangle), row.triangle, tolerance);
    EXPECT_NEAR(value(sine), row.sine, tolerance);
    EXPECT_NEAR(value(double_sine), row.double_sine, tolerance);
    if (std::isnan(row.double_triangle)) {
      EXPECT_NEAR(value(double_triangle), 27.125, 1e-9);  // computed with the leaflet's formulas
    } else {
      EXPECT_NEAR(value(double_triangle), row.double_triangle, tolerance);
    }
  }
}

TEST(DegreeDays, MatchMcMasterAndWilhelmTable1) {
  for (const auto& row : published::mcmaster_table) {
    EXPECT_NEAR(degree_days_c(average, Cutoff::none, row.minimum_c, row.maximum_c, 0, 0), row.method_1,
                1e-12);
    EXPECT_NEAR(degree_days_c(average_floored, Cutoff::none, row.minimum_c, row.maximum_c, 0, 0),
                row.method_2, 1e-12);
  }
}

void expect_cutoff_row(const published::CutoffRow& row, auto value) {
  constexpr double tolerance = 5.1e-5;
  EXPECT_NEAR(value(sine, Cutoff::horizontal), row.sine_horizontal, tolerance);
  EXPECT_NEAR(value(sine, Cutoff::intermediate), row.sine_intermediate, tolerance);
  EXPECT_NEAR(value(sine, Cutoff::vertical), row.sine_vertical, tolerance);
  EXPECT_NEAR(value(triangle, Cutoff::horizontal), row.triangle_horizontal, tolerance);
  EXPECT_NEAR(value(triangle, Cutoff::intermediate), row.triangle_intermediate, tolerance);
  EXPECT_NEAR(value(triangle, Cutoff::vertical), row.triangle_vertical, tolerance);
}

TEST(DegreeDays, MatchASecondProgramForEveryCutoff) {
  for (const auto& row : published::cutoff_table) {
    expect_cutoff_row(row, [&](DegreeDayMethod method, Cutoff cutoff) {
      return degree_days_c(method, cutoff, row.minimum_c, row.maximum_c, 10, 30);
    });
  }
  for (const auto& row : published::cutoff_table_f) {
    expect_cutoff_row(row, [&](DegreeDayMethod method, Cutoff cutoff) {
      return degree_days_f(method, cutoff, row.minimum_c, row.maximum_c, row.minimum_c, 55, 90);
    });
  }
}

// 5 to 35 degC, then 12: computed by a second program. 7 to 14 over 12: value of a public library (seen).
TEST(DegreeDays, MatchOtherComputedValues) {
  const DailyExtremes day{.minimum_c = 5, .maximum_c = 35, .next_minimum_c = 12};
  EXPECT_NEAR(
      degree_days(day, {.method = double_sine, .cutoff = Cutoff::horizontal, .base_c = 10, .upper_c = 30}),
      11.2437, 5e-5);
  EXPECT_NEAR(
      degree_days(day,
                  {.method = double_triangle, .cutoff = Cutoff::horizontal, .base_c = 10, .upper_c = 30}),
      11.4783, 5e-5);
  EXPECT_NEAR(degree_days_c(sine, Cutoff::none, 7, 14, 12, 0), 0.47, 0.005);
  EXPECT_NEAR(degree_days_c(triangle, Cutoff::none, 7, 14, 12, 0), 0.29, 0.005);
}

// Extension pages of Iowa State (10; 36 at most), California (11) and Michigan State (2.5; 0), all seen; the
// single sine of the last two computed by a second program.
TEST(DegreeDays, MatchExtensionExamples) {
  EXPECT_NEAR(degree_days_f(average, Cutoff::none, 50, 70, 50, 50, 0), 10, 1e-9);
  EXPECT_NEAR(degree_days_f(average_floored, Cutoff::horizontal, 86, 100, 86, 50, 86), 36, 1e-9);
  EXPECT_NEAR(degree_days_f(average_floored, Cutoff::horizontal, 90, 110, 90, 50, 86), 36, 1e-9);
  EXPECT_NEAR(degree_days_f(average, Cutoff::none, 64, 64, 64, 53, 0), 11, 1e-9);
  EXPECT_NEAR(degree_days_f(average, Cutoff::none, 40, 65, 40, 50, 0), 2.5, 1e-9);
  EXPECT_NEAR(degree_days_f(average, Cutoff::none, 35, 60, 35, 50, 0), 0, 1e-9);
  EXPECT_NEAR(degree_days_f(sine, Cutoff::none, 40, 65, 40, 50, 0), 5.3087, 5e-5);
  EXPECT_NEAR(degree_days_f(sine, Cutoff::none, 35, 60, 35, 50, 0), 2.8087, 5e-5);
}

// Two cases in which a public library errs (seen): both extremes above the upper threshold, and none below
// the base.
TEST(DegreeDays, GetTheCasesRightThatOthersGetWrong) {
  EXPECT_NEAR(degree_days_c(sine, Cutoff::horizontal, 35, 40, 12, 33), 21, 1e-12);
  EXPECT_NEAR(degree_days_c(double_triangle, Cutoff::none, 15, 25, 12, 0), 8, 1e-12);
}

TEST(DevelopmentRate, TurnsAtTheThresholdsAsTheCutoffSays) {
  const auto rate = [](double t, Cutoff cutoff) {
    return development_rate_c(t, {.cutoff = cutoff, .base_c = 10, .upper_c = 30});
  };
  for (const Cutoff cutoff : {Cutoff::none, Cutoff::horizontal, Cutoff::intermediate, Cutoff::vertical}) {
    EXPECT_EQ(rate(9, cutoff), 0);
    EXPECT_EQ(rate(10, cutoff), 0);
    EXPECT_EQ(rate(11, cutoff), 1);
    EXPECT_EQ(rate(30, cutoff), 20);
  }
  EXPECT_EQ(rate(31, Cutoff::none), 21);
  EXPECT_EQ(rate(31, Cutoff::horizontal), 20);
  EXPECT_EQ(rate(31, Cutoff::intermediate), 19);
  EXPECT_EQ(rate(31, Cutoff::vertical), 0);
  EXPECT_EQ(rate(50, Cutoff::intermediate), 0);
  EXPECT_EQ(rate(55, Cutoff::intermediate), 0);
}

TEST(DegreeDays, OfTheAveragesApplyEachCutoffToTheMeanOrToEachExtreme) {
  // Mean 27 of 18 and 36: below the upper threshold 30, though the maximum is above.
  EXPECT_NEAR(degree_days_c(average, Cutoff::vertical, 18, 36, 10, 30), 17, 1e-12);
  EXPECT_NEAR(degree_days_c(average_floored, Cutoff::none, 18, 36, 10, 30), 17, 1e-12);
  EXPECT_NEAR(degree_days_c(average_floored, Cutoff::horizontal, 18, 36, 10, 30), (8 + 20) / 2.0, 1e-12);
  EXPECT_NEAR(degree_days_c(average_floored, Cutoff::intermediate, 18, 36, 10, 30), (8 + 14) / 2.0, 1e-12);
  EXPECT_NEAR(degree_days_c(average_floored, Cutoff::vertical, 18, 36, 10, 30), 8 / 2.0, 1e-12);
}

TEST(DegreeDays, OfADayThatNeitherRisesNorFallsAreTheRateItself) {
  for (const auto method : {average, average_floored, triangle, double_triangle, sine, double_sine}) {
    for (const Cutoff cutoff : {Cutoff::none, Cutoff::horizontal, Cutoff::intermediate, Cutoff::vertical}) {
      for (const double t : {-5.0, 10.0, 20.0, 30.0, 30.5, 49.0, 50.0, 60.0}) {
        const DegreeDayRule rule{.method = method, .cutoff = cutoff, .base_c = 10, .upper_c = 30};
        EXPECT_EQ(degree_days({.minimum_c = t, .maximum_c = t, .next_minimum_c = t}, rule),
                  development_rate_c(t, rule));
      }
    }
  }
}

TEST(DegreeDays, OfDoubleMethodsFollowANextMinimumAboveTheMaximum) {
  const DegreeDayRule rule{.method = double_sine, .cutoff = Cutoff::none, .base_c = 10};
  // Half a day about 10, half a day about 20: from 5 to 15, then from 15 to 25.
  const double first = degree_days({.minimum_c = 5, .maximum_c = 15, .next_minimum_c = 5}, rule);
  const double second = degree_days({.minimum_c = 15, .maximum_c = 25, .next_minimum_c = 15}, rule);
  EXPECT_NEAR(degree_days({.minimum_c = 5, .maximum_c = 15, .next_minimum_c = 25}, rule),
              (first + second) / 2, 1e-12);
}

TEST(DegreeDays, OfHoursCountEachHourAsATwentyFourthOnLongAndShortDays) {
  const DegreeDayRule rule{.cutoff = Cutoff::horizontal, .base_c = 10, .upper_c = 30};
  for (const std::size_t hours : {0U, 1U, 23U, 24U, 25U}) {
    const std::vector<double> warm(hours, 16.0);
    EXPECT_NEAR(degree_days_of_hours(warm, rule), 6.0 * static_cast<double>(hours) / 24, 1e-12);
  }
  const std::vector<double> mixed{5, 10, 12, 31};
  EXPECT_NEAR(degree_days_of_hours(mixed, rule), (0 + 0 + 2 + 20) / 24.0, 1e-12);
}

TEST(DegreeDays, OfHoursApproachTheSineTheySample) {
  std::vector<double> hours;
  for (int h = 0; h < 24; ++h) hours.push_back(20 - 12 * std::cos(2 * 3.14159265358979 * (h + 0.5) / 24));
  for (const Cutoff cutoff : {Cutoff::none, Cutoff::horizontal, Cutoff::intermediate}) {
    const DegreeDayRule rule{.method = sine, .cutoff = cutoff, .base_c = 10, .upper_c = 28};
    EXPECT_NEAR(degree_days_of_hours(hours, rule),
                degree_days({.minimum_c = 8, .maximum_c = 32, .next_minimum_c = 8}, rule), 0.1);
  }
}

TEST(DegreeDays, OfHoursRefuseAMissingHour) {
  const std::vector<double> hours{10, std::nan(""), 12};
  EXPECT_THROW(degree_days_of_hours(hours, {}), RangeError);
}

TEST(DegreeDays, FromExtremesRefuseTheHourlyMethodAndExtremesOutOfOrder) {
  EXPECT_THROW(degree_days_c(hourly, Cutoff::none, 5, 15, 10, 30), RangeError);
  EXPECT_THROW(degree_days_c(sine, Cutoff::none, 15, 5, 10, 30), RangeError);
}

TEST(DegreeDays, RefuseThresholdsOutOfOrderUnlessThereIsNoCutoff) {
  EXPECT_THROW(degree_days_c(sine, Cutoff::horizontal, 5, 15, 10, 10), RangeError);
  EXPECT_THROW(degree_days_c(sine, Cutoff::vertical, 5, 15, 10, 9), RangeError);
  EXPECT_THROW(development_rate_c(5, {.cutoff = Cutoff::intermediate, .base_c = 10, .upper_c = std::nan("")}),
               RangeError);
  EXPECT_NO_THROW(degree_days_c(sine, Cutoff::none, 5, 15, 10, 9));
}

TEST(DegreeDayWords, GoThereAndBack) {
  for (const auto& word : degree_day_method_words()) {
    ASSERT_TRUE(parse_degree_day_method(word));
    EXPECT_EQ(degree_day_method_word(*parse_degree_day_method(word)), word);
  }
  for (const auto& word : cutoff_words()) {
    ASSERT_TRUE(parse_cutoff(word));
    EXPECT_EQ(cutoff_word(*parse_cutoff(word)), word);
  }
  EXPECT_EQ(degree_day_method_words().size(), 7U);
  EXPECT_EQ(cutoff_words().size(), 4U);
  EXPECT_EQ(parse_degree_day_method("average-floored"), average_floored);
  EXPECT_EQ(parse_cutoff("vertical"), Cutoff::vertical);
  EXPECT_EQ(parse_degree_day_method("Sine"), std::nullopt);
  EXPECT_EQ(parse_degree_day_method(""), std::nullopt);
  EXPECT_EQ(parse_cutoff("vertical "), std::nullopt);
}

}  // namespace
}  // namespace graftcast
