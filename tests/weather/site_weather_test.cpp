#include "weather/site_weather.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "graftcast/air.hpp"
#include "humidity.hpp"
#include "temporary_folder.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::lisbon;
using testing::note;
using testing::stepped;
using testing::terrace;

const Instant start = at("2025-06-01T00:00Z");
const Knowledge everything{at("2025-06-30T00:00Z"), true};

Readings named(Readings readings, std::string name) {
  readings.source = std::move(name);
  return readings;
}

Readings temperatures(std::string name, long from_h, std::vector<double> values) {
  return named(stepped(Quantity::air_temperature, Kind::mean, start + std::chrono::hours(from_h),
                       std::chrono::hours(1), std::move(values)),
               std::move(name));
}

Readings forecast(std::string name, long from_h, std::vector<double> values, Instant made_at) {
  Readings readings = temperatures(std::move(name), from_h, std::move(values));
  readings.is_forecast = true;
  readings.made_at = made_at;
  return readings;
}

const double nothing = std::nan("");

TEST(Assemble, TakesEachVariableFromTheMostTrustedSourceThatHasIt) {
  Readings own = temperatures("own", 0, {10, 11, 12, 13});
  own.blocks[0].channels.push_back({Quantity::wind_speed, Kind::mean, {1, 1, 1, 1}});
  Readings other = temperatures("other", 0, {20, 20, 20, 20, 20, 20});
  other.blocks[0].channels.push_back({Quantity::precipitation, Kind::sum, {0, 1, 2, 3, 4, 5}});
  const SiteWeather weather = assemble({own, other}, terrace, lisbon(), everything);
  EXPECT_THAT(weather.hourly[Variable::air_temperature].value, ElementsAre(10, 11, 12, 13, 20, 20));
  EXPECT_THAT(weather.hourly[Variable::air_temperature].source, ElementsAre(0, 0, 0, 0, 1, 1));
  EXPECT_THAT(weather.hourly[Variable::precipitation].value, ElementsAre(0, 1, 2, 3, 4, 5));
  EXPECT_THAT(weather.hourly.sources, ElementsAre("own", "other"));
}

TEST(Assemble, PutsMeasuredBeforeForecastAndNewerForecastsBeforeOlder) {
  const SiteWeather weather = assemble(
      {forecast("old", 0, {1, 1, 1, 1, 1, 1}, start - std::chrono::hours(12)),
       forecast("new", 0, {2, 2, 2, 2}, start - std::chrono::hours(1)), temperatures("log", 0, {3, 3})},
      terrace, lisbon(), everything);
  EXPECT_THAT(weather.hourly[Variable::air_temperature].value, ElementsAre(3, 3, 2, 2, 1, 1));
  EXPECT_THAT(weather.hourly[Variable::air_temperature].origin,
              ElementsAre(Origin::measured, Origin::measured, Origin::forecast, Origin::forecast,
                          Origin::forecast, Origin::forecast));
  EXPECT_THAT(weather.hourly.forecast_lead_h, ElementsAre(0, 0, 3, 4, 16, 17));
  EXPECT_EQ(weather.measured_until, start + std::chrono::hours(2));
  EXPECT_EQ(weather.forecast_until, start + std::chrono::hours(6));
}

TEST(Assemble, CarriesHumidityOverAsVapourPressure) {
  Readings own = temperatures("own", 0, {30});
  Readings other = temperatures("other", 0, {20});
  other.blocks[0].channels.push_back({Quantity::relative_humidity, Kind::mean, {100}});
  const SiteWeather weather = assemble({own, other}, terrace, lisbon(), everything);
  // FAO-56 table 2.3 (recalled, agrees with eq. 11): 2.338 kPa at 20 degC, 4.243 at 30.
  EXPECT_NEAR(weather.hourly[Variable::relative_humidity].value[0], 100 * 2.338 / 4.243, 0.02);
}

TEST(Assemble, TakesHumidityAsItIsFromASourceWithoutTemperature) {
  // A hygrometer whose thermometer failed in the second hour: there is no vapour pressure to carry over.
  Readings hygrometer = temperatures("hygrometer", 0, {20, nothing});
  hygrometer.blocks[0].channels.push_back({Quantity::relative_humidity, Kind::mean, {50, 60}});
  const SiteWeather weather =
      assemble({temperatures("own", 0, {30, 30}), hygrometer}, terrace, lisbon(), everything);
  const auto& humidity = weather.hourly[Variable::relative_humidity];
  EXPECT_NEAR(humidity.value[0], 50 * 2.338 / 4.243, 0.02);
  EXPECT_EQ(humidity.value[1], 60);
  EXPECT_EQ(humidity.origin[1], Origin::measured);
}

TEST(Assemble, MakesHumidityOfADewPointInAnotherFile) {
  const Readings dew =
      named(stepped(Quantity::dew_point, Kind::mean, start, std::chrono::hours(1), {20}), "dew");
  const SiteWeather weather = assemble({temperatures("own", 0, {30}), dew}, terrace, lisbon(), everything);
  EXPECT_NEAR(weather.hourly[Variable::relative_humidity].value[0], 100 * 2.338 / 4.243, 0.02);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].origin[0], Origin::measured);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].source[0], 1);
}

TEST(Assemble, MakesNoHumidityOfADewPointAboveTheAir) {
  Readings own = temperatures("own", 0, {10});
  own.blocks[0].channels.push_back({Quantity::dew_point, Kind::mean, {12}});
  const SiteWeather weather = assemble({own}, terrace, lisbon(), everything);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].origin[0], Origin::derived);
  EXPECT_EQ(note(weather.notes, "dew-above-air").count, 1U);
}

TEST(Assemble, TakesADewPointAboveTheAirByARoundingAsSaturated) {
  Readings own = temperatures("own", 0, {10});
  own.blocks[0].channels.push_back({Quantity::dew_point, Kind::mean, {10.4}});
  const SiteWeather weather = assemble({own}, terrace, lisbon(), everything);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].value[0], 100);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].origin[0], Origin::measured);
  EXPECT_EQ(note(weather.notes, "dew-above-air").count, 0U);
}

// ---- What is known when ----

TEST(AssembleAsOf, KnowsNothingMeasuredLater) {
  const Knowledge morning{start + std::chrono::hours(2), false};
  const SiteWeather weather = assemble({temperatures("log", 0, {1, 2, 3, 4})}, terrace, lisbon(), morning);
  EXPECT_EQ(weather.hourly.size(), 2U);
  EXPECT_EQ(weather.measured_until, start + std::chrono::hours(2));
  EXPECT_EQ(note(weather.notes, "later-rows").count, 2U);
}

TEST(AssembleAsOf, KnowsForecastsMadeBeforeAndNotAfter) {
  const Knowledge morning{start + std::chrono::hours(2), false};
  const SiteWeather weather =
      assemble({forecast("later", 0, {9, 9, 9, 9, 9}, start + std::chrono::hours(3)),
                forecast("earlier", 0, {5, 5, 5, 5, 5}, start), temperatures("log", 0, {1, 2, 3, 4})},
               terrace, lisbon(), morning);
  EXPECT_THAT(weather.hourly[Variable::air_temperature].value, ElementsAre(1, 2, 5, 5, 5));
  EXPECT_EQ(note(weather.notes, "later-forecast").source, "later");
}

TEST(AssembleAsOf, KnowsADayOnlyOnceItIsOver) {
  Readings daily = testing::table(
      "date,air_temperature_min [degC],air_temperature_max [degC]\n2025-05-30,5,15\n2025-05-31,6,16\n");
  const SiteWeather weather = assemble({daily}, terrace, lisbon(), {at("2025-05-31T12:00Z"), false});
  EXPECT_EQ(weather.daily_log.size(), 1U);
  EXPECT_EQ(weather.measured_until, at("2025-05-30T23:00Z"));
}

TEST(AssembleAsOf, KnowsEverythingWithHindsight) {
  const SiteWeather weather = assemble(
      {temperatures("log", 0, {1, 2, 3, 4}), forecast("later", 4, {9}, start + std::chrono::hours(3))},
      terrace, lisbon(), {start, true});
  EXPECT_EQ(weather.hourly.size(), 5U);
  EXPECT_THAT(weather.notes,
              ::testing::Not(::testing::Contains(::testing::Field(&QualityNote::kind, "later-rows"))));
}

// ---- Gaps ----

TEST(AssembleGaps, SayWhatBridgesThem) {
  const Readings log =
      temperatures("log", 0, {1, nothing, 3, nothing, nothing, nothing, nothing, nothing, 9});
  const Readings far = temperatures("airport", 3, {7, 7, 7});
  const SiteWeather weather = assemble({log, far}, terrace, lisbon(), {start + std::chrono::hours(9), false});
  ASSERT_EQ(weather.gaps.size(), 3U);
  EXPECT_EQ(weather.gaps[0].filled_by, "interpolation");
  EXPECT_EQ(weather.gaps[0].from, start + std::chrono::hours(1));
  EXPECT_EQ(weather.gaps[0].to, start + std::chrono::hours(2));
  EXPECT_EQ(weather.gaps[1].filled_by, "airport");
  EXPECT_EQ(weather.gaps[1].to, start + std::chrono::hours(6));
  // Where the airport ends two hours are left, short enough to be interpolated.
  EXPECT_EQ(weather.gaps[2].filled_by, "interpolation");
  EXPECT_THAT(weather.gaps[2].variables, ElementsAre(Variable::air_temperature));
}

TEST(AssembleGaps, StayUnknownWithoutASecondSource) {
  const Readings log = temperatures("log", 0, {1, nothing, nothing, nothing, nothing, 6});
  const SiteWeather weather = assemble({log}, terrace, lisbon(), everything);
  ASSERT_EQ(weather.gaps.size(), 1U + 1U);
  EXPECT_EQ(weather.gaps[0].filled_by, "");
  EXPECT_EQ(weather.hourly[Variable::air_temperature].origin[2], Origin::missing);
  EXPECT_EQ(weather.hourly[Variable::wind_speed].origin[2], Origin::missing);
}

TEST(AssembleGaps, SayWhereOnlyADerivationStandsIn) {
  Readings log = temperatures("log", 0, std::vector<double>(8, 15));
  log.blocks[0].channels.push_back(
      {Quantity::wind_speed, Kind::mean, {1, nothing, nothing, nothing, nothing, nothing, 1, 1}});
  const SiteWeather weather = assemble({log}, terrace, lisbon(), {start + std::chrono::hours(8), false});
  ASSERT_EQ(weather.gaps.size(), 1U);
  EXPECT_EQ(weather.gaps[0].filled_by, "derivation");
  EXPECT_THAT(weather.gaps[0].variables, ElementsAre(Variable::wind_speed));
}

TEST(AssembleGaps, BeginWhereAStaleLogEnds) {
  const SiteWeather weather =
      assemble({temperatures("log", 0, {1, 2}), forecast("service", 0, std::vector<double>(30, 8), start)},
               terrace, lisbon(), {start + std::chrono::hours(10), false});
  ASSERT_EQ(weather.gaps.size(), 1U);
  EXPECT_EQ(weather.gaps[0].from, start + std::chrono::hours(2));
  EXPECT_EQ(weather.gaps[0].to, start + std::chrono::hours(10));
  EXPECT_EQ(weather.gaps[0].filled_by, "service");
}

TEST(AssembleGaps, AreNotTheHoursBetweenCoarseInstants) {
  const Readings coarse =
      named(stepped(Quantity::air_temperature, Kind::instant, start, std::chrono::hours(3), {1, 2, 3, 4}),
            "coarse");
  const SiteWeather weather = assemble({coarse}, terrace, lisbon(), {start + std::chrono::hours(10), false});
  EXPECT_THAT(weather.gaps, IsEmpty());
}

// ---- What is derived ----

TEST(Assemble, SaysWhatIsAssumed) {
  const SiteWeather weather =
      assemble({temperatures("log", 0, std::vector<double>(48, 15))}, terrace, lisbon(), everything);
  EXPECT_THAT(weather.assumed, ElementsAre(Variable::relative_humidity, Variable::wind_speed,
                                           Variable::shortwave, Variable::pressure));
  EXPECT_EQ(note(weather.notes, "derived").count, 48U);
}

TEST(Assemble, SetsAsideDaysThatCannotBe) {
  const Readings daily = testing::table(
      "date,air_temperature_min [degC],air_temperature_max [degC],air_temperature_mean [degC],"
      "surface_downwelling_shortwave_flux_in_air_sum [MJ m-2]\n"
      "2025-01-01,9,5,7,8\n2025-01-02,5,9,7,30\n2025-01-03,,,7,8\n");
  const SiteWeather weather = assemble({daily}, terrace, lisbon(), everything);
  EXPECT_THAT(note(weather.notes, "minimum-above-maximum").examples, ElementsAre("2025-01-01"));
  EXPECT_THAT(note(weather.notes, "too-bright").examples, ElementsAre(HasSubstr("2025-01-02: 30.0 above")));
  EXPECT_EQ(note(weather.notes, "mean-only").count, 2U);
  EXPECT_EQ(weather.daily_log.size(), 1U);
}

TEST(Assemble, SetsAsideAirTooWarmAndMoist) {
  Readings log = temperatures("log", 0, {55, 20});
  log.blocks[0].channels.push_back({Quantity::relative_humidity, Kind::mean, {95, 95}});
  const SiteWeather weather = assemble({log}, terrace, lisbon(), everything);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].origin[0], Origin::derived);
  EXPECT_EQ(weather.hourly[Variable::relative_humidity].origin[1], Origin::measured);
  EXPECT_EQ(note(weather.notes, "too-moist").count, 1U);
}

TEST(Assemble, OfNothingIsEmpty) {
  const SiteWeather weather = assemble(std::vector<Readings>{}, terrace, lisbon(), everything);
  EXPECT_EQ(weather.hourly.size(), 0U);
  EXPECT_FALSE(weather.measured_until);
}

TEST(Assemble, LeavesNoNanButWhatIsMissing) {
  const SiteWeather weather =
      assemble({temperatures("log", 0, {1, nothing, nothing, nothing, nothing, 6, 7}),
                named(stepped(Quantity::shortwave, Kind::mean, start, std::chrono::hours(1), {0, 5, nothing}),
                      "light")},
               terrace, lisbon(), everything);
  for (const auto& column : weather.hourly.columns) {
    ASSERT_EQ(column.value.size(), weather.hourly.size());
    for (std::size_t k = 0; k < column.value.size(); ++k) {
      EXPECT_EQ(std::isnan(column.value[k]), column.origin[k] == Origin::missing);
    }
  }
}

// ---- From the site folder ----

TEST(ReadSource, StaysWithinTheSiteFolder) {
  const testing::TemporaryFolder folder;
  for (const char* const file : {"../log.csv", "weather/../../log.csv", "/etc/hostname", ""}) {
    SourceSettings source;
    source.file = file;
    EXPECT_THROW(read_source(folder.path(), source, terrace, lisbon()), DataError) << file;
  }
}

TEST(ReadSource, RefusesAReaderItDoesNotHave) {
  SourceSettings source;
  source.file = "log.csv";
  source.reader = "tabel";
  EXPECT_THROW(read_source(".", source, terrace, lisbon()), DataError);
}

TEST(Assemble, ReadsTheFilesOfASite) {
  const testing::TemporaryFolder folder;
  folder.write("weather/log.csv",
               "time,air_temperature [degC]\n2025-06-01T00:00Z,10\n2025-06-01T01:00Z,11\n");
  folder.write("weather/saved.csv", "time,air_temperature [degC]\n2025-06-01T02:00Z,12\n");
  WeatherSettings settings;
  settings.sources.resize(3);
  settings.sources[0].file = "weather/log.csv";
  settings.sources[1].file = "weather/saved.csv";
  settings.sources[1].as_forecast = true;
  settings.sources[2].service = "met-norway";
  const SiteWeather weather =
      assemble(folder.path(), terrace, lisbon(), settings, {at("2025-06-01T02:00Z"), false});
  EXPECT_THAT(weather.hourly[Variable::air_temperature].value, ElementsAre(10, 11, 12));
  EXPECT_EQ(note(weather.notes, "made-at-assumed").source, "weather/saved.csv");
  EXPECT_EQ(note(weather.notes, "no-saved-forecast").source, "met-norway");
}

/// The sun's formulas hold from 1800 to 2200; an archive may hold anything.
TEST(Assemble, LeavesOutYearsForWhichTheSunCannotBeWorkedOut) {
  const auto across = [](std::string_view begin) {
    return stepped(Quantity::air_temperature, Kind::instant, at(begin), std::chrono::hours(6),
                   std::vector<double>(40, 15.0));
  };
  for (const char* const begin : {"1800-12-27T00:00:00Z", "2198-12-25T00:00:00Z"}) {
    std::vector<Readings> sources{across(begin)};
    const SiteWeather weather = assemble(std::move(sources), terrace, lisbon(), everything);
    const std::size_t left_out = note(weather.notes, "beyond-era").count;
    EXPECT_EQ(left_out, 20U) << begin;
    EXPECT_GT(weather.hourly.size(), 100U) << begin;
  }
  for (const char* const begin : {"1650-01-01T00:00:00Z", "2300-01-01T00:00:00Z"}) {
    std::vector<Readings> sources{across(begin)};
    const SiteWeather weather = assemble(std::move(sources), terrace, lisbon(), everything);
    EXPECT_EQ(weather.hourly.size(), 0U);
    EXPECT_EQ(note(weather.notes, "beyond-era").count, 40U);
  }
}

}  // namespace
}  // namespace graftcast
