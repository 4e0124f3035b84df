#include "weather/resample.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <random>

#include "graftcast/sun.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using ::testing::DoubleNear;
using ::testing::Each;
using ::testing::ElementsAre;
using testing::stepped;
using testing::terrace;

const Instant noon = at("2025-06-01T12:00Z");

double total(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += std::isnan(value) ? 0 : value;
  return sum;
}

TEST(Resample, LeavesHoursAsTheyAre) {
  const QuantityHours result = resample(
      stepped(Quantity::air_temperature, Kind::mean, noon, std::chrono::hours(1), {1, 2, 3}), terrace);
  EXPECT_EQ(result.start, noon);
  EXPECT_THAT(result[Quantity::air_temperature].value, ElementsAre(1, 2, 3));
  EXPECT_THAT(result[Quantity::air_temperature].origin, Each(Origin::measured));
  EXPECT_THAT(result[Quantity::wind_speed].origin, Each(Origin::missing));
}

TEST(Resample, AveragesMeansAndAddsRainWithinTheHour) {
  const std::vector<double> six = {1, 2, 3, 4, 5, 6, 7, 7, 7, 7, 7, 7};
  EXPECT_THAT(resample(stepped(Quantity::air_temperature, Kind::mean, noon, std::chrono::minutes(10), six),
                       terrace)[Quantity::air_temperature]
                  .value,
              ElementsAre(3.5, 7));
  EXPECT_THAT(resample(stepped(Quantity::precipitation, Kind::sum, noon, std::chrono::minutes(10), six),
                       terrace)[Quantity::precipitation]
                  .value,
              ElementsAre(DoubleNear(21, 1e-9), DoubleNear(42, 1e-9)));
  EXPECT_THAT(resample(stepped(Quantity::gust, Kind::maximum, noon, std::chrono::minutes(10), six),
                       terrace)[Quantity::gust]
                  .value,
              ElementsAre(6, 7));
}

TEST(Resample, TurnsRatesAndSumsIntoEachOther) {
  // 1.8 MJ/m2 in half an hour is 1000 W/m2; 4 mm/h for half an hour is 2 mm.
  EXPECT_THAT(resample(stepped(Quantity::shortwave, Kind::sum, noon, std::chrono::minutes(30), {1.8, 0.9}),
                       terrace)[Quantity::shortwave]
                  .value,
              ElementsAre(DoubleNear(750, 1e-9)));
  EXPECT_THAT(resample(stepped(Quantity::precipitation, Kind::mean, noon, std::chrono::minutes(30), {4, 0}),
                       terrace)[Quantity::precipitation]
                  .value,
              ElementsAre(DoubleNear(2, 1e-9)));
}

TEST(Resample, KnowsAnHourWhenHalfOfItIsCovered) {
  const double nothing = std::nan("");
  const QuantityHours result =
      resample(stepped(Quantity::air_temperature, Kind::mean, noon, std::chrono::minutes(15),
                       {1, 3, nothing, nothing, 5, nothing, nothing, nothing}),
               terrace);
  EXPECT_EQ(result[Quantity::air_temperature].value[0], 2);
  EXPECT_EQ(result[Quantity::air_temperature].origin[1], Origin::missing);
  EXPECT_TRUE(std::isnan(result[Quantity::air_temperature].value[1]));
}

TEST(Resample, SplitsAnIntervalThatStraddlesTheHour) {
  const QuantityHours result =
      resample(stepped(Quantity::precipitation, Kind::sum, noon + std::chrono::minutes(45),
                       std::chrono::hours(1), {4, 0}),
               terrace);
  // The first hour is covered by a quarter only: not known.
  EXPECT_EQ(result[Quantity::precipitation].origin[0], Origin::missing);
  EXPECT_DOUBLE_EQ(result[Quantity::precipitation].value[1], 3);
}

TEST(Resample, JoinsHourlyInstantsByStraightLines) {
  const QuantityHours result = resample(
      stepped(Quantity::air_temperature, Kind::instant, noon, std::chrono::hours(1), {10, 12, 16}), terrace);
  EXPECT_THAT(result[Quantity::air_temperature].value, ElementsAre(11, 14, 16));
  EXPECT_THAT(result[Quantity::air_temperature].origin, Each(Origin::measured));
}

TEST(Resample, JoinsCoarseInstantsByACurveThatKeepsBetweenThem) {
  const QuantityHours result = resample(
      stepped(Quantity::air_temperature, Kind::instant, noon, std::chrono::hours(3), {10, 16, 16, 4}),
      terrace);
  const auto& air = result[Quantity::air_temperature];
  ASSERT_EQ(air.value.size(), 10U);
  EXPECT_THAT(std::vector<Origin>(air.origin.begin(), air.origin.begin() + 4),
              ElementsAre(Origin::measured, Origin::filled, Origin::filled, Origin::measured));
  for (std::size_t k = 0; k < 3; ++k) EXPECT_TRUE(air.value[k] > 10 && air.value[k] < 16) << k;
  for (std::size_t k = 3; k < 6; ++k) EXPECT_NEAR(air.value[k], 16, 1e-9) << k;
  for (std::size_t k = 7; k < 9; ++k) EXPECT_LT(air.value[k], air.value[k - 1]) << k;
}

TEST(Resample, DoesNotJoinInstantsAcrossAHole) {
  Readings readings = stepped(Quantity::air_temperature, Kind::instant, noon, std::chrono::hours(1),
                              {10, 10, 10, 10, 10, 10});
  readings.blocks[0].channels[0].value[2] = std::nan("");
  readings.blocks[0].channels[0].value[3] = std::nan("");
  const QuantityHours result = resample(readings, terrace);
  EXPECT_THAT(result[Quantity::air_temperature].origin,
              ElementsAre(Origin::measured, Origin::measured, Origin::missing, Origin::missing,
                          Origin::measured, Origin::measured));
}

TEST(Resample, JoinsCoarseHumidityAsDewPoint) {
  Readings readings =
      stepped(Quantity::air_temperature, Kind::instant, noon, std::chrono::hours(3), {20, 30});
  readings.blocks[0].channels.push_back(
      {Quantity::relative_humidity, Kind::instant, {100, 55.1}});  // Both near 20 degC.
  const QuantityHours result = resample(readings, terrace);
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(result[Quantity::dew_point].value[k], 20, 0.1);
}

TEST(Resample, MarksForecastsAndLongIntervals) {
  Readings readings = stepped(Quantity::precipitation, Kind::sum, noon, std::chrono::hours(6), {6});
  readings.is_forecast = true;
  EXPECT_THAT(resample(readings, terrace)[Quantity::precipitation].value, Each(DoubleNear(1, 1e-12)));
  EXPECT_THAT(resample(readings, terrace)[Quantity::precipitation].origin, Each(Origin::filled));
  Readings hourly = stepped(Quantity::precipitation, Kind::sum, noon, std::chrono::hours(1), {6});
  hourly.is_forecast = true;
  EXPECT_THAT(resample(hourly, terrace)[Quantity::precipitation].origin, Each(Origin::forecast));
}

TEST(Resample, SpreadsLongRadiationAsTheSunRuns) {
  const QuantityHours result = resample(
      stepped(Quantity::shortwave, Kind::mean, at("2025-06-01T00:00Z"), std::chrono::hours(12), {300}),
      terrace);
  const auto& light = result[Quantity::shortwave].value;
  EXPECT_EQ(light[0], 0);
  EXPECT_GT(light[11], light[8]);
  EXPECT_NEAR(total(light), 12 * 300, 1e-6);
}

TEST(Resample, LeavesDaysAlone) {
  EXPECT_EQ(
      resample(stepped(Quantity::precipitation, Kind::sum, noon, std::chrono::hours(24), {6, 7}), terrace)
          .size(),
      0U);
}

// Any step, any offset from the full hour: totals of rain and energy come back where the series covers its
// hours.
TEST(ResampleProperty, TotalsComeBackExactly) {
  std::mt19937_64 generator(11);
  std::uniform_int_distribution<long> step_s(60, 6 * 3600);
  std::uniform_real_distribution<double> rain(0, 5);
  for (int trial = 0; trial < 200; ++trial) {
    const std::chrono::seconds step{step_s(generator)};
    const long offset = std::uniform_int_distribution<long>(0, 1799)(generator);
    std::vector<double> values(static_cast<std::size_t>(72 * 3600 / step.count()) + 2);
    for (double& value : values) value = rain(generator);
    const auto last_covers = (offset + step.count() * static_cast<long>(values.size())) % 3600;
    if (last_covers != 0 && last_covers < 1800)
      continue;  // The last hour would be dropped as less than half known.
    const Readings drops =
        stepped(Quantity::precipitation, Kind::sum, noon + std::chrono::seconds(offset), step, values);
    // Hours at the ends are known in part; inside, and over whole hours, nothing is lost.
    const QuantityHours result = resample(drops, terrace);
    double inside = total(values);
    const double first_share = static_cast<double>(3600 - offset) / 3600.0;
    const double last_share = last_covers == 0 ? 1 : static_cast<double>(last_covers) / 3600.0;
    const auto& column = result[Quantity::precipitation].value;
    inside += column.front() * (1 - first_share) + column.back() * (1 - last_share);
    EXPECT_NEAR(total(column), inside, 1e-9) << step.count() << " " << offset;
  }
}

}  // namespace
}  // namespace graftcast
