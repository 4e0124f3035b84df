#include "weather/daily_to_hourly.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "day_course.hpp"
#include "humidity.hpp"
#include "local_hours.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::day;

// ---- The curve ----

SunTimes sun_from_six_to_six() {
  return {at("2025-03-20T12:00Z"), 50, at("2025-03-20T06:00Z"), at("2025-03-20T18:00Z")};
}

Instant hour_of_that_day(double hour) {
  return at("2025-03-20T00:00Z") + std::chrono::seconds(std::lround(hour * 3600));
}

// Computed independently from the published equations (Parton & Logan 1981, form of Wann et al. 1985) for
// coefficients 1.86, 2.20, -0.17; maximum 30, minimum 10 on every day, sunrise 6, sunset 18. Printed to
// 0.001.
TEST(DayCourse, FollowsPartonAndLogan) {
  const DayCourse course({10, 30, 30, 10, 10}, sun_from_six_to_six());
  const std::vector<std::pair<double, double>> published = {
      {8, 18.237}, {12, 28.691}, {13.86, 30.000}, {18, 23.792}, {20, 19.508}, {0, 14.519}, {3, 12.587}};
  for (const auto& [hour, temperature_c] : published) {
    EXPECT_NEAR(course.temperature_c(hour_of_that_day(hour)), temperature_c, 0.0006) << hour;
  }
}

TEST(DayCourse, HeadsForTheNextMinimumAfterSunset) {
  const DayCourse warm({10, 30, 30, 10, 20}, sun_from_six_to_six());
  const DayCourse cold({10, 30, 30, 10, 0}, sun_from_six_to_six());
  EXPECT_DOUBLE_EQ(warm.temperature_c(hour_of_that_day(18)), cold.temperature_c(hour_of_that_day(18)));
  EXPECT_GT(warm.temperature_c(hour_of_that_day(23)), cold.temperature_c(hour_of_that_day(23)) + 5);
}

TEST(DayCourse, IsACosineWithoutSunrise) {
  const DayCourse course({-30, -20, -20, -30, -30},
                         {at("2025-12-20T12:00Z"), -5, std::nullopt, std::nullopt});
  EXPECT_DOUBLE_EQ(course.temperature_c(course.hottest()), -20);
  EXPECT_DOUBLE_EQ(course.temperature_c(course.coolest()), -30);
}

// ---- Whole days ----

struct Place {
  const char* zone;
  Location location;
  const char* first_day;
};

/// Ordinary places, days of 23, 24 and 25 hours, offsets of a quarter hour, polar day and night, sunset after
/// midnight.
const std::vector<Place>& places() {
  static const std::vector<Place> all = {{"Europe/Lisbon", {41.2, -7.5, 260}, "2024-03-25"},
                                         {"America/New_York", {40.7, -74, 10}, "2013-10-30"},
                                         {"Asia/Kathmandu", {27.7, 85.3, 1400}, "2024-05-01"},
                                         {"Australia/Lord_Howe", {-31.5, 159, 5}, "2024-10-02"},
                                         {"Arctic/Longyearbyen", {78.2, 15.6, 20}, "2024-06-15"},
                                         {"Arctic/Longyearbyen", {78.2, 15.6, 20}, "2024-12-15"},
                                         {"America/Anchorage", {64.8, -147.7, 130}, "2024-06-15"},
                                         {"Asia/Shanghai", {43.8, 87.6, 800}, "2024-01-01"},
                                         {"Africa/Nairobi", {-1.3, 36.8, 1700}, "2024-09-20"}};
  return all;
}

std::vector<DayReading> random_days(std::mt19937_64& generator, LocalDay first, int count) {
  std::uniform_real_distribution<double> share(0, 1);
  std::vector<DayReading> list;
  for (int k = 0; k < count; ++k) {
    DayReading reading;
    reading.day = first + std::chrono::days(k);
    reading.minimum_temperature_c = -15 + 30 * share(generator);
    reading.maximum_temperature_c = reading.minimum_temperature_c + (k % 5 == 0 ? 0 : 18 * share(generator));
    reading.minimum_humidity_pct = 60 * share(generator);
    reading.maximum_humidity_pct = reading.minimum_humidity_pct + 40 * share(generator);
    reading.wind_speed_m_s = 6 * share(generator);
    reading.gust_m_s = 20 * share(generator);
    reading.shortwave_mj_m2 = 3 * share(generator);
    reading.precipitation_mm = 25 * share(generator);
    reading.pressure_kpa = 95;
    list.push_back(reading);
  }
  return list;
}

std::vector<double> values_of(const QuantityHours& series, Quantity quantity, const HoursOfDay& range) {
  const auto first = series[quantity].value.begin() + (range.first - series.start).count();
  return {first, first + static_cast<long>(range.count())};
}

double sum(const std::vector<double>& values) {
  double total = 0;
  for (const double value : values) total += value;
  return total;
}

TEST(DailyToHourlyProperty, ExtremesMeansAndTotalsComeBackExactly) {
  std::mt19937_64 generator(3);
  for (const Place& place : places()) {
    const Clock clock(place.zone);
    const auto list = random_days(generator, day(place.first_day), 14);
    const QuantityHours series = daily_to_hourly(list, place.location, clock);
    for (const DayReading& reading : list) {
      const HoursOfDay range = hours_of(reading.day, clock);
      const auto of = [&](Quantity quantity) { return values_of(series, quantity, range); };
      const std::string where = std::string(place.zone) + " " + day_text(reading.day);
      const auto air = of(Quantity::air_temperature);
      EXPECT_EQ(*std::min_element(air.begin(), air.end()), reading.minimum_temperature_c) << where;
      EXPECT_EQ(*std::max_element(air.begin(), air.end()), reading.maximum_temperature_c) << where;
      const auto humidity = of(Quantity::relative_humidity);
      EXPECT_NEAR(*std::min_element(humidity.begin(), humidity.end()), reading.minimum_humidity_pct, 1e-9)
          << where;
      EXPECT_NEAR(*std::max_element(humidity.begin(), humidity.end()), reading.maximum_humidity_pct, 1e-9)
          << where;
      EXPECT_NEAR(sum(of(Quantity::wind_speed)) / static_cast<double>(range.count()), reading.wind_speed_m_s,
                  1e-9)
          << where;
      const auto gusts = of(Quantity::gust);
      EXPECT_NEAR(*std::max_element(gusts.begin(), gusts.end()), reading.gust_m_s, 1e-9) << where;
      EXPECT_NEAR(sum(of(Quantity::shortwave)) * 3600e-6, reading.shortwave_mj_m2, 1e-9) << where;
      EXPECT_NEAR(sum(of(Quantity::precipitation)), reading.precipitation_mm, 1e-9) << where;
    }
    for (const Origin origin : series[Quantity::air_temperature].origin)
      EXPECT_EQ(origin, Origin::from_daily);
  }
}

TEST(DailyToHourly, GivesDaysTheirTrueNumberOfHours) {
  const Clock clock("America/New_York");
  std::mt19937_64 generator(3);
  EXPECT_EQ(daily_to_hourly(random_days(generator, day("2013-03-10"), 1), {40.7, -74, 10}, clock).size(),
            23U);
  EXPECT_EQ(daily_to_hourly(random_days(generator, day("2013-11-03"), 1), {40.7, -74, 10}, clock).size(),
            25U);
}

TEST(DailyToHourly, PutsTheMinimumAtSunriseAndTheMaximumAfterNoon) {
  const Clock clock("Europe/Lisbon");
  DayReading reading;
  reading.day = day("2024-06-21");
  reading.minimum_temperature_c = 12;
  reading.maximum_temperature_c = 30;
  const QuantityHours series = daily_to_hourly(std::vector{reading}, {41.2, -7.5, 260}, clock);
  const auto& air = series[Quantity::air_temperature].value;
  const auto coolest = std::min_element(air.begin(), air.end()) - air.begin();
  const auto hottest = std::max_element(air.begin(), air.end()) - air.begin();
  // Sunrise 04:57 UTC and solar noon 12:32 UTC, computed independently by NOAA's method.
  EXPECT_EQ(series.hour(static_cast<std::size_t>(coolest)), at("2024-06-21T04:00Z"));
  EXPECT_EQ(series.hour(static_cast<std::size_t>(hottest)), at("2024-06-21T14:00Z"));
}

TEST(DailyToHourly, KeepsTheDewPointConstantAndNeverAboveTheAir) {
  const Clock clock("Europe/Lisbon");
  DayReading reading;
  reading.day = day("2024-06-21");
  reading.minimum_temperature_c = 12;
  reading.maximum_temperature_c = 30;
  reading.dew_point_c = 14;
  const QuantityHours series = daily_to_hourly(std::vector{reading}, {41.2, -7.5, 260}, clock);
  for (std::size_t k = 0; k < series.size(); ++k) {
    const double air_c = series[Quantity::air_temperature].value[k];
    const double humidity = series[Quantity::relative_humidity].value[k];
    EXPECT_NEAR(dew_point_of(air_c, humidity), std::min(air_c, 14.0), 1e-9);
  }
}

TEST(DailyToHourly, LeavesUnknownWhatTheLogDoesNotSay) {
  const Clock clock("Europe/Lisbon");
  DayReading first;
  first.day = day("2024-06-21");
  first.minimum_temperature_c = 12;
  DayReading third;
  third.day = day("2024-06-23");
  third.precipitation_mm = 24;
  const QuantityHours series = daily_to_hourly(std::vector{first, third}, {41.2, -7.5, 260}, clock);
  EXPECT_EQ(series.size(), 72U);
  EXPECT_THAT(series[Quantity::air_temperature].origin, ::testing::Each(Origin::missing));
  EXPECT_EQ(series[Quantity::precipitation].origin[30], Origin::missing);
  EXPECT_DOUBLE_EQ(series[Quantity::precipitation].value[60], 1);
}

TEST(DailyReadings, CollectAllOfADay) {
  const Readings readings = testing::table(
      "date,air_temperature_min [degC],air_temperature_max [degC],wind_speed [m s-1],"
      "surface_downwelling_shortwave_flux_in_air_mean [W m-2],precipitation "
      "[inch]\n2024-03-31,5,15,2,250,1\n");
  const auto list = daily_readings(readings, testing::lisbon());
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(day_text(list[0].day), "2024-03-31");
  EXPECT_EQ(list[0].minimum_temperature_c, 5);
  EXPECT_EQ(list[0].maximum_temperature_c, 15);
  EXPECT_EQ(list[0].wind_speed_m_s, 2);
  EXPECT_DOUBLE_EQ(list[0].precipitation_mm, 25.4);
  EXPECT_DOUBLE_EQ(list[0].shortwave_mj_m2, 250 * 23 * 3600e-6);  // A day of 23 hours.
  EXPECT_TRUE(std::isnan(list[0].dew_point_c));
}

}  // namespace
}  // namespace graftcast
