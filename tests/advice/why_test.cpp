// Why a graft was lost: shares that add up, signs that weigh, things that would have saved it.

#include "advice/why.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::Field;
using ::testing::IsEmpty;
using ::testing::Not;

auto an(ActKind kind) {
  return Field(&Act::kind, kind);
}

constexpr auto made_on = std::chrono::January / 10 / 2025;
constexpr Hour noon = std::chrono::sys_days{made_on} + std::chrono::hours(12);

Instant day_after(int days) {
  return noon + std::chrono::days(days);
}

GraftRow row_of(const std::string& id, const std::string& species, const std::string& cover,
                const std::string& wrap) {
  return made_row(id, LocalDay{std::chrono::local_days{made_on}}, species, "cleft", cover, wrap);
}

/// Warm weather with a heat wave from the fifth to the eighth day.
HourlyWeather wave() {
  return made_weather(made_on, 26, [](int day) {
    return day >= 5 && day < 9 ? MadeDay{23, 39, 14, 2.5, 900, 5.5} : MadeDay{15, 27, 40, 1.8, 850, 5.5};
  });
}

SeasonSettings as_of(Instant when) {
  SeasonSettings settings;
  settings.as_of = when;
  settings.members = 32;
  settings.horizon_days = settings.outlook_days = 0;
  return settings;
}

GraftWhy why_of(const GraftRecord& record, Instant when = day_after(12), const WhyAsk& ask = {},
                int threads = 1) {
  const MadeSeason made(made_site({}), wave(), std::chrono::sys_days{made_on}, as_of(when));
  return why(made.season, HarmlessClimates(made.season), record, ask, threads);
}

GraftRecord bare() {
  return {row_of("B", "apple", "none", "none"), {made_line(day_after(10), "dead")}};
}
GraftRecord bagged() {
  return {row_of("H", "citrus", "clear-bag", "film"), {made_line(day_after(10), "dead")}};
}
GraftRecord sound() {
  return {row_of("S", "apple", "none", "film"), {made_line(day_after(10), "dead")}};
}

double chance_of(const GraftWhy& graft, Culprit culprit) {
  const auto found = std::ranges::find(graft.shares, culprit, &CulpritShare::culprit);
  return found == graft.shares.end() ? 0 : found->chance;
}

TEST(Why, SharesOfTheFactorsAddUpToWhatTheyMove) {
  for (const GraftRecord& record : {bare(), bagged(), sound()}) {
    const GraftWhy graft = why_of(record);
    double shares = 0, chances = 0;
    for (const CulpritShare& share : graft.shares) {
      chances += share.chance;
      if (share.culprit != not_weather) shares += share.share;
    }
    EXPECT_NEAR(shares, graft.loss - graft.loss_harmless, graft.explained ? 1e-12 : 0.005) << graft.id;
    EXPECT_NEAR(chances, 1, 1e-12);
    const auto rest = std::ranges::find(graft.shares, not_weather, &CulpritShare::culprit);
    ASSERT_NE(rest, graft.shares.end());
    EXPECT_DOUBLE_EQ(rest->share, graft.loss_harmless + graft.plain_failure);
  }
}

TEST(Why, NamesWhatWasDoneToIt) {
  const GraftWhy in_the_open = why_of(bare());
  EXPECT_TRUE(in_the_open.explained);
  EXPECT_EQ(in_the_open.shares.front().culprit, Factor::missing_cover);
  const auto& lack = std::get<LackOfCover>(in_the_open.shares.front().fact);
  EXPECT_EQ(lack.wrap, "none");
  EXPECT_EQ(lack.usual_wrap, "film");
  const GraftWhy in_its_bag = why_of(bagged());
  EXPECT_TRUE(in_its_bag.explained);
  EXPECT_EQ(in_its_bag.shares.front().culprit, Factor::cover_sun);
  EXPECT_EQ(std::get<SunHeatedCover>(in_its_bag.shares.front().fact).cover, "clear-bag");
}

TEST(Why, SaysWhereTheWeatherDoesNotExplain) {
  const GraftWhy graft = why_of(sound());
  EXPECT_FALSE(graft.explained);
  EXPECT_EQ(graft.shares.front().culprit, not_weather);
  EXPECT_DOUBLE_EQ(graft.plain_failure, 1 - published_models().methods.at("cleft").take_share);
}

TEST(Why, SignsWeighTheCauses) {
  GraftRecord cooked = bagged(), dried = bagged();
  cooked.lines.insert(cooked.lines.begin(), made_line(day_after(9), "blackened"));
  dried.lines.insert(dried.lines.begin(), made_line(day_after(9), "shrivelled"));
  const GraftWhy plain = why_of(bagged()), black = why_of(cooked), dry = why_of(dried);
  ASSERT_EQ(black.signs.size(), 1U);
  EXPECT_EQ(black.signs.front().event, Event::blackened);
  EXPECT_GT(chance_of(black, Factor::heat) + chance_of(black, Factor::cover_sun),
            chance_of(plain, Factor::heat) + chance_of(plain, Factor::cover_sun));
  EXPECT_LT(chance_of(dry, Factor::heat) + chance_of(dry, Factor::cover_sun),
            chance_of(plain, Factor::heat) + chance_of(plain, Factor::cover_sun));
  // The chance of a cause is its share times the chance of the sign, relative to the others (Bayes).
  const SignChances& sign = *published_models().sign_of("blackened");
  EXPECT_NEAR(chance_of(black, Factor::heat) / chance_of(black, not_weather),
              chance_of(plain, Factor::heat) / chance_of(plain, not_weather) * sign.heat / sign.not_weather,
              1e-9);
}

TEST(Why, GoodSignsOfALivingGraftSpeakOfNoCause) {
  GraftRecord living = bagged();
  living.lines = {made_line(day_after(9), "callus"), made_line(day_after(9), "buds-moving")};
  EXPECT_THAT(why_of(living).signs, IsEmpty());
  living.lines.push_back(made_line(day_after(10), "dead"));
  EXPECT_EQ(why_of(living).signs.size(), 2U);
}

TEST(Why, OfAGraftThatIsNotLostTellsWhatThreatensIt) {
  GraftRecord open = bagged();
  open.lines.clear();
  const GraftWhy graft = why_of(open, day_after(8));
  EXPECT_EQ(graft.outcome, RowOutcome::open);
  EXPECT_EQ(graft.until, day_after(8));
  EXPECT_GT(graft.loss, 0.3);
  EXPECT_LT(why_of(open, day_after(3)).loss, graft.loss);
  const GraftWhy lost = why_of(bagged());
  EXPECT_EQ(lost.outcome, RowOutcome::lost);
  EXPECT_EQ(lost.until, day_after(10));
}

TEST(Why, DatesTheLossBehindTheLastTimeItWasSeenAlive) {
  const GraftWhy graft = why_of(bagged());
  const LocalDay first{std::chrono::local_days{made_on}};
  ASSERT_TRUE(graft.when.p10 && graft.when.median && graft.when.p90);
  EXPECT_LE(*graft.when.p10, *graft.when.median);
  EXPECT_LE(*graft.when.median, *graft.when.p90);
  EXPECT_GE(*graft.when.median, first + std::chrono::days(5));  // the wave
  EXPECT_LT(*graft.when.median, first + std::chrono::days(9));
  GraftRecord seen = bagged();
  seen.lines.insert(seen.lines.begin(), made_line(day_after(7), "green"));
  EXPECT_GE(*why_of(seen).when.p10, first + std::chrono::days(7));
}

TEST(Why, DaysShowTheAirBesideTheGraftAndAddUpToTheLoss) {
  const GraftWhy graft = why_of(bagged());
  ASSERT_EQ(graft.days.size(), 11U);
  double before = 0;
  for (const WhyDay& day : graft.days) {
    EXPECT_GT(day.tissue_max_c, day.air_max_c + 2);  // a clear bag in the sun
    EXPECT_LT(day.own_vpd_max_kpa, day.vpd_max_kpa + 2);
    EXPECT_GE(day.lost, before);
    before = day.lost;
  }
  EXPECT_NEAR(before, graft.loss, 1e-12);
  EXPECT_THAT(graft.days[6].flags, Contains(DayFlag::heat));
  EXPECT_THAT(graft.days.back().notes, Contains(Field(&EventNote::event, Event::dead)));
}

TEST(Why, WhatWouldHaveSavedItDoes) {
  const GraftWhy graft = why_of(bare());
  ASSERT_FALSE(graft.would_have_saved.empty());
  double minutes = 0;
  for (const SavingAction& action : graft.would_have_saved) {
    EXPECT_LT(action.p_after, 0.5 * graft.loss) << act_name(action.act);
    EXPECT_LE(action.from, action.by);
    EXPECT_LT(action.by, graft.until);
    EXPECT_GE(action.minutes, minutes);  // the cheapest first
    minutes = action.minutes;
  }
  EXPECT_THAT(graft.would_have_saved, Contains(Field(&SavingAction::act, an(ActKind::wrap))));
  const auto wrap = std::ranges::find(graft.would_have_saved, ActKind::wrap,
                                      [](const SavingAction& action) { return action.act.kind; });
  EXPECT_NEAR(wrap->p_after, why_of(sound()).loss, 1e-12);
}

TEST(Why, NeverAdvisesInHindsightWhatWasForbidden) {
  EXPECT_THAT(why_of(bare()).would_have_saved, Each(Field(&SavingAction::act, Not(an(ActKind::clear_bag)))));
  EXPECT_THAT(why_of(bagged()).would_have_saved,
              Contains(Field(&SavingAction::act, an(ActKind::paper_over_bag))));
}

TEST(Why, TeachesWithTheSourcesOfItsNumbers) {
  const GraftWhy graft = why_of(bagged(), day_after(12), {true, true});
  ASSERT_TRUE(graft.lesson.has_value());
  EXPECT_GT(graft.lesson->numbers.size(), 10U);
  for (const auto& [which, number] : graft.lesson->numbers) EXPECT_FALSE(number.source.empty());
  EXPECT_FALSE(graft.lesson->tried.empty());
  EXPECT_EQ(graft.lesson->hottest_cover, "clear-bag");
  EXPECT_FALSE(why_of(bagged()).lesson.has_value());
}

TEST(Why, IsTheSameOnAnyNumberOfThreads) {
  const GraftWhy one = why_of(bare(), day_after(12), {}, 1), two = why_of(bare(), day_after(12), {}, 2);
  ASSERT_EQ(one.shares.size(), two.shares.size());
  for (std::size_t i = 0; i < one.shares.size(); ++i) {
    EXPECT_EQ(one.shares[i].culprit, two.shares[i].culprit);
    EXPECT_EQ(one.shares[i].share, two.shares[i].share);
  }
}

TEST(Why, ExplainsAGraftThatWasNotedDeadAtOnce) {
  GraftRecord record = bare();
  record.lines = {made_line(noon, "dead")};
  const GraftWhy graft = why_of(record);
  EXPECT_NEAR(graft.loss, 0, 1e-6);
  EXPECT_FALSE(graft.explained);
  EXPECT_THAT(graft.days, IsEmpty());
}

TEST(WhyLosses, GroupTheSeasonByCauseWithTheChangesThatSaveMost) {
  GraftRecord living = bagged();
  living.row.id = "L";
  living.lines.clear();
  GraftRecord earlier = bare();
  earlier.row.id = "E";
  earlier.row.grafted_on -= std::chrono::days(300);
  GraftRecord many = bare();
  many.row.count = 5;
  const MadeSeason made(made_site({}), wave(), std::chrono::sys_days{made_on}, as_of(day_after(12)));
  const WhyLosses losses = why_losses(made.season, {many, living, bagged(), sound(), earlier}, 2);
  EXPECT_EQ(losses.season, "2024/25");
  EXPECT_EQ(losses.lost, 7);
  ASSERT_EQ(losses.grafts.size(), 3U);
  int grouped = 0;
  double expected = 0;
  for (const LossGroup& group : losses.groups) {
    grouped += group.grafts;
    expected += group.expected;
  }
  EXPECT_EQ(grouped, 7);
  EXPECT_NEAR(expected, 7, 1e-9);
  EXPECT_EQ(losses.groups.front().culprit, Factor::missing_cover);
  EXPECT_EQ(losses.groups.front().grafts, 5);
  ASSERT_EQ(losses.changes.size(), 2U);
  EXPECT_EQ(losses.changes[0].act.kind, ActKind::wrap);
  EXPECT_THAT(losses.changes[0].ids, Contains("B"));
  EXPECT_THAT(losses.changes[1].ids, Contains("H"));
  EXPECT_GE(losses.changes[0].saved, losses.changes[1].saved);
}

}  // namespace
}  // namespace graftcast::testing
