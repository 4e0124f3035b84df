#include "report/cautions.hpp"

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sample_reports.hpp"

namespace graftcast {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr int known_days = 8;

/// Eight days of hours from 5 June on whose temperature swings about `mean_c` by `swing_k`, hottest at 15 h
/// UTC.
HourlyWeather swinging_weather(double mean_c, double swing_k, double humidity_pct) {
  HourlyWeather weather;
  weather.start = std::chrono::floor<std::chrono::hours>(testing::june(5, 0));
  weather.sources = {"made"};
  constexpr std::size_t hours = 24 * known_days;
  for (auto& column : weather.columns)
    column = {std::vector<double>(hours, 0), std::vector<Origin>(hours, Origin::measured),
              std::vector<std::uint16_t>(hours, 0)};
  weather.forecast_lead_h.assign(hours, 0);
  for (std::size_t hour = 0; hour < hours; ++hour) {
    const double phase = 2 * std::numbers::pi * (static_cast<double>(hour % 24) - 15) / 24;
    weather[Variable::air_temperature].value[hour] = mean_c + swing_k * std::cos(phase);
    weather[Variable::relative_humidity].value[hour] = humidity_pct;
    weather[Variable::wind_speed].value[hour] = 2;
    weather[Variable::shortwave].value[hour] = std::max(0.0, 700 * std::cos(phase));
    weather[Variable::pressure].value[hour] = 100;
  }
  return weather;
}

class Cautions : public ::testing::Test {
 protected:
  Cautions() {
    site_.location = {40.9, 0.4, 110};
    site_.time_zone = "UTC";
  }

  Season season(const HourlyWeather& weather) const {
    SeasonSettings settings;
    settings.as_of = testing::june(9, 6);
    settings.members = 8;
    settings.outlook_days = 4;
    return {site_, clock_, models_, weather, testing::june(6, 0), settings};
  }

  Site site_;
  const Clock clock_{"UTC"};
  const Models models_ = load_models(GRAFTCAST_SOURCE_DIR "/models");
};

TEST_F(Cautions, OfHeatAreSilentInMildWeather) {
  const HourlyWeather weather = swinging_weather(16, 6, 60);
  EXPECT_THAT(hot_days(season(weather), 4), IsEmpty());
  EXPECT_THAT(heat_cautions(season(weather), 4, {}), IsEmpty());
}

TEST_F(Cautions, OfHeatNameTheWorstDayAndTheBetterHours) {
  const HourlyWeather weather = swinging_weather(28, 8, 40);
  const std::vector<HotDay> hot = hot_days(season(weather), 3);
  ASSERT_EQ(hot.size(), 3U);
  EXPECT_EQ(hot[0].day, testing::day_of_june(9));
  // Heat index of 36 degC at 40 %: 39.4 degC by the published regression (about 103 degF on the printed
  // chart).
  EXPECT_NEAR(hot[1].heat_index_c, 39.4, 0.5);
  // 28 + 8 cos(...) is below 26.7 degC until 08:22 and from 21:38 on; people work from five to nine in the
  // evening.
  EXPECT_EQ(hot[1].hours_below, (std::vector<Instant>{testing::june(10, 5), testing::june(10, 6),
                                                      testing::june(10, 7), testing::june(10, 8)}));
  // The days are alike, so the first is named, and of that the hours from now on.
  const std::vector<std::string> cautions = heat_cautions(season(weather), 3, {.utf8 = false});
  ASSERT_EQ(cautions.size(), 2U);
  EXPECT_THAT(cautions[0], AllOf(HasSubstr("3 coming days"), HasSubstr("39 degC in the shade"),
                                 HasSubstr("better: 06:00 to 09:00")));
  EXPECT_EQ(cautions[1], models_.cautions.heat_illness);
}

TEST_F(Cautions, OfHeatDoNotCountTheHoursThatArePast) {
  HourlyWeather weather = swinging_weather(16, 6, 60);
  weather[Variable::air_temperature].value[24 * 3 + 15] = 40;  // The afternoon before.
  EXPECT_THAT(hot_days(season(weather), 4), IsEmpty());
}

TEST_F(Cautions, OfHeatSayWhenNoHourOfTheDayIsBetter) {
  const HourlyWeather weather = swinging_weather(36, 2, 40);
  EXPECT_THAT(heat_cautions(season(weather), 2, {})[0], HasSubstr("no hour of that day is below caution"));
}

/// Weather of one heat: 96 degF at 50 %, for which the NWS chart has 108 degF, which is 42.2 degC (published/
/// heat_index.hpp).
HourlyWeather charted_heat() {
  return swinging_weather((96 - 32) / 1.8, 0, 50);
}

TEST_F(Cautions, OfAMorningNameTheActsWhoseTimeIsInTheHeat) {
  const HourlyWeather heat = charted_heat();
  const HourlyWeather mild = swinging_weather(16, 6, 60);
  MorningReport report = testing::sample_morning();
  EXPECT_THAT(morning_cautions(report, season(heat), {.utf8 = false}),
              Contains(AllOf(HasSubstr("The time given for N1, S1 and W1 is in that heat"),
                             HasSubstr("heat index up to 42 degC"), HasSubstr("better hour"))));
  EXPECT_THAT(morning_cautions(report, season(mild), {}), Not(Contains(HasSubstr("in that heat"))));
  for (GraftMorning& graft : report.grafts) graft.act_by.reset();
  EXPECT_THAT(morning_cautions(report, season(heat), {}), Not(Contains(HasSubstr("in that heat"))));
}

DueWork act_at(Instant from) {
  DueWork work;
  work.kind = DueKind::act;
  work.id = "N1";
  work.from = from;
  work.to = from + std::chrono::minutes(30);
  return work;
}

TEST_F(Cautions, OfAnActTellTheHeatOfItsHourAndTheBetterOnes) {
  const auto of_hour = [&](const HourlyWeather& weather, int hour) {
    return due_cautions(act_at(testing::june(10, hour)), season(weather), {.utf8 = false});
  };
  const HourlyWeather heat = charted_heat();
  EXPECT_THAT(of_hour(heat, 15), Contains(HasSubstr("At this hour: 42 degC (danger).")));
  EXPECT_THAT(of_hour(heat, 15), Contains(HasSubstr("no hour of that day is below caution")));
  const HourlyWeather swinging = swinging_weather(28, 8, 40);
  EXPECT_THAT(of_hour(swinging, 15), Contains(HasSubstr("better: 05:00 to 09:00. At this hour: 39 degC")));
  EXPECT_THAT(of_hour(swinging, 6), Contains(HasSubstr("(none).")));
  const HourlyWeather mild = swinging_weather(16, 6, 60);
  EXPECT_THAT(of_hour(mild, 15), IsEmpty());
}

TEST_F(Cautions, OfCuttingAreKnivesAndHygieneInACalendarToo) {
  const HourlyWeather weather = swinging_weather(16, 6, 60);
  const Season mild = season(weather);
  DueWork slit;
  slit.kind = DueKind::slit_wrap;
  slit.day = testing::day_of_june(12);
  for (const std::string& caution : {models_.cautions.knives, models_.cautions.hygiene}) {
    EXPECT_THAT(due_cautions(slit, mild, {}), Contains(caution));
    EXPECT_THAT(calendar_cautions({slit}, mild, {}), Contains(caution));
    EXPECT_THAT(due_cautions(act_at(testing::june(10, 7)), mild, {}), Not(Contains(caution)));
    EXPECT_THAT(calendar_cautions({act_at(testing::june(10, 7))}, mild, {}), Not(Contains(caution)));
  }
  EXPECT_EQ(calendar_cautions({slit}, mild, {}).back(), models_.cautions.local_rules);
}

/// The words for the hot day that begins `ahead` days after `start`, on the clock of `zone`.
std::string hot_words(const char* zone, std::chrono::year_month_day start, int ahead, const Models& models) {
  HourlyWeather weather = swinging_weather(28, 8, 40);
  weather.start = std::chrono::sys_days{start};
  Site site;
  site.location = {40.9, 0.4, 110};
  site.time_zone = zone;
  const Clock clock(zone);
  SeasonSettings settings;
  settings.as_of = weather.start + std::chrono::hours(24);
  settings.members = 8;
  settings.outlook_days = 4;
  const Season season(site, clock, models, weather, weather.start, settings);
  const auto hot = hot_days(season, 4);
  return hot_day_words(hot.at(static_cast<std::size_t>(ahead)), clock, {});
}

// It is below caution up to nine o'clock UTC. Clocks in Spain went from UTC+1 to UTC+2 at 01:00 UTC on 30
// March 2025, and back on 26 October (EU directive 2000/84/EC).
TEST_F(Cautions, OfHeatKeepToTheWallClockOnTheDaysWhenClocksChange) {
  constexpr auto spring = std::chrono::March / 28 / 2025;
  EXPECT_THAT(hot_words("Europe/Madrid", spring, 0, models_), HasSubstr("better: 05:00 to 10:00"));
  EXPECT_THAT(hot_words("Europe/Madrid", spring, 1, models_), HasSubstr("better: 05:00 to 11:00"));
  constexpr auto autumn = std::chrono::October / 24 / 2025;
  EXPECT_THAT(hot_words("Europe/Madrid", autumn, 0, models_), HasSubstr("better: 05:00 to 11:00"));
  EXPECT_THAT(hot_words("Europe/Madrid", autumn, 1, models_), HasSubstr("better: 05:00 to 10:00"));
}

TEST_F(Cautions, OfHeatKeepToAClockThatIsHalfAnHourOff) {
  EXPECT_THAT(hot_words("Australia/Darwin", std::chrono::June / 5 / 2025, 1, models_),
              HasSubstr(" to 18:30"));  // UTC+9:30: nine o'clock UTC.
}

TEST_F(Cautions, OfAMorningSayWhatTheRiskDoesNotHold) {
  const HourlyWeather weather = swinging_weather(16, 6, 60);
  const Season mild = season(weather);
  const auto cautions = morning_cautions(testing::sample_morning(), mild, {});
  EXPECT_THAT(cautions, Contains(HasSubstr("incompatibility")));
  EXPECT_THAT(cautions, Contains(models_.cautions.model));
  EXPECT_THAT(cautions, Not(Contains(models_.cautions.products)));
  MorningReport painted = testing::sample_morning();
  painted.grafts[0].advice.act.kind = ActKind::whitewash;
  EXPECT_THAT(morning_cautions(painted, mild, {}), Contains(models_.cautions.products));
}

TEST_F(Cautions, OfAGraftToBeCutAreKnivesAndHygiene) {
  SinceReport report = testing::sample_since();
  EXPECT_THAT(since_cautions(report, models_), Contains(models_.cautions.hygiene));
  report.grafts[0].ground = NothingOverdue{};
  EXPECT_THAT(since_cautions(report, models_), Not(Contains(models_.cautions.hygiene)));
  report.grafts[0].ground = NotedDead{};
  EXPECT_THAT(since_cautions(report, models_), Contains(models_.species.at("citrus").quarantine));
}

TEST_F(Cautions, OfMakingGraftsHoldTheRulesOfTheSpeciesOnce) {
  const auto cautions = grafting_cautions({"citrus", "citrus", "fig"}, models_);
  EXPECT_EQ(std::ranges::count(cautions, models_.species.at("citrus").quarantine), 1);
  EXPECT_THAT(cautions, Contains(models_.cautions.sap));
  EXPECT_THAT(cautions, Each(Not(IsEmpty())));
}

}  // namespace
}  // namespace graftcast
