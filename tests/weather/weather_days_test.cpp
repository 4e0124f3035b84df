#include "weather/weather_days.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <random>

#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::lisbon;
using testing::terrace;

const Knowledge everything{at("2025-06-30T00:00Z"), true};
const DegreeDayRule hourly_from_ten{DegreeDayMethod::hourly, Cutoff::horizontal, 10, 30};

/// `count` hours from `from` on, all alike.
SiteWeather even_weather(std::string_view from, std::size_t count, const Clock& clock = lisbon()) {
  Readings readings = testing::stepped(Quantity::air_temperature, Kind::mean, at(from), std::chrono::hours(1),
                                       std::vector<double>(count, 20));
  const auto add = [&](Quantity quantity, Kind kind, double value) {
    readings.blocks[0].channels.push_back({quantity, kind, std::vector<double>(count, value)});
  };
  add(Quantity::relative_humidity, Kind::mean, 50);
  add(Quantity::wind_speed, Kind::mean, 2);
  add(Quantity::shortwave, Kind::mean, 100);
  add(Quantity::precipitation, Kind::sum, 0.5);
  return assemble({readings}, terrace, clock, everything);
}

TEST(WeatherDays, SumUpALocalDay) {
  const auto days = weather_days(even_weather("2025-01-10T00:00Z", 24), terrace, lisbon(), hourly_from_ten);
  ASSERT_EQ(days.size(), 1U);
  const WeatherDay& day = days[0];
  EXPECT_EQ(day_text(day.day), "2025-01-10");
  EXPECT_EQ(day.hours, 24);
  EXPECT_DOUBLE_EQ(*day.air_temperature_min_c, 20);
  EXPECT_DOUBLE_EQ(*day.relative_humidity_mean_pct, 50);
  EXPECT_NEAR(*day.vpd_mean_kpa, 2.338 / 2, 0.001);  // FAO-56 table 2.3 (recalled, agrees with eq. 11).
  EXPECT_NEAR(*day.shortwave_mj_m2, 8.64, 1e-9);
  EXPECT_NEAR(*day.precipitation_mm, 12, 1e-9);
  EXPECT_NEAR(*day.degree_days, 10, 1e-9);
  EXPECT_EQ(day.origin[static_cast<std::size_t>(Variable::air_temperature)], Origin::measured);
  EXPECT_EQ(day.origin[static_cast<std::size_t>(Variable::pressure)], Origin::derived);
  EXPECT_EQ(day.origin[static_cast<std::size_t>(Variable::gust)], Origin::missing);
}

TEST(WeatherDays, HaveTwentyThreeOrTwentyFiveHoursWhenTheClocksChange) {
  const auto spring = weather_days(even_weather("2024-03-31T00:00Z", 23), terrace, lisbon(), hourly_from_ten);
  ASSERT_EQ(spring.size(), 1U);
  EXPECT_EQ(spring[0].length_h, 23);
  EXPECT_NEAR(*spring[0].degree_days, 10.0 * 23 / 24, 1e-9);
  EXPECT_NEAR(*spring[0].precipitation_mm, 11.5, 1e-9);
  const auto autumn = weather_days(even_weather("2024-10-26T23:00Z", 25), terrace, lisbon(), hourly_from_ten);
  ASSERT_EQ(autumn.size(), 1U);
  EXPECT_EQ(autumn[0].hours, 25);
  EXPECT_NEAR(*autumn[0].degree_days, 10.0 * 25 / 24, 1e-9);
}

TEST(WeatherDays, AreSilentOnSumsOfADayWithHoles) {
  const auto days = weather_days(even_weather("2025-01-10T00:00Z", 20), terrace, lisbon(), hourly_from_ten);
  ASSERT_EQ(days.size(), 1U);
  EXPECT_EQ(days[0].hours, 20);
  EXPECT_TRUE(days[0].air_temperature_max_c);
  EXPECT_FALSE(days[0].et0_mm);
  EXPECT_FALSE(days[0].degree_days);
  EXPECT_FALSE(days[0].shortwave_mj_m2);
  EXPECT_FALSE(days[0].precipitation_mm);
}

TEST(WeatherDays, SumTheHoursForEvapotranspiration) {
  const SiteWeather weather = even_weather("2025-06-10T23:00Z", 24);
  const auto days = weather_days(weather, terrace, lisbon(), hourly_from_ten);
  const auto hours_mm = hourly_evapotranspiration_mm(weather.hourly, terrace);
  EXPECT_NEAR(*days.at(0).et0_mm, std::accumulate(hours_mm.begin(), hours_mm.end(), 0.0), 1e-12);
  EXPECT_GT(*days.at(0).et0_mm, 1);
}

TEST(WeatherDays, TakeADailyLogByItsOwnValues) {
  // FAO-56 example 18 (Uccle, 6 July): 21.5 and 12.3 degC, humidity 84 and 63 %, 2.078 m/s at 2 m, 22.07
  // MJ/m2, 50.80 N, 100 m: 3.9 mm (seen).
  const Location uccle{50.8, 4.36, 100};
  const Clock brussels("Europe/Brussels");
  const Readings log = read_table_text(
      "date,air_temperature_min [degC],air_temperature_max [degC],relative_humidity_min [%],"
      "relative_humidity_max [%],wind_speed_mean [m s-1],"
      "surface_downwelling_shortwave_flux_in_air_sum [MJ m-2]\n"
      "2024-07-06,12.3,21.5,63,84,2.078,22.07\n",
      "uccle.csv", {}, uccle, brussels);
  const auto days = weather_days(assemble({log}, uccle, brussels, everything), uccle, brussels,
                                 {DegreeDayMethod::sine, Cutoff::horizontal, 10, 30});
  ASSERT_EQ(days.size(), 1U);
  EXPECT_NEAR(*days[0].et0_mm, 3.88, 0.03);
  EXPECT_DOUBLE_EQ(*days[0].air_temperature_min_c, 12.3);
  EXPECT_DOUBLE_EQ(*days[0].air_temperature_max_c, 21.5);
  EXPECT_NEAR(*days[0].degree_days, (12.3 + 21.5) / 2 - 10,
              1e-9);  // Between the thresholds all methods agree.
  EXPECT_EQ(days[0].origin[0], Origin::from_daily);
}

TEST(WeatherDays, OfADailyLogWithoutRadiationHumidityAndWindStillHaveEvapotranspiration) {
  DayReading reading;
  reading.day = testing::day("2023-07-15");
  reading.minimum_temperature_c = 14.8;
  reading.maximum_temperature_c = 26.6;
  // FAO-56 example 20 (Lyon, day 196, 45 degrees 43 minutes north, 200 m): 4.56 mm (recalled, recomputed).
  EXPECT_NEAR(daily_log_evapotranspiration_mm(reading, {45 + 43.0 / 60, 4.85, 200}), 4.56, 0.005);
  EXPECT_THROW(daily_log_evapotranspiration_mm({}, terrace), RangeError);
}

// Every hour belongs to exactly one day, whatever the clock does.
TEST(WeatherDaysProperty, ShareOutEveryHourOnce) {
  for (const char* const zone :
       {"Europe/Lisbon", "Asia/Kathmandu", "America/Sao_Paulo", "Australia/Lord_Howe"}) {
    const Clock clock(zone);
    const SiteWeather weather = even_weather("2018-09-20T00:00Z", 24 * 200, clock);
    int hours_in_days = 0;
    std::optional<LocalDay> last;
    for (const WeatherDay& day : weather_days(weather, terrace, clock, hourly_from_ten)) {
      hours_in_days += day.hours;
      if (last) {
        EXPECT_EQ(day.day, *last + std::chrono::days(1)) << zone;
      }
      last = day.day;
    }
    EXPECT_EQ(hours_in_days, 24 * 200) << zone;
  }
}

}  // namespace
}  // namespace graftcast
