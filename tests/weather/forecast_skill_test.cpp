// How far past forecasts were off: numbers worked out by hand.

#include "weather/forecast_skill.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "services/cache_files.hpp"
#include "services_cases.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::lisbon;
using testing::replaced;
using testing::service_fixture;
using testing::terrace;

/// Hours from `start` on, of one source; nothing known at first.
HourlyWeather hours_from(std::string_view start, std::size_t count,
                         const std::string& source = "station.csv") {
  HourlyWeather weather;
  weather.start = std::chrono::floor<std::chrono::hours>(at(start));
  weather.sources = {source};
  weather.forecast_lead_h.assign(count, 0);
  for (auto& column : weather.columns) {
    column.value.assign(count, unknown);
    column.origin.assign(count, Origin::missing);
    column.source.assign(count, 0);
  }
  return weather;
}

void set(HourlyWeather& weather, Variable variable, const std::vector<double>& values, Origin origin) {
  for (std::size_t k = 0; k < values.size(); ++k) {
    weather[variable].value[k] = values[k];
    weather[variable].origin[k] = origin;
  }
}

HourlyWeather measured(const std::string& source = "station.csv") {
  HourlyWeather log = hours_from("2025-06-09T05:00:00Z", 4, source);
  set(log, Variable::air_temperature, {10, 10, 14, 15}, Origin::measured);
  set(log, Variable::relative_humidity, {100, 100, 100, 100}, Origin::measured);
  set(log, Variable::wind_speed, {1, 1, 1, 1}, Origin::measured);
  set(log, Variable::shortwave, {0, 50, 250, 0}, Origin::measured);
  return log;
}

MadeForecast this_morning() {
  MadeForecast forecast{at("2025-06-09T05:30:00Z"), hours_from("2025-06-09T05:00:00Z", 4)};
  set(forecast.hourly, Variable::air_temperature, {30, 12, 15, 13}, Origin::forecast);
  set(forecast.hourly, Variable::relative_humidity, {100, 100, 100, 100}, Origin::forecast);
  set(forecast.hourly, Variable::wind_speed, {9, 2, 1, 0.2}, Origin::forecast);
  set(forecast.hourly, Variable::shortwave, {900, 100, 200, 0}, Origin::forecast);
  return forecast;
}

MadeForecast the_morning_before() {
  MadeForecast forecast{at("2025-06-08T05:30:00Z"), hours_from("2025-06-09T05:00:00Z", 2)};
  set(forecast.hourly, Variable::air_temperature, {9, 13}, Origin::forecast);
  return forecast;
}

const LeadError& error_of(const ForecastSkill& skill, Variable variable, std::size_t place) {
  return skill.errors.at(static_cast<std::size_t>(variable)).at(place);
}

TEST(ForecastSkill, IsBiasAndRootMeanSquareByDayOfLead) {
  const std::vector<MadeForecast> forecasts{this_morning(), the_morning_before()};
  const ForecastSkill skill = skill_of("met-norway", forecasts, measured());
  EXPECT_EQ(skill.forecasts, 2U);
  EXPECT_EQ(skill.first_made, at("2025-06-08T05:30:00Z"));
  EXPECT_EQ(skill.last_made, at("2025-06-09T05:30:00Z"));

  // This morning's first hour began before the making. The rest is off by +2, +1, -2; and on its first day
  // the forecast of the morning before is off by 9 - 10 = -1 in the hour from 23.5 h after its making on.
  const LeadError& first = error_of(skill, Variable::air_temperature, 0);
  EXPECT_EQ(first.day, 1);
  EXPECT_EQ(first.hours, 4U);
  EXPECT_DOUBLE_EQ(first.bias, 0);
  EXPECT_DOUBLE_EQ(first.rmse, std::sqrt(10.0 / 4));
  // Its second hour begins 24.5 h after the making: off by 13 - 10.
  const LeadError& second = error_of(skill, Variable::air_temperature, 1);
  EXPECT_EQ(second.day, 2);
  EXPECT_EQ(second.hours, 1U);
  EXPECT_DOUBLE_EQ(second.bias, 3);
  EXPECT_DOUBLE_EQ(second.rmse, 3);

  // Wind is off by +1, 0, -0.8.
  EXPECT_DOUBLE_EQ(error_of(skill, Variable::wind_speed, 0).bias, 0.2 / 3);
  EXPECT_DOUBLE_EQ(error_of(skill, Variable::wind_speed, 0).rmse, std::sqrt(1.64 / 3));
  EXPECT_TRUE(skill.errors[static_cast<std::size_t>(Variable::pressure)].empty());
}

TEST(ForecastSkill, IsHandedOnAsTheEnsembleNeedsIt) {
  const ForecastSkill skill = skill_of("met-norway", std::vector{this_morning()}, measured());
  ASSERT_EQ(skill.spreads.size(), 1U);
  const LeadSpread& spread = skill.spreads[0];
  EXPECT_EQ(spread.day, 1);
  EXPECT_EQ(spread.forecasts, 1U);
  EXPECT_DOUBLE_EQ(spread.temperature_k, std::sqrt(3.0));         // +2, +1, -2
  EXPECT_NEAR(spread.dew_point_k.value(), std::sqrt(3.0), 1e-9);  // Saturated: the dew point is the air's.
  // 2 against 1, 1 against 1; 0.2 m/s is left out.
  EXPECT_DOUBLE_EQ(spread.ln_wind.value(), std::sqrt(std::log(2.0) * std::log(2.0) / 2));
  // (50 - 100)^2 + (250 - 200)^2 = 5000 over 100^2 + 200^2 = 50,000.
  EXPECT_DOUBLE_EQ(spread.radiation.value(), std::sqrt(0.1));
}

TEST(ForecastSkill, IsAgainstWhatALogMeasuredAlone) {
  HourlyWeather log = measured();
  log[Variable::air_temperature].origin[2] = Origin::filled;
  log[Variable::air_temperature].origin[3] = Origin::from_daily;
  EXPECT_EQ(error_of(skill_of("x", std::vector{this_morning()}, log), Variable::air_temperature, 0).hours,
            1U);
  const ForecastSkill against_archive =
      skill_of("x", std::vector{this_morning()}, measured("open-meteo-archive"));
  EXPECT_EQ(against_archive.forecasts, 0U);
  EXPECT_TRUE(against_archive.spreads.empty());
}

TEST(ForecastSkill, OfAForecastOfOtherDaysIsNothing) {
  MadeForecast later = this_morning();
  later.made_at += std::chrono::hours(24);
  later.hourly.start += std::chrono::hours(24);
  EXPECT_EQ(skill_of("x", std::vector{later}, measured()).forecasts, 0U);
  EXPECT_EQ(skill_of("x", {}, measured()).forecasts, 0U);
}

TEST(ForecastSkill, BeyondSixteenDaysIsLeftOut) {
  MadeForecast old = this_morning();
  old.made_at -= std::chrono::hours(24 * most_lead_days + 1);
  EXPECT_EQ(skill_of("x", std::vector{old}, measured()).forecasts, 0U);
  old.made_at += std::chrono::hours(24);
  EXPECT_EQ(error_of(skill_of("x", std::vector{old}, measured()), Variable::air_temperature, 0).day,
            most_lead_days);
}

// ---- Of what is kept ----

struct KeptForecasts {
  testing::TemporaryFolder folder;
  WeatherSettings settings;
  SiteWeather weather;

  KeptForecasts() {
    SourceSettings source;
    source.service = "met-norway";
    source.contact = "grower@example.org";
    settings.sources = {source};
    weather.hourly = hours_from("2025-06-09T00:00:00Z", 48);
    set(weather.hourly, Variable::air_temperature, std::vector<double>(48, 10.0), Origin::measured);
  }
  void keep(const std::string& made) {
    const std::string body =
        replaced(service_fixture("met_norway_complete.json"), "2025-06-09T03:37:12Z", made);
    CacheFiles(folder.path(), settings.sources[0])
        .keep(at(made), {"https://example.org", at(made), {200, {}, body}});
  }
  std::vector<ForecastSkill> skill(std::string_view as_of, bool hindsight = false) const {
    return kept_skill(folder.path(), terrace, lisbon(), settings, weather, {at(as_of), hindsight});
  }
};

TEST(KeptSkill, TakesTheLastForecastOfEachDay) {
  KeptForecasts kept;
  for (const char* const made :
       {"2025-06-08T03:37:12Z", "2025-06-08T20:37:12Z", "2025-06-09T03:37:12Z", "2025-06-09T05:37:12Z"})
    kept.keep(made);
  const auto skill = kept.skill("2025-06-10T12:00:00Z");
  ASSERT_EQ(skill.size(), 1U);
  EXPECT_EQ(skill[0].source, "met-norway");
  EXPECT_EQ(skill[0].forecasts, 2U);
  EXPECT_EQ(skill[0].first_made, at("2025-06-08T20:37:12Z"));
  EXPECT_EQ(skill[0].last_made, at("2025-06-09T05:37:12Z"));
}

TEST(KeptSkill, KnowsNothingOfLaterForecastsNorOfThoseOlderThanNinetyDays) {
  KeptForecasts kept;
  kept.keep("2025-06-08T20:37:12Z");
  kept.keep("2025-06-09T05:37:12Z");
  EXPECT_EQ(kept.skill("2025-06-09T05:00:00Z").at(0).forecasts, 1U);
  EXPECT_EQ(kept.skill("2025-06-09T05:00:00Z", true).at(0).forecasts, 2U);
  EXPECT_EQ(kept.skill("2025-09-07T04:00:00Z").at(0).forecasts, 1U);
  EXPECT_TRUE(kept.skill("2025-09-08T04:00:00Z").empty());
}

TEST(KeptSkill, LeavesOutWhatCannotBeRead) {
  KeptForecasts kept;
  kept.keep("2025-06-08T20:37:12Z");
  kept.keep("2025-06-09T05:37:12Z");
  std::filesystem::resize_file(past_forecasts(kept.folder.path(), kept.settings.sources[0]).at(0).file, 100);
  EXPECT_EQ(kept.skill("2025-06-10T12:00:00Z").at(0).forecasts, 1U);
}

TEST(KeptSkill, LooksAtTheNewestWhereNoMoreAreWanted) {
  KeptForecasts kept;
  for (const char* const made : {"2025-06-07T20:37:12Z", "2025-06-08T20:37:12Z", "2025-06-09T05:37:12Z"})
    kept.keep(made);
  const Knowledge knowledge{at("2025-06-10T12:00:00Z"), false};
  const auto skill = kept_skill(kept.folder.path(), terrace, lisbon(), kept.settings, kept.weather, knowledge,
                                {"met-norway", 2});
  ASSERT_EQ(skill.size(), 1U);
  EXPECT_EQ(skill[0].forecasts, 2U);
  EXPECT_EQ(skill[0].first_made, at("2025-06-08T20:37:12Z"));
}

/// A forecast as a table, 12 degC throughout where 10 are measured.
SourceSettings forecast_file(const testing::TemporaryFolder& folder, const std::string& name) {
  std::string table = "time,air_temperature [degC]\n";
  for (int hour = 0; hour < 24; ++hour)
    table += "2025-06-09T" + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":00Z,12\n";
  folder.write(name, table);
  SourceSettings source;
  source.file = name;
  source.as_forecast = true;
  return source;
}

TEST(KeptSkill, ScoresForecastsGivenAsFilesThatTellWhenTheyWereMade) {
  KeptForecasts kept;
  kept.settings.sources = {forecast_file(kept.folder, "weather/one.csv"),
                           forecast_file(kept.folder, "weather/two.csv")};
  EXPECT_TRUE(kept.skill("2025-06-10T12:00:00Z").empty());  // When they were made would be a guess.
  kept.settings.sources[0].made_at = at("2025-06-08T12:00:00Z");
  const auto skill = kept.skill("2025-06-10T12:00:00Z");
  ASSERT_EQ(skill.size(), 1U);
  EXPECT_EQ(skill[0].source, "files");
  EXPECT_EQ(skill[0].forecasts, 1U);
  const LeadError& first = error_of(skill[0], Variable::air_temperature, 0);
  EXPECT_EQ(first.hours, 12U);
  EXPECT_DOUBLE_EQ(first.bias, 2);
  EXPECT_EQ(error_of(skill[0], Variable::air_temperature, 1).hours, 12U);
  kept.settings.sources[1].made_at = at("2025-06-08T18:00:00Z");
  EXPECT_EQ(kept.skill("2025-06-10T12:00:00Z").at(0).forecasts, 2U);
  EXPECT_EQ(kept.skill("2025-06-08T15:00:00Z").at(0).forecasts, 1U);
}

TEST(SourceAhead, IsTheServiceOfTheFirstForecastHourFromNowOn) {
  HourlyWeather weather = hours_from("2025-06-09T00:00:00Z", 6);
  weather.sources = {"station.csv", "nws", "met-norway"};
  set(weather, Variable::air_temperature, {1, 2, 3, 4, 5, 6}, Origin::forecast);
  weather[Variable::air_temperature].source = {0, 1, 1, 2, 2, 2};
  weather.forecast_lead_h = {0, 2, 3, 1, 2, 3};
  EXPECT_EQ(source_ahead(weather, at("2025-06-09T02:30:00Z")), "nws");
  EXPECT_EQ(source_ahead(weather, at("2025-06-09T03:00:00Z")), "met-norway");
  EXPECT_EQ(source_ahead(weather, at("2025-06-09T06:00:00Z")), "");
  EXPECT_EQ(source_ahead({}, at("2025-06-09T06:00:00Z")), "");
}

// ---- Courses of an ensemble ----

TEST(SiteWeatherCourses, AreThoseOfTheNewestEnsembleInUseWithTheControlRunFirst) {
  const ServiceAnswer answer =
      read_service_answer(Service::open_meteo_ensemble, service_fixture("open_meteo_ensemble.json"), terrace,
                          {"open-meteo-ensemble", at("2025-06-09T03:30:00Z"), ""});
  ASSERT_FALSE(answer.members.empty());
  Readings readings = answer.readings;
  readings.members = answer.members;
  const auto assembled = [&](std::vector<Readings> sources) {
    return assemble(std::move(sources), terrace, lisbon(), {at("2025-06-09T03:30:00Z"), false});
  };
  const SiteWeather weather = assembled({readings});
  ASSERT_EQ(weather.courses.courses.size(), answer.members.size() + 1);
  EXPECT_EQ(weather.hourly.sources.at(weather.courses.source), "open-meteo-ensemble");
  // Rain begins an hour before the temperature, which is of an instant.
  const auto second_air = [](const HourlyWeather& course) {
    return course[Variable::air_temperature].value.at(1);
  };
  EXPECT_EQ(second_air(weather.courses.courses[0]), second_air(weather.hourly));
  EXPECT_NE(second_air(weather.courses.courses[1]), second_air(weather.hourly));

  // A newer forecast of the same hours puts it out of use.
  Readings newer = answer.readings;
  newer.source = "met-norway";
  newer.made_at = at("2025-06-09T03:30:00Z");
  readings.made_at = at("2025-06-09T02:30:00Z");
  EXPECT_TRUE(assembled({readings, newer}).courses.courses.empty());
}

}  // namespace
}  // namespace graftcast
