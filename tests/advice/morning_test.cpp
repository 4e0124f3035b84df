// The morning's list for grafts whose case is plain. Common practice, no published source, unless one is
// named.

#include "advice/morning.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

using ::testing::_;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::IsEmpty;
using ::testing::VariantWith;

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr Instant as_of = start + std::chrono::days(12) + std::chrono::hours(7);
constexpr LocalDay day_of(int day) {
  return LocalDay{std::chrono::local_days{first_day}} + std::chrono::days(day);
}

constexpr MadeDay ordinary{16, 27, 45, 1.8, 850, 5.5};
constexpr MadeDay heat_wave{24, 40, 12, 2.5, 900, 5.5};

SeasonSettings settings() {
  SeasonSettings s;
  s.as_of = as_of;
  s.members = 32;
  s.outlook_days = 14;
  return s;
}

/// Four days of heat from the second day ahead on.
MadeDay wave(int day) {
  return day >= 14 && day < 18 ? heat_wave : ordinary;
}
MadeDay calm(int) {
  return {14, 24, 60, 1.5, 500, 6};
}

MorningReport morning_of(const std::vector<GraftRecord>& grafts,
                         const std::function<MadeDay(int)>& day_shape = wave,
                         const Site& site = made_site({})) {
  const MadeSeason made(site, made_weather(first_day, 26, day_shape), start, settings());
  return morning(made.season, grafts, 1);
}

GraftMorning morning_of_one(const GraftRecord& graft, const std::function<MadeDay(int)>& day_shape = wave,
                            const Site& site = made_site({})) {
  const MorningReport report = morning_of({graft}, day_shape, site);
  EXPECT_EQ(report.grafts.size(), 1U);
  return report.grafts.at(0);
}

GraftRecord bare_bud() {
  return {made_row("G1", day_of(8), "citrus", "chip", "none", "film-bud-out"), {}};
}
GraftRecord bagged_in_the_sun() {
  return {made_row("G1", day_of(8), "citrus", "cleft", "clear-bag"), {}};
}

TEST(Morning, OfAClearBagInTheSunBeforeAHeatWaveIsUrgentForHeat) {
  const GraftMorning graft = morning_of_one(bagged_in_the_sun());
  EXPECT_LE(graft.urgency, Urgency::soon);
  EXPECT_EQ(graft.cause, Cause::heat);
  EXPECT_GT(graft.risk.p, 0.5);
  EXPECT_GT(graft.tissue_max_c_7d, graft.air_max_c_7d + 10);
  EXPECT_FALSE(graft.advice.act.is_none());
  ASSERT_TRUE(graft.act_by.has_value());
  EXPECT_LT(*graft.act_by, start + std::chrono::days(14) +
                               std::chrono::hours(15));  // before the first afternoon of the wave
  EXPECT_THAT(graft.reasons.at(0), VariantWith<HeatAhead>(Field(&HeatAhead::cover, "clear-bag")));
}

TEST(Morning, OfABareBudBeforeAHeatWaveNamesDrying) {
  const GraftMorning graft =
      morning_of_one({made_row("G1", day_of(9), "citrus", "chip", "none", "film-bud-out"), {}});
  EXPECT_EQ(graft.cause, Cause::drying);
  EXPECT_LE(graft.urgency, Urgency::soon);
  EXPECT_LT(graft.water_low_7d, graft.water_now);
  EXPECT_THAT(graft.reasons.at(0), VariantWith<DryingAhead>(_));
}

TEST(Morning, OfAWrappedGraftInCalmWeatherIsLeftAlone) {
  const GraftMorning graft = morning_of_one({made_row("G1", day_of(2), "citrus"), {}}, calm);
  EXPECT_EQ(graft.urgency, Urgency::leave);
  EXPECT_EQ(graft.cause, std::nullopt);
  EXPECT_TRUE(graft.advice.act.is_none());
  EXPECT_FALSE(graft.act_by.has_value());
  EXPECT_LT(graft.risk.p, 0.03);
  EXPECT_NEAR(graft.age_days, 9 + 19 / 24.0, 1e-9);
  EXPECT_EQ(graft.heat_days, 0);
}

TEST(Morning, FlagsTheDaysOfTheWaveAndNamesTheirDate) {
  const GraftMorning graft = morning_of_one(bagged_in_the_sun());
  ASSERT_EQ(graft.coming.size(), 8U);  // seven days from seven o'clock touch eight
  EXPECT_EQ(graft.coming[0].day, day_of(12));
  EXPECT_THAT(graft.coming[2].flags, Contains(DayFlag::heat));
  EXPECT_THAT(graft.coming[3].flags, Contains(DayFlag::heat));
  EXPECT_NEAR(graft.coming[2].air_max_c, 40, 0.5);
}

TEST(Morning, CountsTheHardDaysSinceGrafting) {
  const auto past_wave = [](int day) { return day >= 4 && day < 7 ? heat_wave : ordinary; };
  const GraftMorning before =
      morning_of_one({made_row("G1", day_of(2), "citrus", "cleft", "paper-over-bag"), {}}, past_wave);
  EXPECT_GE(before.heat_days, 3);
  const GraftMorning after =
      morning_of_one({made_row("G1", day_of(8), "citrus", "cleft", "paper-over-bag"), {}}, calm);
  EXPECT_EQ(after.heat_days, 0);
}

TEST(Morning, OfAnEmptyLedgerIsAnEmptyList) {
  const MorningReport report = morning_of({});
  EXPECT_THAT(report.grafts, IsEmpty());
}

TEST(Morning, OfAGraftStillToBeMadeHasNoHistory) {
  const GraftMorning graft = morning_of_one({made_row("G1", day_of(15), "citrus"), {}});
  EXPECT_EQ(graft.age_days, 0);
  EXPECT_EQ(graft.healing, 0);
  EXPECT_EQ(graft.water_now, 1);
  EXPECT_EQ(graft.heat_days + graft.drying_days + graft.cold_days, 0);
  EXPECT_EQ(graft.degree_days.value_or(0), 0);
  EXPECT_EQ(graft.stage, Stage::fresh);
}

TEST(Morning, LeavesOutWhatIsSettledAndCountsWhatIsOpen) {
  GraftRecord batch{made_row("G1", day_of(1), "citrus"), {}};
  batch.row.count = 50;
  batch.lines = {made_line(start + std::chrono::days(9), "taken", "30"),
                 made_line(start + std::chrono::days(10), "dead", "5")};
  EXPECT_EQ(morning_of_one(batch).count, 15);
  batch.lines.push_back(made_line(start + std::chrono::days(11), "dead", "15"));
  EXPECT_THAT(morning_of({batch}).grafts, IsEmpty());
  EXPECT_THAT(
      morning_of({{made_row("G2", day_of(1)), {made_line(start + std::chrono::days(9), "dead")}}}).grafts,
      IsEmpty());
  EXPECT_THAT(
      morning_of({{made_row("G3", day_of(1)), {made_line(start + std::chrono::days(9), "taken")}}}).grafts,
      IsEmpty());
}

TEST(Morning, SavesInProportionToCountAndPriority) {
  const GraftMorning one = morning_of_one(bagged_in_the_sun());
  GraftRecord many = bagged_in_the_sun();
  many.row.count = 10;
  many.row.priority = 3;
  const GraftMorning ten = morning_of_one(many);
  EXPECT_EQ(ten.risk.p, one.risk.p);
  EXPECT_EQ(ten.advice.act.kind, one.advice.act.kind);
  EXPECT_NEAR(ten.acts[0].saved, 30 * one.acts[0].saved, 1e-9);
  GraftRecord none = bagged_in_the_sun();
  none.row.priority = 0;
  const GraftMorning unloved = morning_of_one(none);
  EXPECT_EQ(unloved.advice.act.kind, one.advice.act.kind);
  EXPECT_EQ(unloved.acts[0].saved, 0);
}

TEST(Morning, PutsTheGraftAtRiskBeforeTheOneThatIsNot) {
  const MorningReport report =
      morning_of({{made_row("safe", day_of(2), "citrus", "cleft", "paper-over-bag"), {}},
                  {made_row("cooked", day_of(8), "citrus", "cleft", "clear-bag"), {}}});
  EXPECT_EQ(report.grafts.at(0).id, "cooked");
}

TEST(Morning, SaysWhatStandsInForWeatherThatIsNotKnown) {
  const MadeSeason made(made_site({}), made_weather(first_day, 15, wave), start, settings());
  const MorningReport report = morning(made.season, {}, 1);
  ASSERT_EQ(report.notices.size(), 1U);
  const auto& unknown = std::get<WeatherUnknown>(report.notices[0]);
  EXPECT_EQ(unknown.filled_by, StandIn::last_week);
  EXPECT_EQ(made.clock.day_of(unknown.from), day_of(15));
}

TEST(Morning, NamesTheCellsItHadToAssume) {
  GraftRecord graft{made_row("G1", day_of(2)), {}};
  graft.row.wrap = graft.row.cover = "";
  graft.row.pot_litres = 5;
  const GraftMorning m = morning_of_one(graft);
  EXPECT_THAT(m.assumed, ElementsAre("cover", "wrap"));
  EXPECT_THAT(m.reasons, Contains(VariantWith<CellsAssumed>(Field(&CellsAssumed::columns, m.assumed))));
  EXPECT_THAT(m.reasons, Contains(VariantWith<WateringAssumed>(_)));
}

TEST(Morning, AsksForALookWhereTheNotesDoNotFit) {
  const GraftMorning m = morning_of_one({made_row("G1", day_of(9)),
                                         {made_line(start + std::chrono::days(10), "leafed-out"),
                                          made_line(start + std::chrono::days(11), "callus")}});
  EXPECT_TRUE(m.contradicted);
  EXPECT_THAT(m.reasons, Contains(VariantWith<NotesContradict>(_)));
}

TEST(Morning, OfAGraftThatMostLikelyIsDeadAsksForALookAndSpendsNothing) {
  GraftRecord graft{made_row("G1", day_of(0), "citrus", "cleft", "none", "none"), {}};
  graft.row.tip = "open";
  const GraftMorning dead = morning_of_one(graft);
  EXPECT_LT(dead.alive, 0.01);
  EXPECT_EQ(dead.advice.act.kind, ActKind::look);
  EXPECT_EQ(dead.urgency, Urgency::watch);
  EXPECT_THAT(dead.reasons, ElementsAre(VariantWith<LikelyLost>(Field(&LikelyLost::alive, dead.alive))));
  graft.lines = {made_line(as_of - std::chrono::hours(2), "green")};
  const GraftMorning green = morning_of_one(graft);
  EXPECT_TRUE(green.contradicted);
  EXPECT_NE(green.advice.act.kind, ActKind::look);
}

TEST(Morning, SaysFromWhenAShadeMayComeOff) {
  const GraftMorning graft =
      morning_of_one(bare_bud(), [](int day) { return day == 13 ? heat_wave : calm(day); });
  ASSERT_TRUE(graft.advice.temporary) << act_name(graft.advice.act);
  ASSERT_TRUE(graft.advice.undo_from.has_value());
  EXPECT_GT(*graft.advice.undo_from, start + std::chrono::days(13) + std::chrono::hours(15));
  EXPECT_LT(*graft.advice.undo_from, start + std::chrono::days(16));
}

TEST(Morning, KeepsOnToTheEndWhatIsNeededToTheEnd) {
  const GraftMorning graft =
      morning_of_one(bare_bud(), [](int day) { return day >= 14 ? heat_wave : ordinary; });
  ASSERT_TRUE(graft.advice.temporary) << act_name(graft.advice.act);
  EXPECT_FALSE(graft.advice.undo_from.has_value());
}

TEST(Morning, AsksForAStakeBeforeAGaleUntilItHasOne) {
  const auto morning_in_a_gale = [](const std::vector<DiaryLine>& lines) {
    HourlyWeather weather = made_weather(first_day, 26, calm);
    auto& gust = weather[Variable::gust];
    for (std::size_t hour = 0; hour < weather.size(); ++hour) {
      gust.value[hour] = hour / 24 == 15 ? 14 : 3;
      gust.origin[hour] = Origin::measured;
    }
    const MadeSeason made(made_site({}), weather, start, settings());
    return morning(made.season, {{made_row("G1", day_of(8)), lines}}, 1).grafts.at(0);
  };
  const GraftMorning loose = morning_in_a_gale({});
  EXPECT_EQ(loose.advice.act.kind, ActKind::stake);
  EXPECT_EQ(loose.urgency, Urgency::watch);
  EXPECT_THAT(loose.reasons, Contains(VariantWith<GustsAhead>(AllOf(Field(&GustsAhead::gust_m_s, 14),
                                                                    Field(&GustsAhead::day, day_of(15))))));
  const GraftMorning tied = morning_in_a_gale({made_line(start + std::chrono::days(9), "staked")});
  EXPECT_TRUE(tied.advice.act.is_none());
  EXPECT_EQ(tied.urgency, Urgency::leave);
}

TEST(Urgency, HasItsNames) {
  EXPECT_EQ(urgency_name(Urgency::now), "now");
  EXPECT_EQ(urgency_name(Urgency::soon), "soon");
  EXPECT_EQ(urgency_name(Urgency::watch), "watch");
  EXPECT_EQ(urgency_name(Urgency::leave), "leave");
}

}  // namespace
}  // namespace graftcast::testing
