// Each check on measured hours: a case that it finds beside one that it just does not. Thresholds are common
// practice in station networks, no published source.

#include "weather/quality_checks.hpp"

#include <gtest/gtest.h>

#include "made_hours.hpp"
#include "weather/site_weather.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::lisbon;
using testing::made_hours;
using testing::measure;
using testing::note;
using testing::terrace;

constexpr std::size_t noon = 24 * 10 + 12;  ///< On the eleventh day, within an hour of solar noon.
constexpr std::size_t midnight = 24 * 10;

const Hour june{std::chrono::floor<std::chrono::hours>(at("2025-06-01T00:00Z"))};

QuantityHours clean(std::size_t days = 30) {
  return made_hours(terrace, june, days, 7);
}

std::vector<QualityNote> checked(const QuantityHours& hours) {
  return check_quality(hours, "log.csv", terrace, lisbon());
}

std::size_t count(const QuantityHours& hours, std::string_view kind) {
  return note(checked(hours), kind).count;
}

void repeat(QuantityHours& hours, Quantity quantity, std::size_t from, std::size_t length, double value) {
  for (std::size_t k = from; k < from + length; ++k) measure(hours, quantity, k, value);
}

// ---- Spikes ----

/// How the hour at noon departs from both its neighbours.
std::size_t spikes_of(Quantity quantity, double departure) {
  QuantityHours hours = clean();
  const double level = hours[quantity].value[noon];
  repeat(hours, quantity, noon - 1, 3, level);
  measure(hours, quantity, noon, level + departure);
  return count(hours, "spike");
}

TEST(Spike, IsAnHourThatDepartsFromBothNeighbours) {
  EXPECT_EQ(spikes_of(Quantity::air_temperature, 8.1), 1U);
  EXPECT_EQ(spikes_of(Quantity::air_temperature, -8.1), 1U);
  EXPECT_EQ(spikes_of(Quantity::air_temperature, 7.9), 0U);
  EXPECT_EQ(spikes_of(Quantity::pressure, 1.6), 1U);
  EXPECT_EQ(spikes_of(Quantity::pressure, 1.4), 0U);
}

TEST(Spike, IsNotAStepThatStays) {
  QuantityHours hours = clean();
  for (std::size_t k = noon; k < hours.size(); ++k)
    measure(hours, Quantity::air_temperature, k, hours[Quantity::air_temperature].value[k] - 12);
  EXPECT_EQ(count(hours, "spike"), 0U);
}

TEST(Spike, IsShownWithTimeValueAndSource) {
  QuantityHours hours = clean();
  repeat(hours, Quantity::air_temperature, noon - 1, 3, 20);
  measure(hours, Quantity::air_temperature, noon, 31);
  const QualityNote spike = note(checked(hours), "spike");
  EXPECT_EQ(spike.source, "log.csv");
  ASSERT_EQ(spike.examples.size(), 1U);
  EXPECT_EQ(spike.examples[0], "2025-06-11T12:00:00Z: 20.0, 31.0, 20.0");
  EXPECT_EQ(spike.latest, at("2025-06-11T13:00Z"));
}

// ---- Stuck sensors ----

std::size_t stuck(Quantity quantity, double value, std::size_t length) {
  QuantityHours hours = clean();
  repeat(hours, quantity, midnight, length, value);
  return count(hours, "stuck-sensor");
}

TEST(StuckSensor, IsTheSameValueForADay) {
  EXPECT_EQ(stuck(Quantity::air_temperature, 14.25, 24), 24U);
  EXPECT_EQ(stuck(Quantity::air_temperature, 14.25, 23), 0U);
  EXPECT_EQ(stuck(Quantity::relative_humidity, 60, 24), 24U);
  EXPECT_EQ(stuck(Quantity::wind_speed, 1.5, 24), 24U);
  EXPECT_EQ(stuck(Quantity::pressure, 98.5, 48), 48U);
  EXPECT_EQ(stuck(Quantity::pressure, 98.5, 47), 0U);
}

TEST(StuckSensor, IsNotAFogOrACalm) {
  EXPECT_EQ(stuck(Quantity::relative_humidity, 100, 72), 0U);
  EXPECT_EQ(stuck(Quantity::wind_speed, 0, 95), 0U);
  EXPECT_EQ(stuck(Quantity::wind_speed, 0, 96), 96U);
}

TEST(StuckSensor, IsRadiationThatDoesNotMoveWithTheSun) {
  QuantityHours hours = clean();
  repeat(hours, Quantity::shortwave, noon - 2, 4, 410);
  EXPECT_EQ(count(hours, "stuck-sensor"), 0U);
  repeat(hours, Quantity::shortwave, noon - 2, 5, 410);
  EXPECT_EQ(count(hours, "stuck-sensor"), 5U);
}

TEST(StuckSensor, IsFoundInCoarseReadings) {
  const auto begin = at("2025-06-01T00:00Z");
  std::vector<double> values{11, 12, 13, 14};
  values.insert(values.end(), 9, 15.5);  // A day of three-hourly readings.
  values.insert(values.end(), {12, 11});
  const Readings readings =
      testing::stepped(Quantity::air_temperature, Kind::instant, begin, std::chrono::hours(3), values);
  EXPECT_EQ(count(resample(readings, terrace), "stuck-sensor"), 24U);
}

// ---- Radiation against the sun ----

TEST(NightSunshine, IsRadiationWithTheSunDownBeforeAndAfter) {
  QuantityHours hours = clean();
  measure(hours, Quantity::shortwave, midnight, 10);
  EXPECT_EQ(count(hours, "night-sunshine"), 0U);
  measure(hours, Quantity::shortwave, midnight, 11);
  EXPECT_EQ(count(hours, "night-sunshine"), 1U);
}

TEST(NightSunshine, IsNotTheTwilight) {
  QuantityHours hours = clean();
  std::size_t after_sunset = noon;
  while (sun_period(hours.hour(after_sunset), terrace.latitude_deg, terrace.longitude_deg).sunlit_share > 0)
    ++after_sunset;
  measure(hours, Quantity::shortwave, after_sunset, 20);
  EXPECT_EQ(count(hours, "night-sunshine"), 0U);
}

TEST(NoRadiationDay, IsAWholeLocalDayOfZeros) {
  QuantityHours hours = clean();
  repeat(hours, Quantity::shortwave, midnight - 1, 24, 0);  // Lisbon's summer clock is an hour ahead of UTC.
  const QualityNote dark = note(checked(hours), "no-radiation-day");
  EXPECT_EQ(dark.count, 1U);
  EXPECT_EQ(dark.examples, std::vector<std::string>{"2025-06-11"});
  measure(hours, Quantity::shortwave, noon, 1);
  EXPECT_EQ(count(hours, "no-radiation-day"), 0U);
}

TEST(NoRadiationDay, IsNotThePolarNight) {
  const Location north{69.6, 18.9, 10};
  const Hour december{std::chrono::floor<std::chrono::hours>(at("2025-12-10T00:00Z"))};
  QuantityHours hours = made_hours(north, december, 10, 3);
  repeat(hours, Quantity::shortwave, 0, hours.size(), 0);
  EXPECT_EQ(note(check_quality(hours, "log", north, Clock("Europe/Oslo")), "no-radiation-day").count, 0U);
}

/// Radiation given as of `by_h` hours later than it is, in whole hours.
QuantityHours slipped(const QuantityHours& hours, long by_h) {
  QuantityHours moved = hours;
  for (long k = 0; k < static_cast<long>(hours.size()); ++k) {
    const long from = std::clamp<long>(k - by_h, 0, static_cast<long>(hours.size()) - 1);
    moved[Quantity::shortwave].value[static_cast<std::size_t>(k)] =
        hours[Quantity::shortwave].value[static_cast<std::size_t>(from)];
  }
  return moved;
}

/// Mean over each hour of radiation that runs a share of an hour late, as a clock that is off makes it.
QuantityHours late_by(double share) {
  const QuantityHours hours = clean(40);
  QuantityHours late = hours;
  const auto& light = hours[Quantity::shortwave].value;
  for (std::size_t k = 1; k < hours.size(); ++k)
    late[Quantity::shortwave].value[k] = (1 - share) * light[k] + share * light[k - 1];
  return late;
}

TEST(SlipOfRadiation, IsFoundToTheHourAndItsSide) {
  const QuantityHours hours = clean(40);
  EXPECT_GT(count(slipped(hours, 1), "radiation-late"), 0U);
  EXPECT_EQ(count(slipped(hours, 1), "radiation-early"), 0U);
  EXPECT_GT(count(slipped(hours, -1), "radiation-early"), 0U);
  EXPECT_EQ(count(slipped(hours, -1), "radiation-late"), 0U);
  EXPECT_EQ(count(hours, "radiation-late") + count(hours, "radiation-early"), 0U);
}

TEST(SlipOfRadiation, OfAQuarterOfAnHourIsLeftAlone) {
  EXPECT_EQ(count(late_by(0.25), "radiation-late"), 0U);
  EXPECT_GT(count(late_by(0.75), "radiation-late"), 0U);
}

TEST(SlipOfRadiation, SaysWhatWouldMendIt) {
  const QualityNote late = note(checked(slipped(clean(40), 1)), "radiation-late");
  EXPECT_NE(late.text.find("\"stamp\": \"end\""), std::string::npos) << late.text;
  const QualityNote early = note(checked(slipped(clean(40), -1)), "radiation-early");
  EXPECT_NE(early.text.find("\"stamp\": \"start\""), std::string::npos) << early.text;
}

TEST(SlipOfRadiation, NeedsTenBrightDays) {
  QuantityHours hours = slipped(clean(30), 1);
  for (std::size_t k = 8 * 24; k < hours.size(); ++k) hours[Quantity::shortwave].origin[k] = Origin::filled;
  EXPECT_EQ(count(hours, "radiation-late"), 0U);
}

TEST(SlipOfRadiation, InSummerTimeAloneIsALoggerThatKeepsOneTime) {
  // From March to May: the clock goes on at the end of March, and the logger with it though it should not.
  const Hour march{std::chrono::floor<std::chrono::hours>(at("2025-02-20T00:00Z"))};
  const QuantityHours hours = made_hours(terrace, march, 80, 11);
  QuantityHours moved = hours;
  for (std::size_t k = 1; k < hours.size(); ++k) {
    if (lisbon().offset_at(hours.hour(k)) != std::chrono::seconds(0))
      moved[Quantity::shortwave].value[k - 1] = hours[Quantity::shortwave].value[k];
  }
  const QualityNote early = note(checked(moved), "radiation-early");
  EXPECT_GT(early.count, 0U);
  EXPECT_EQ(early.text.substr(0, 15), "in summer time,");
}

// ---- Dew point ----

TEST(DewAboveAir, BesideAHumidityIsToldAndTheHumidityTaken) {
  QuantityHours hours = clean();
  measure(hours, Quantity::air_temperature, noon, 18);
  measure(hours, Quantity::dew_point, noon, 18.5);
  EXPECT_EQ(count(hours, "dew-above-air"), 0U);
  measure(hours, Quantity::dew_point, noon, 18.6);
  EXPECT_EQ(count(hours, "dew-above-air"), 1U);
}

// ---- What the checks leave alone ----

TEST(QualityChecks, FindNothingInCleanWeatherAnywhere) {
  const std::vector<std::pair<Location, std::string>> places{
      {{41.2, -7.5, 260}, "Europe/Lisbon"},   {{-34.9, 138.6, 48}, "Australia/Adelaide"},
      {{58.0, 12.0, 20}, "Europe/Stockholm"}, {{19.4, -99.1, 2250}, "America/Mexico_City"},
      {{-1.3, 36.8, 1660}, "Africa/Nairobi"}, {{45.0, 179.5, 5}, "Pacific/Auckland"}};
  for (const auto& [place, zone] : places) {
    for (unsigned seed = 1; seed <= 5; ++seed) {
      const Hour start = june + std::chrono::hours(24 * 37 * seed);
      const QuantityHours hours = made_hours(place, start, 60, seed);
      for (const QualityNote& found : check_quality(hours, "made", place, Clock(zone)))
        ADD_FAILURE() << zone << ", seed " << seed << ": " << found.kind << ", " << found.text;
    }
  }
}

TEST(QualityChecks, LookAtMeasuredHoursAlone) {
  QuantityHours hours = slipped(clean(40), 1);
  measure(hours, Quantity::air_temperature, noon, 55);
  for (auto& column : hours.columns) std::ranges::fill(column.origin, Origin::from_daily);
  EXPECT_TRUE(checked(hours).empty());
}

TEST(QualityChecks, AreAllListedOnce) {
  std::vector<std::string_view> kinds;
  for (const QualityCheck& check : quality_checks()) kinds.push_back(check.kind);
  std::ranges::sort(kinds);
  EXPECT_EQ(std::ranges::adjacent_find(kinds), kinds.end());
  for (const char* kind : {"beyond-limits", "spike", "stuck-sensor", "night-sunshine", "no-radiation-day",
                           "dew-above-air", "radiation-late", "radiation-early"})
    EXPECT_TRUE(std::ranges::binary_search(kinds, std::string_view(kind))) << kind;
}

// ---- What a morning must know ----

TEST(SeriousFindings, AreASensorStuckInTheLastDaysAndASlipInTheLastMonth) {
  const Instant until = at("2025-07-01T00:00Z");
  const auto finding = [&](const char* kind, int days_ago) {
    return QualityNote{"log", kind, 1, "x", {}, until - std::chrono::days(days_ago)};
  };
  EXPECT_EQ(serious_findings({finding("stuck-sensor", 2)}, until).size(), 1U);
  EXPECT_EQ(serious_findings({finding("stuck-sensor", 4)}, until).size(), 0U);
  EXPECT_EQ(serious_findings({finding("radiation-late", 29)}, until).size(), 1U);
  EXPECT_EQ(serious_findings({finding("radiation-early", 31)}, until).size(), 0U);
  EXPECT_EQ(serious_findings({finding("spike", 0)}, until).size(), 0U);
  EXPECT_EQ(serious_findings({finding("stuck-sensor", 2)}, std::nullopt).size(), 0U);
}

TEST(Assemble, TellsWhatIsOddAndUsesItAllTheSame) {
  std::vector<double> values(72, 0);
  for (std::size_t k = 0; k < values.size(); ++k) values[k] = 12 + 0.05 * static_cast<double>(k % 24);
  values[30] = 33;
  const Readings readings = testing::stepped(Quantity::air_temperature, Kind::mean, at("2025-06-01T00:00Z"),
                                             std::chrono::hours(1), values);
  const SiteWeather weather = assemble({readings}, terrace, lisbon(), {at("2025-07-01T00:00Z"), false});
  EXPECT_EQ(note(weather.findings, "spike").count, 1U);
  EXPECT_EQ(weather.hourly[Variable::air_temperature].value[30], 33);
  EXPECT_EQ(weather.hourly[Variable::air_temperature].origin[30], Origin::measured);
}

}  // namespace
}  // namespace graftcast
