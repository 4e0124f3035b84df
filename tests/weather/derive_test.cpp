#include "weather/derive.hpp"

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
using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::lisbon;
using testing::terrace;

/// Two local days (summer: the day begins at 23:00 UTC) of temperature between 12 and 28 degC.
QuantityHours two_days() {
  QuantityHours hours = unknown_hours(std::chrono::floor<std::chrono::hours>(at("2025-06-30T23:00Z")), 48);
  for (std::size_t k = 0; k < 48; ++k) {
    hours[Quantity::air_temperature].value[k] =
        20 - 8 * std::cos(static_cast<double>(k % 24) / 24 * 2 * std::acos(-1.0));
    hours[Quantity::air_temperature].origin[k] = Origin::measured;
  }
  return hours;
}

TEST(Derive, CompletesTheHoursAndSaysWhat) {
  QuantityHours hours = two_days();
  EXPECT_THAT(derive_missing(hours, terrace, lisbon()),
              ElementsAre(Variable::relative_humidity, Variable::wind_speed, Variable::shortwave,
                          Variable::pressure));
  for (const Quantity quantity :
       {Quantity::relative_humidity, Quantity::wind_speed, Quantity::shortwave, Quantity::pressure}) {
    EXPECT_THAT(hours[quantity].origin, Each(Origin::derived));
  }
  EXPECT_THAT(hours[Quantity::precipitation].origin, Each(Origin::missing));
  EXPECT_THAT(hours[Quantity::gust].origin, Each(Origin::missing));
  EXPECT_THAT(derive_missing(hours, terrace, lisbon()), IsEmpty());
}

TEST(Derive, TakesTheMinimumForTheDewPoint) {
  QuantityHours hours = two_days();
  derive_missing(hours, terrace, lisbon());
  for (std::size_t k = 0; k < hours.size(); ++k) {
    EXPECT_NEAR(
        dew_point_of(hours[Quantity::air_temperature].value[k], hours[Quantity::relative_humidity].value[k]),
        12, 1e-9);
  }
  EXPECT_THAT(hours[Quantity::wind_speed].value, Each(2.0));
  // FAO-56 eq. 7 (seen) at 260 m, computed.
  EXPECT_NEAR(hours[Quantity::pressure].value[0], 98.27, 0.1);
}

TEST(Derive, MakesRadiationOfTheRangeOfTemperature) {
  QuantityHours hours = two_days();
  derive_missing(hours, terrace, lisbon());
  double outside = 0;
  double light = 0;
  for (std::size_t k = 0; k < 24; ++k) {
    outside +=
        sun_period(hours.hour(k), terrace.latitude_deg, terrace.longitude_deg).mean_extraterrestrial_w_m2;
    light += hours[Quantity::shortwave].value[k];
  }
  EXPECT_NEAR(light / outside, 0.16 * std::sqrt(28.0 - 12.0), 1e-9);  // FAO-56 eq. 50.
}

TEST(Derive, MakesRadiationOfCloudWhereThatIsKnown) {
  QuantityHours hours = two_days();
  for (std::size_t k = 0; k < 24; ++k) {
    hours[Quantity::cloud_cover].value[k] = 100;
    hours[Quantity::cloud_cover].origin[k] = Origin::measured;
  }
  derive_missing(hours, terrace, lisbon());
  // Kasten & Czeplak 1980: an overcast sky lets a quarter through. At 12 UTC the sun stands 72 degrees high.
  EXPECT_NEAR(hours[Quantity::shortwave].value[13],
              0.25 * (910 * std::sin(71.7 / 180 * std::acos(-1.0)) - 30), 3);
  EXPECT_GT(hours[Quantity::shortwave].value[13 + 24], 500);
}

TEST(Derive, BorrowsFromTheDayBeforeWhereADayHasJustBegun) {
  QuantityHours hours = two_days();
  for (std::size_t k = 28; k < 48; ++k) {
    hours[Quantity::air_temperature].value[k] = unknown;
    hours[Quantity::air_temperature].origin[k] = Origin::missing;
  }
  derive_missing(hours, terrace, lisbon());
  const double share =
      hours[Quantity::shortwave].value[12] /
      sun_period(hours.hour(12), terrace.latitude_deg, terrace.longitude_deg).mean_extraterrestrial_w_m2;
  EXPECT_NEAR(share, 0.64, 1e-9);
  EXPECT_NEAR(
      dew_point_of(hours[Quantity::air_temperature].value[27], hours[Quantity::relative_humidity].value[27]),
      12, 1e-9);
  EXPECT_EQ(hours[Quantity::relative_humidity].origin[30], Origin::missing);
}

TEST(Derive, LeavesWhatIsMeasured) {
  QuantityHours hours = two_days();
  hours[Quantity::wind_speed].value[5] = 7;
  hours[Quantity::wind_speed].origin[5] = Origin::measured;
  derive_missing(hours, terrace, lisbon());
  EXPECT_EQ(hours[Quantity::wind_speed].value[5], 7);
  EXPECT_EQ(hours[Quantity::wind_speed].origin[5], Origin::measured);
}

TEST(Derive, HasNothingToSayWithoutTemperature) {
  QuantityHours hours = unknown_hours(std::chrono::floor<std::chrono::hours>(at("2025-06-30T23:00Z")), 48);
  EXPECT_THAT(derive_missing(hours, terrace, lisbon()), IsEmpty());
}

}  // namespace
}  // namespace graftcast
