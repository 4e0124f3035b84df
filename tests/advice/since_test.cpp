// Since grafting: dates in their order, sums that add up, and a verdict that only notes can settle.

#include "advice/since.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <utility>

#include "advice/morning.hpp"
#include "advice/random_sites.hpp"
#include "advice/written.hpp"
#include "graftcast/error.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

using ::testing::Field;
using ::testing::VariantWith;

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr LocalDay day_of(int day) {
  return LocalDay{std::chrono::local_days{first_day}} + std::chrono::days(day);
}

SeasonSettings settings_on(int day) {
  SeasonSettings settings;
  settings.as_of = start + std::chrono::days(day);
  settings.members = 32;
  settings.outlook_days = 60;
  return settings;
}

/// One graft made on day 1, looked at on `day`, in steady warm weather.
GraftSince since_of(const GraftRecord& graft, int day, const DegreeDaySettings& asked = {}) {
  const MadeSeason made(
      made_site({}),
      made_weather(first_day, day + 10, [](int) { return MadeDay{17, 27, 55, 1.8, 700, 5.5}; }), start,
      settings_on(day));
  return since(made.season, {graft}, asked, 1).grafts.at(0);
}

GraftRecord plain(const std::string& cover = "none") {
  return {made_row("G1", day_of(1), "citrus", "cleft", cover), {}};
}

void expect_rising(const DateBand& band) {
  if (band.median) {
    ASSERT_TRUE(band.p10.has_value());
    EXPECT_LE(*band.p10, *band.median);
  }
  if (band.p90) {
    ASSERT_TRUE(band.median.has_value());
    EXPECT_LE(*band.median, *band.p90);
  }
}

/// Every share of the members gets to the later of two events no sooner than to the earlier.
void expect_before(const DateBand& earlier, const DateBand& later) {
  for (const auto which : {&DateBand::p10, &DateBand::median, &DateBand::p90}) {
    if (!(later.*which)) continue;
    ASSERT_TRUE((earlier.*which).has_value());
    EXPECT_LE(*(earlier.*which), *(later.*which));
  }
}

void expect_order(const GraftSince& graft) {
  for (const auto* band : {&graft.bridged_on, &graft.drinking_from, &graft.vent_bag_from,
                           &graft.slit_wrap_from, &graft.buds_expected}) {
    expect_rising(*band);
  }
  expect_before(graft.bridged_on, graft.drinking_from);
  expect_before(graft.drinking_from, graft.slit_wrap_from);
}

TEST(Since, DatesOfAPlainGraftComeInOrder) {
  const GraftSince graft = since_of(plain(), 20);
  ASSERT_TRUE(graft.bridged_on.p10 && graft.bridged_on.p90);
  ASSERT_TRUE(graft.drinking_from.p10 && graft.drinking_from.p90);
  ASSERT_TRUE(graft.slit_wrap_from.median.has_value());
  expect_order(graft);
  EXPECT_LT(*graft.bridged_on.p10, *graft.bridged_on.p90);  // the members differ
  EXPECT_LT(*graft.bridged_on.median, *graft.drinking_from.median);
  // Thirteen days at the optimum, slower here and by cleft: two to four weeks.
  EXPECT_GT(*graft.bridged_on.median, day_of(14));
  EXPECT_LT(*graft.bridged_on.median, day_of(31));
}

TEST(Since, WrapIsNotSlitBeforeTheDaysOfTheMethod) {
  const int least = static_cast<int>(published_models().methods.at("cleft").wrap_slit_days.low);
  const GraftSince graft = since_of(plain(), 20);
  EXPECT_GE(*graft.slit_wrap_from.p10, day_of(1) + std::chrono::days(least));
}

TEST(Since, TellsWhenToVentOnlyWhereThereIsABag) {
  EXPECT_FALSE(since_of(plain(), 20).bagged);
  EXPECT_FALSE(since_of(plain(), 20).vent_bag_from.median.has_value());
  const GraftSince bagged = since_of(plain("paper-over-bag"), 20);
  EXPECT_TRUE(bagged.bagged);
  EXPECT_EQ(bagged.vent_bag_from.median, bagged.drinking_from.median);
}

TEST(Since, DegreeDaysAddUpToTheMomentByEveryMethod) {
  for (const std::string& method : degree_day_method_words()) {
    DegreeDaySettings asked;
    asked.method = parse_degree_day_method(method);
    const GraftSince graft = since_of(plain(), 20, asked);  // as of a midnight
    double sum = 0;
    std::size_t past = 0;
    for (const SinceDay& day : graft.days) {
      sum += day.degree_days;
      EXPECT_NEAR(day.cumulative, sum, 1e-9) << method;
      if (!day.ahead) past = static_cast<std::size_t>(&day - graft.days.data());
    }
    EXPECT_EQ(graft.days[past].day, day_of(19));
    EXPECT_NEAR(graft.days[past].cumulative, graft.degree_days, 1e-9) << method;
    EXPECT_EQ(degree_day_method_word(graft.rule.method), method);
    EXPECT_GT(graft.degree_days, 100) << method;
  }
}

TEST(Since, HourlyDegreeDaysOfASteadyDayAreItsMeanAboveTheBase) {
  // 17 to 27 degC: a mean of 22, never below a base of 10 nor above 30: 12 a day from noon of the first on.
  DegreeDaySettings asked;
  asked.base_c = 10;
  asked.upper_c = 30;
  EXPECT_NEAR(since_of(plain(), 21, asked).degree_days - since_of(plain(), 20, asked).degree_days, 12, 1e-6);
}

TEST(DegreeDayRule, TakesWhatIsAskedThenTheSitesThenTheSpecies) {
  const Species& citrus = published_models().species.at("citrus");
  DegreeDaySettings site, asked;
  EXPECT_EQ(degree_day_rule(citrus, site, asked).base_c, citrus.degree_day_base_c);
  EXPECT_EQ(degree_day_rule(citrus, site, asked).upper_c, citrus.degree_day_upper_c);
  EXPECT_EQ(degree_day_rule(citrus, site, asked).method, DegreeDayMethod::hourly);
  EXPECT_EQ(degree_day_rule(citrus, site, asked).cutoff, Cutoff::horizontal);
  site.base_c = 9;
  site.method = DegreeDayMethod::sine;
  EXPECT_EQ(degree_day_rule(citrus, site, asked).base_c, 9);
  EXPECT_EQ(degree_day_rule(citrus, site, asked).method, DegreeDayMethod::sine);
  asked.base_c = 8;
  asked.cutoff = Cutoff::vertical;
  EXPECT_EQ(degree_day_rule(citrus, site, asked).base_c, 8);
  EXPECT_EQ(degree_day_rule(citrus, site, asked).cutoff, Cutoff::vertical);
  EXPECT_EQ(degree_day_rule(citrus, site, asked).method, DegreeDayMethod::sine);
}

TEST(Verdict, IsToWaitWhileNothingIsOverdue) {
  EXPECT_EQ(since_of(plain(), 10).verdict(), Verdict::wait);
}

TEST(Verdict, OfAnOverdueGraftIsToLookAndNeverByDateAloneToReGraft) {
  const GraftSince graft = since_of(plain(), 120);
  EXPECT_TRUE(graft.overdue);
  EXPECT_EQ(graft.verdict(), Verdict::check);
  EXPECT_THAT(graft.ground, VariantWith<LookIsOverdue>(Field(&LookIsOverdue::way, WayToLook::scratch)));
  GraftRecord moving = plain();
  moving.lines = {made_line(start + std::chrono::days(50), "buds-moving")};
  EXPECT_FALSE(since_of(moving, 120).overdue);
  EXPECT_EQ(since_of(moving, 120).verdict(), Verdict::wait);
}

TEST(Verdict, NeverTellsToScratchABud) {
  const GraftSince graft = since_of({made_row("G1", day_of(1), "citrus", "chip"), {}}, 120);
  EXPECT_EQ(graft.verdict(), Verdict::check);
  EXPECT_THAT(graft.ground, VariantWith<LookIsOverdue>(Field(&LookIsOverdue::way, WayToLook::under_wrap)));
}

TEST(Verdict, OfWhatIsNotedDeadOrShrivelledIsToReGraft) {
  GraftRecord batch = plain();
  batch.row.count = 10;
  batch.lines = {made_line(start + std::chrono::days(15), "dead", "4")};
  EXPECT_EQ(since_of(batch, 20).verdict(), Verdict::wait);
  batch.lines.push_back(made_line(start + std::chrono::days(16), "dead"));
  const GraftSince dead = since_of(batch, 20);
  EXPECT_EQ(dead.verdict(), Verdict::regraft);
  EXPECT_THAT(dead.ground, VariantWith<NotedDead>(::testing::_));
  GraftRecord shrivelled = plain();
  shrivelled.lines = {made_line(start + std::chrono::days(15), "shrivelled")};
  EXPECT_EQ(since_of(shrivelled, 20).verdict(), Verdict::regraft);
  EXPECT_EQ(since_of(shrivelled, 15).verdict(), Verdict::regraft);
  EXPECT_EQ(since_of(shrivelled, 14).verdict(), Verdict::wait);
}

constexpr std::uint64_t sites = sanitized ? 5 : 15;

void for_every_graft(const std::function<void(const RandomSite&, const GraftSince&)>& check) {
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    const RandomSite site = random_site(seed, 5);
    for (const GraftSince& graft : since(site.season(), site.grafts, {}, 1).grafts) {
      SCOPED_TRACE("site " + std::to_string(seed) + ", graft " + graft.id);
      check(site, graft);
    }
  }
}

TEST(SinceOfRandomSites, DatesAndBandsAreInOrder) {
  std::size_t bridged = 0;
  for_every_graft([&](const RandomSite&, const GraftSince& graft) {
    expect_order(graft);
    bridged += graft.bridged_on.median.has_value();
    for (const SinceDay& day : graft.days) {
      EXPECT_LE(day.healing_low, day.healing);
      EXPECT_LE(day.healing, day.healing_high);
      EXPECT_LE(day.water_low, day.water);
      EXPECT_LE(day.water, day.water_high);
      EXPECT_TRUE(day.water_low >= 0 && day.water_high <= 1);
      EXPECT_GE(day.degree_days, 0);
    }
    EXPECT_TRUE(graft.alive >= 0 && graft.alive <= 1 + 1e-12) << graft.alive;
    EXPECT_TRUE(graft.still_to_take >= 0 && graft.still_to_take <= graft.alive);
  });
  EXPECT_GT(bridged, sites / 4);
}

TEST(SinceOfRandomSites, DaysFollowEachOtherAndTheirDegreeDaysAddUp) {
  for_every_graft([](const RandomSite& site, const GraftSince& graft) {
    double sum = 0;
    for (std::size_t i = 0; i < graft.days.size(); ++i) {
      sum += graft.days[i].degree_days;
      EXPECT_NEAR(graft.days[i].cumulative, sum, 1e-9);
      if (i == 0) continue;
      EXPECT_EQ(graft.days[i].day, graft.days[i - 1].day + std::chrono::days(1));
      EXPECT_LE(graft.days[i - 1].ahead, graft.days[i].ahead);
    }
    EXPECT_EQ(graft.days.back().day, site.season().days.back().day);
  });
}

TEST(SinceOfRandomSites, NeverTellsToReGraftWithoutANote) {
  std::size_t regrafted = 0;
  for_every_graft([&](const RandomSite& site, const GraftSince& graft) {
    if (graft.verdict() != Verdict::regraft) return;
    ++regrafted;
    const auto& lines = site.record(graft.id).lines;
    EXPECT_TRUE(std::any_of(lines.begin(), lines.end(), [](const DiaryLine& line) {
      return line.event == Event::dead || line.event == Event::shrivelled;
    }));
  });
  EXPECT_GT(regrafted + sanitized, 0U);
}

TEST(SinceOfRandomSites, HoursLeadToWhatTheDaysEndWithAndChangeNothingElse) {
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    const RandomSite site = random_site(seed, 5);
    const LocalDay last = site.season().clock.day_of(site.season().settings.as_of) + std::chrono::days(3);
    const SinceReport plain_report = since(site.season(), site.grafts, {}, 1);
    SinceReport with_hours = since(site.season(), site.grafts, {}, 1, {}, last);
    for (GraftSince& graft : with_hours.grafts) {
      SCOPED_TRACE("site " + std::to_string(seed) + ", graft " + graft.id);
      ASSERT_TRUE(graft.hours.has_value());
      const SinceHours hours = *std::exchange(graft.hours, std::nullopt);
      for (const auto* series :
           {&hours.tissue_c, &hours.water, &hours.water_low, &hours.water_high, &hours.healing})
        ASSERT_EQ(series->size(), hours.air_c.size());
      std::size_t ends = 0;
      for (const SinceDay& day : graft.days) {
        const auto end = static_cast<std::size_t>(
            (site.season().clock.begin_of(day.day + std::chrono::days(1)) - Instant(hours.start)) /
            std::chrono::hours(1));
        if (end > hours.water.size() || end == 0) continue;
        ++ends;
        EXPECT_EQ(hours.water[end - 1], day.water);
        EXPECT_EQ(hours.water_low[end - 1], day.water_low);
        EXPECT_EQ(hours.water_high[end - 1], day.water_high);
        EXPECT_EQ(hours.healing[end - 1], day.healing);
      }
      EXPECT_GT(ends, 2U);
      EXPECT_LE(*std::ranges::max_element(hours.tissue_c),
                std::ranges::max_element(graft.days, {}, &SinceDay::tissue_max_c)->tissue_max_c + 1e-9);
    }
    EXPECT_EQ(written(with_hours), written(plain_report));
  }
}

TEST(SinceOfRandomSites, GivesTheSameTogetherWithTheMorningAsByItself) {
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    const RandomSite site = random_site(seed, 5);
    const Season& season = site.season();
    const LocalDay today = season.clock.day_of(season.settings.as_of);
    const MorningAndSince both = morning_and_since(season, site.grafts, today, 1);
    SinceReport alone = since(season, site.grafts, {}, 1, {}, today);
    std::erase_if(alone.grafts, [&](const GraftSince& graft) {
      return std::ranges::find(both.morning.grafts, graft.id, &GraftMorning::id) == both.morning.grafts.end();
    });
    EXPECT_EQ(written(both.morning), written(morning(season, site.grafts, 1))) << seed;
    EXPECT_EQ(written(both.since), written(alone)) << seed;
  }
}

TEST(SinceOfRandomSites, IsTheSameToTheLastBitOnOneAndOnTwoThreads) {
  const RandomSite one = random_site(2, 8), two = random_site(2, 8);
  EXPECT_EQ(written(since(one.season(), one.grafts, {}, 1)), written(since(two.season(), two.grafts, {}, 2)));
}

}  // namespace
}  // namespace graftcast::testing
