// Errors of forecasts: as published, or the site's own once there are enough.

#include <gtest/gtest.h>

#include "ensemble/outlook.hpp"
#include "model/known_hours.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

LeadSpread lead(int day, std::size_t forecasts, double temperature_k, double radiation = 0.2,
                double ln_wind = 0.3) {
  return {day, forecasts, temperature_k, temperature_k / 2, ln_wind, radiation};
}

ForecastErrors published() {
  return ForecastErrors{published_models().forecast};
}

TEST(OwnErrors, CountFromThirtyForecastsOn) {
  const std::vector<LeadSpread> few{lead(1, 29, 9)}, enough{lead(1, 30, 9)};
  EXPECT_EQ(own_forecasts(few), 0U);
  EXPECT_EQ(own_forecasts(enough), 30U);
  EXPECT_EQ(own_forecasts({}), 0U);
  const ForecastErrors usual = published(), same = with_own_errors(usual, few),
                       own = with_own_errors(usual, enough);
  for (const double lead_days : {0.0, 0.5, 3.0, 20.0}) {
    EXPECT_EQ(temperature_sd_k(same, lead_days), temperature_sd_k(usual, lead_days));
    EXPECT_EQ(radiation_sd(same, lead_days), radiation_sd(usual, lead_days));
    EXPECT_GE(temperature_sd_k(own, lead_days), 9);
  }
  EXPECT_EQ(same.ln_wind_sd, usual.ln_wind_sd);
  EXPECT_EQ(own.ln_wind_sd, 0.3);
}

TEST(OwnErrors, HoldInTheMiddleOfTheirDayAndGrowOnBeyondTheLast) {
  ForecastErrors usual = published();
  usual.temperature_sd_per_day.value = 0.25;
  usual.temperature_sd_limit.value = 4;
  // The second day's error is below the first's, which chance alone does; the fourth day has too few
  // forecasts.
  const ForecastErrors own = with_own_errors(
      usual, std::vector{lead(1, 40, 1.0), lead(2, 39, 0.8), lead(3, 38, 2.0), lead(4, 29, 9.0)});
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 0), 1.0);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 0.5), 1.0);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 1.5), 1.0);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 2.0), 1.5);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 2.5), 2.0);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 4.5), 2.5);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 50), 4.0);
  EXPECT_DOUBLE_EQ(dew_point_sd_k(own, 2.5), 1.0);
}

TEST(OwnErrors, MayExceedThePublishedLimit) {
  const ForecastErrors own = with_own_errors(published(), std::vector{lead(1, 30, 7.0)});
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 0.2), 7.0);
  EXPECT_DOUBLE_EQ(temperature_sd_k(own, 30), 7.0);
}

TEST(OwnErrors, NeverFallWithLead) {
  const ForecastErrors own =
      with_own_errors(published(), std::vector{lead(1, 50, 0.2, 0.5), lead(2, 50, 0.4, 0.1),
                                               lead(3, 50, 0.3, 0.3), lead(4, 50, 3.9, 0.2)});
  for (double lead_days = 0; lead_days < 20; lead_days += 0.05) {
    EXPECT_LE(temperature_sd_k(own, lead_days), temperature_sd_k(own, lead_days + 0.05));
    EXPECT_LE(radiation_sd(own, lead_days), radiation_sd(own, lead_days + 0.05));
  }
}

TEST(OwnErrors, OfAVariableThatWasNotComparedStayAsPublished) {
  LeadSpread without = lead(1, 60, 1.5);
  without.dew_point_k.reset();
  without.ln_wind.reset();
  without.radiation.reset();
  const ForecastErrors usual = published(), own = with_own_errors(usual, std::vector{without});
  EXPECT_EQ(own.ln_wind_sd, usual.ln_wind_sd);
  EXPECT_EQ(radiation_sd(own, 2), radiation_sd(usual, 2));
  EXPECT_EQ(dew_point_sd_k(own, 0.5), 1.5) << "the dew point's error follows the temperature's";
}

TEST(OwnErrors, OfTheSecondDayAloneDoNotCount) {
  EXPECT_EQ(own_forecasts(std::vector{lead(2, 60, 1.5)}), 0U);
  const ForecastErrors own = with_own_errors(published(), std::vector{lead(2, 60, 1.5)});
  EXPECT_TRUE(own.own_temperature_sd_k.empty());
}

// ---- Courses of an ensemble ----

constexpr Hour start = std::chrono::sys_days{std::chrono::May / 1 / 2025};
constexpr Hour now = start + std::chrono::hours(48);

/// Two days measured, three of forecast.
HourlyWeather with_forecast() {
  HourlyWeather known = known_hours(start, 120);
  known.sources = {"station", "ensemble"};
  for (auto& column : known.columns)
    for (std::size_t i = 48; i < 120; ++i) column.source[i] = 1;
  for (std::size_t i = 48; i < 120; ++i) known.forecast_lead_h[i] = static_cast<float>(i - 47);
  return known;
}

/// A course `offset_k` warmer, from `now` on.
HourlyWeather course(double offset_k, std::size_t hours) {
  HourlyWeather weather = known_hours(now, hours);
  for (double& air_c : weather[Variable::air_temperature].value) air_c += offset_k;
  return weather;
}

TEST(Courses, AreTakenInTurnAsFarAsAllOfThemReach) {
  const WeatherCourses courses{1, {course(0, 72), course(-2, 72), course(2, 36)}};
  const Outlook outlook =
      complete_weather(with_forecast(), start, now, now + std::chrono::hours(72), courses);
  ASSERT_EQ(outlook.courses_ahead.size(), 3U);
  for (std::size_t i = 0; i < 120; ++i) EXPECT_EQ(outlook.from_courses[i], i >= 48 && i < 48 + 36) << i;
  const std::vector<SunHour> sun = sun_of_hours({-34, 0, 100}, now, 72);
  const WeatherArrays members = weather_of_members(outlook, sun, ForecastErrors{}, 6, 1);
  const WeatherArrays expected = one_course(outlook.weather, outlook.now, outlook.weather.size());
  constexpr std::array offsets_k{0.0, -2.0, 2.0};
  for (Eigen::Index member = 0; member < 6; ++member)
    for (Eigen::Index hour = 0; hour < 72; ++hour)
      EXPECT_NEAR(
          members.air_c(member, hour),
          expected.air_c(0, hour) + (hour < 36 ? offsets_k.at(static_cast<std::size_t>(member % 3)) : 0),
          1e-12);
}

TEST(Courses, CarryOnlyTheSmallestErrorOnTop) {
  const WeatherCourses courses{1, {course(0, 72), course(-2, 72)}};
  const Outlook outlook =
      complete_weather(with_forecast(), start, now, now + std::chrono::hours(72), courses);
  const std::vector<SunHour> sun = sun_of_hours({-34, 0, 100}, now, 72);
  const ForecastErrors e = published();
  const Eigen::ArrayXXd error = weather_of_members(outlook, sun, e, 1024, 1).air_c -
                                weather_of_members(outlook, sun, ForecastErrors{}, 1024, 1).air_c;
  for (const Eigen::Index hour : {0, 35, 71}) {
    const double sd = std::sqrt((error.col(hour) - error.col(hour).mean()).square().mean());
    EXPECT_NEAR(sd, e.temperature_sd_start, 0.1 * e.temperature_sd_start) << hour;
  }
}

TEST(Courses, OfAForecastThatIsNotInUseDoNotCount) {
  const WeatherCourses others{0, {course(0, 72), course(-2, 72)}};
  const Outlook outlook = complete_weather(with_forecast(), start, now, now + std::chrono::hours(72), others);
  EXPECT_TRUE(outlook.courses_ahead.empty());
  EXPECT_TRUE(outlook.from_courses.empty());
}

}  // namespace
}  // namespace graftcast::testing
