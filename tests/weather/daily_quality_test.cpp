// Spikes and stuck sensors in daily logs: a case that is found beside one that just is not.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "weather/quality_checks.hpp"
#include "weather/site_weather.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::lisbon;
using testing::note;
using testing::terrace;

/// A quiet quarter in which every value moves a little from day to day.
std::vector<DayReading> quiet_days() {
  std::vector<DayReading> days;
  const LocalDay first = std::chrono::local_days(std::chrono::year(2025) / 4 / 1);
  for (int k = 0; k < 90; ++k) {
    const double sway = std::sin(k * std::numbers::pi / 5.5);
    DayReading day;
    day.day = first + std::chrono::days(k);
    day.minimum_temperature_c = 9 + 2 * sway;
    day.maximum_temperature_c = 21 + 3 * sway;
    day.mean_humidity_pct = 65 - 8 * sway;
    day.wind_speed_m_s = 1.8 + 0.5 * sway;
    day.shortwave_mj_m2 = 20 + 4 * sway;
    day.precipitation_mm = k % 3 == 0 ? 2 + sway : 0;
    day.pressure_kpa = 98 + 0.3 * sway;
    days.push_back(day);
  }
  return days;
}

std::vector<QualityNote> checked(const std::vector<DayReading>& days) {
  return check_quality(days, "log.csv", lisbon());
}

/// Notes on a log with the same `value` from the 30th day on for `length` days.
std::size_t stuck(double DayReading::*member, double value, std::size_t length) {
  std::vector<DayReading> days = quiet_days();
  for (std::size_t k = 30; k < 30 + length; ++k) days[k].*member = value;
  return note(checked(days), "stuck-sensor").count;
}

/// Notes on a log whose 31st day departs by `departure` from the 30th and the 32nd, which are equal.
std::size_t spikes(double DayReading::*member, double departure) {
  std::vector<DayReading> days = quiet_days();
  days[29].*member = days[31].*member = days[28].*member;
  days[30].*member = days[29].*member + departure;
  return note(checked(days), "spike").count;
}

TEST(DailyQuality, FindsNothingInQuietDays) {
  EXPECT_THAT(checked(quiet_days()), IsEmpty());
  EXPECT_THAT(checked({}), IsEmpty());
}

TEST(DailyQuality, SpikeIsADayThatDepartsFromBothNeighbours) {
  EXPECT_EQ(spikes(&DayReading::maximum_temperature_c, 25.1), 1U);
  EXPECT_EQ(spikes(&DayReading::maximum_temperature_c, 24.9), 0U);
  EXPECT_EQ(spikes(&DayReading::minimum_temperature_c, -25.1), 1U);
  EXPECT_EQ(spikes(&DayReading::pressure_kpa, -5.1), 1U);
  EXPECT_EQ(spikes(&DayReading::pressure_kpa, -4.9), 0U);
  EXPECT_EQ(spikes(&DayReading::precipitation_mm, 120), 0U);
}

TEST(DailyQuality, SpikeIsNoneBesideADayThatIsMissing) {
  std::vector<DayReading> days = quiet_days();
  days[30].maximum_temperature_c = 60;
  ASSERT_EQ(note(checked(days), "spike").count, 1U);
  std::vector<DayReading> unknown_neighbour = days;
  unknown_neighbour[31].maximum_temperature_c = unknown;
  EXPECT_EQ(note(checked(unknown_neighbour), "spike").count, 0U);
  days.erase(days.begin() + 31);
  EXPECT_EQ(note(checked(days), "spike").count, 0U);
}

TEST(DailyQuality, StuckSensorGivesTheSameValueDayUponDay) {
  EXPECT_EQ(stuck(&DayReading::maximum_temperature_c, 21.4, 20), 20U);
  EXPECT_EQ(stuck(&DayReading::maximum_temperature_c, 21.4, 19), 0U);
  EXPECT_EQ(stuck(&DayReading::mean_humidity_pct, 60, 10), 10U);
  EXPECT_EQ(stuck(&DayReading::mean_humidity_pct, 60, 9), 0U);
  EXPECT_EQ(stuck(&DayReading::wind_speed_m_s, 1.2, 10), 10U);
  EXPECT_EQ(stuck(&DayReading::shortwave_mj_m2, 11.5, 5), 5U);
  EXPECT_EQ(stuck(&DayReading::shortwave_mj_m2, 11.5, 4), 0U);
  EXPECT_EQ(stuck(&DayReading::precipitation_mm, 3.2, 10), 10U);
}

TEST(DailyQuality, FogCalmAndDroughtAreNoStuckSensors) {
  EXPECT_EQ(stuck(&DayReading::mean_humidity_pct, 100, 30), 0U);
  EXPECT_EQ(stuck(&DayReading::wind_speed_m_s, 0, 30), 0U);
  EXPECT_EQ(stuck(&DayReading::precipitation_mm, 0, 60), 0U);
  EXPECT_EQ(stuck(&DayReading::maximum_temperature_c, unknown, 60), 0U);
}

TEST(DailyQuality, FindingsTellDayValueAndHowFarTheyReach) {
  std::vector<DayReading> days = quiet_days();
  for (std::size_t k = 30; k < 42; ++k) days[k].wind_speed_m_s = 1.5;
  const QualityNote found = note(checked(days), "stuck-sensor");
  EXPECT_EQ(found.source, "log.csv");
  EXPECT_THAT(found.examples, ElementsAre("2025-05-01: 1.5 m/s for 12 days"));
  EXPECT_EQ(found.latest, lisbon().begin_of(days[42].day));
}

/// From the file to what the weather's findings say.
TEST(DailyQuality, IsLookedAtInADailyTable) {
  std::string table = "date,air_temperature_min [degC],air_temperature_max [degC],wind_speed_mean [m s-1]\n";
  for (const DayReading& day : quiet_days())
    table += day_text(day.day) + "," + std::to_string(day.minimum_temperature_c) + "," +
             std::to_string(day.maximum_temperature_c) + ",1.5\n";
  std::vector<Readings> sources;
  sources.push_back(read_table_text(table, "log.csv", {}, terrace, lisbon()));
  const SiteWeather weather = assemble(std::move(sources), terrace, lisbon(), {Instant{}, true});
  EXPECT_EQ(note(weather.findings, "stuck-sensor").count, 90U);
}

}  // namespace
}  // namespace graftcast
