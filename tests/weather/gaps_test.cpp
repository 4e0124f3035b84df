#include "weather/gaps.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"
#include "humidity.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::terrace;

/// A day from midnight on, with everything known.
QuantityHours whole_day(std::string_view midnight = "2025-06-01T00:00Z") {
  QuantityHours day = unknown_hours(std::chrono::floor<std::chrono::hours>(at(midnight)), 24);
  const double clear = clear_sky_transmissivity(terrace.elevation_m);
  for (std::size_t k = 0; k < 24; ++k) {
    const auto set = [&](Quantity quantity, double value) {
      day[quantity].value[k] = value;
      day[quantity].origin[k] = Origin::measured;
    };
    const double hour = static_cast<double>(k);
    set(Quantity::air_temperature, 15 + 8 * std::sin((hour - 9) / 24 * 6.2832));
    set(Quantity::relative_humidity, humidity_of(day[Quantity::air_temperature].value[k], 5));
    set(Quantity::wind_speed, 1 + hour / 10);
    set(Quantity::shortwave,
        0.6 * clear *
            sun_period(day.hour(k), terrace.latitude_deg, terrace.longitude_deg).mean_extraterrestrial_w_m2);
    set(Quantity::precipitation, 0.5);
    set(Quantity::gust, 5);
  }
  return day;
}

void forget(QuantityHours& day, Quantity quantity, std::size_t first, std::size_t past) {
  for (std::size_t k = first; k < past; ++k) {
    day[quantity].value[k] = unknown;
    day[quantity].origin[k] = Origin::missing;
  }
}

TEST(Gaps, RunStraightAcrossUpToThreeHours) {
  QuantityHours day = whole_day();
  forget(day, Quantity::wind_speed, 5, 8);
  fill_short_gaps(day, terrace);
  for (std::size_t k = 5; k < 8; ++k) {
    EXPECT_NEAR(day[Quantity::wind_speed].value[k], 1 + static_cast<double>(k) / 10, 1e-12);
    EXPECT_EQ(day[Quantity::wind_speed].origin[k], Origin::filled);
  }
  EXPECT_EQ(day[Quantity::wind_speed].origin[8], Origin::measured);
}

TEST(Gaps, StayWhereTheyAreLonger) {
  QuantityHours day = whole_day();
  forget(day, Quantity::wind_speed, 5, 9);
  fill_short_gaps(day, terrace);
  for (std::size_t k = 5; k < 9; ++k) EXPECT_EQ(day[Quantity::wind_speed].origin[k], Origin::missing);
}

TEST(Gaps, StayAtTheEnds) {
  QuantityHours day = whole_day();
  forget(day, Quantity::air_temperature, 0, 2);
  forget(day, Quantity::air_temperature, 22, 24);
  fill_short_gaps(day, terrace);
  EXPECT_EQ(day[Quantity::air_temperature].origin[1], Origin::missing);
  EXPECT_EQ(day[Quantity::air_temperature].origin[22], Origin::missing);
}

TEST(Gaps, InHumidityKeepTheDewPoint) {
  QuantityHours day = whole_day();
  const std::vector<double> truth = day[Quantity::relative_humidity].value;
  forget(day, Quantity::relative_humidity, 7, 10);
  forget(day, Quantity::air_temperature, 8, 9);
  fill_short_gaps(day, terrace);
  for (std::size_t k = 7; k < 10; ++k) {
    EXPECT_NEAR(
        dew_point_of(day[Quantity::air_temperature].value[k], day[Quantity::relative_humidity].value[k]), 5,
        1e-9);
    EXPECT_NEAR(day[Quantity::relative_humidity].value[k], truth[k], 2);
  }
}

TEST(Gaps, InRadiationKeepTheShareOfTheClearSky) {
  const QuantityHours truth = whole_day();
  for (std::size_t first = 1; first + 3 < 24; ++first) {
    QuantityHours day = truth;
    forget(day, Quantity::shortwave, first, first + 3);
    fill_short_gaps(day, terrace);
    for (std::size_t k = first; k < first + 3; ++k) {
      EXPECT_NEAR(day[Quantity::shortwave].value[k], truth[Quantity::shortwave].value[k], 1e-9)
          << first << " " << k;
      EXPECT_EQ(day[Quantity::shortwave].origin[k], Origin::filled);
    }
  }
}

TEST(Gaps, InRainAndGustsAreNeverInvented) {
  QuantityHours day = whole_day();
  forget(day, Quantity::precipitation, 7, 8);
  forget(day, Quantity::gust, 7, 8);
  fill_short_gaps(day, terrace);
  EXPECT_EQ(day[Quantity::precipitation].origin[7], Origin::missing);
  EXPECT_EQ(day[Quantity::gust].origin[7], Origin::missing);
}

}  // namespace
}  // namespace graftcast
