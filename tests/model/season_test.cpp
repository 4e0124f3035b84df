// What the grafts of a site share: local days, weather past and ahead, climates.

#include "ensemble/season.hpp"

#include <gtest/gtest.h>

#include <thread>

#include "graftcast/error.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

using std::chrono::sys_days;

HourlyWeather mild(std::chrono::year_month_day first_day, int count) {
  return made_weather(first_day, count, [](int) { return MadeDay{8, 19, 55, 2, 600, 6}; });
}

std::vector<DaySpan> lisbon_days(std::chrono::year_month_day first_day, std::size_t count) {
  return local_days(Clock("Europe/Lisbon"), sys_days{first_day}, count);
}

TEST(LocalDays, HaveTwentyThreeHoursWhenTheClockGoesForward) {
  // Lisbon, 30 March 2025: 01:00 becomes 02:00. Before, local time is UTC.
  const auto spans = lisbon_days(std::chrono::March / 29 / 2025, 72);
  ASSERT_EQ(spans.size(), 4U);
  EXPECT_EQ(spans[1].day, LocalDay{std::chrono::local_days{std::chrono::March / 30 / 2025}});
  EXPECT_EQ(spans[0].end - spans[0].begin, 24U);
  EXPECT_EQ(spans[1].begin, 24U);
  EXPECT_EQ(spans[1].end, 47U);
  EXPECT_EQ(spans[2].end, 71U);
  EXPECT_EQ(spans[3].end, 72U);  // the first hour of 1 April, cut
}

TEST(LocalDays, HaveTwentyFiveHoursWhenTheClockGoesBack) {
  // Lisbon, 26 October 2025; summer time is UTC + 1, so a day begins at 23:00 UTC.
  const auto spans = lisbon_days(std::chrono::October / 25 / 2025, 72);
  ASSERT_EQ(spans.size(), 3U);
  EXPECT_EQ(spans[0].end, 23U);  // cut at its beginning
  EXPECT_EQ(spans[1].end - spans[1].begin, 25U);
  EXPECT_EQ(spans[2].begin, 48U);
}

TEST(LocalDays, FollowEachOtherWithoutAHole) {
  for (const char* zone :
       {"UTC", "Europe/Lisbon", "Asia/Kolkata", "Australia/Lord_Howe", "America/Sao_Paulo"}) {
    const auto spans = local_days(Clock(zone), sys_days{std::chrono::January / 1 / 2025}, 365 * 24);
    EXPECT_EQ(spans.front().begin, 0U);
    EXPECT_EQ(spans.back().end, 365U * 24);
    for (std::size_t i = 1; i < spans.size(); ++i) {
      EXPECT_EQ(spans[i].begin, spans[i - 1].end) << zone;
      EXPECT_EQ(spans[i].day, spans[i - 1].day + std::chrono::days(1)) << zone;
    }
  }
}

SeasonSettings settings_at(Instant as_of) {
  SeasonSettings settings;
  settings.as_of = as_of;
  settings.members = 16;
  settings.outlook_days = 10;
  return settings;
}

constexpr Hour start = sys_days{std::chrono::March / 20 / 2025};
constexpr Instant morning_of_day_nine =
    start + std::chrono::days(9) + std::chrono::hours(7) + std::chrono::minutes(25);

struct SeasonTest : ::testing::Test {
  MadeSeason made{made_site({}), mild(std::chrono::March / 20 / 2025, 15), start + std::chrono::days(2),
                  settings_at(morning_of_day_nine)};
  const Season& season = made.season;
};

TEST_F(SeasonTest, ReachesFromTheFirstGraftToTheEndOfTheOutlook) {
  EXPECT_EQ(season.hour(0), start + std::chrono::days(2));
  EXPECT_EQ(season.hour(season.now()),
            start + std::chrono::days(9) + std::chrono::hours(7));  // the hour that runs lies ahead
  EXPECT_EQ(season.hours(), season.now() + 240);
  EXPECT_EQ(season.horizon(), season.now() + 7 * 24);
  EXPECT_EQ(season.past.hours(), season.now());
  EXPECT_EQ(season.ahead.hours(), 240U);
  EXPECT_EQ(season.past.courses(), 1);
  EXPECT_EQ(season.ahead.courses(), 16);
  EXPECT_EQ(season.daylight.size(), season.hours());
  EXPECT_EQ(season.et0_mm.size(), season.hours());
  EXPECT_EQ(season.days.back().end, season.hours());
}

TEST_F(SeasonTest, FindsTheFirstFullHourOfAnInstant) {
  EXPECT_EQ(season.index_of(season.hour(5)), 5U);
  EXPECT_EQ(season.index_of(season.hour(5) + std::chrono::seconds(1)), 6U);
  EXPECT_EQ(season.index_of(start - std::chrono::days(100)), 0U);
  EXPECT_EQ(season.index_of(start + std::chrono::days(900)), season.hours());
}

Exposure exposure_under(const Site& site, const char* cover) {
  GraftRow row = made_row("G1", std::chrono::local_days{std::chrono::March / 22 / 2025});
  row.cover = cover;
  const GraftCase graft =
      graft_case(row, {}, site, Clock("UTC"), published_models(), start + std::chrono::days(30));
  return exposure_of(graft, graft.settings[0], site, published_models());
}

TEST_F(SeasonTest, SharesTheClimateOfEqualExposures) {
  const Exposure one = exposure_under(made.site, "clear-bag"), same = exposure_under(made.site, "clear-bag");
  const Exposure other = exposure_under(made.site, "none");
  EXPECT_EQ(&season.past_climate(one), &season.past_climate(same));
  EXPECT_NE(&season.past_climate(one), &season.past_climate(other));
  EXPECT_EQ(season.near_climate(one), season.near_climate(same));
  EXPECT_EQ(season.near_climate(one)->tissue_c.cols(), 7 * 24);
  EXPECT_EQ(season.far_climate(one)->tissue_c.cols(), 3 * 24);
  EXPECT_GT(season.past_climate(one).tissue_c.maxCoeff(), season.past_climate(other).tissue_c.maxCoeff());
}

TEST_F(SeasonTest, WorksAClimateOutOnceForSeveralThreads) {
  const Exposure exposure = exposure_under(made.site, "paper-over-bag");
  std::array<std::shared_ptr<const ScionClimate>, 4> found{};
  {
    std::vector<std::jthread> threads;
    for (auto& place : found) threads.emplace_back([&] { place = season.near_climate(exposure); });
  }
  for (const auto& climate : found) EXPECT_EQ(climate, season.near_climate(exposure));
}

TEST_F(SeasonTest, NearAndFarClimateAreTheClimateAheadInTwoPieces) {
  const Exposure exposure = exposure_under(made.site, "none");
  const ScionClimate whole = scion_climate(season.ahead, exposure, season.models);
  EXPECT_TRUE((season.near_climate(exposure)->tissue_c == whole.tissue_c.leftCols(168)).all());
  EXPECT_TRUE((season.far_climate(exposure)->tissue_c == whole.tissue_c.rightCols(72)).all());
}

TEST_F(SeasonTest, ClimatesThatNobodyHoldsAreLetGoAndComeBackTheSame) {
  constexpr std::size_t room_for_none = 1;
  SiteClimates climates(season.past, 0, season.past.hours(), season.models, room_for_none);
  const Exposure open = exposure_under(made.site, "none"), bagged = exposure_under(made.site, "clear-bag");
  const std::shared_ptr<const ScionClimate> held = climates.of(open);
  std::weak_ptr<const ScionClimate> unheld = climates.of(bagged);
  const Eigen::ArrayXXf bagged_c = unheld.lock()->tissue_c;
  EXPECT_TRUE((climates.of(exposure_under(made.site, "paper-over-bag"))->tissue_c > -40).all());
  EXPECT_TRUE(unheld.expired());
  EXPECT_EQ(climates.of(open), held);
  EXPECT_TRUE((climates.of(bagged)->tissue_c == bagged_c).all());
}

TEST_F(SeasonTest, SticksOfAnySizeShareTheClimateUnderACoverButNotInTheOpen) {
  for (const char* cover : {"clear-bag", "none"}) {
    Exposure thin = exposure_under(made.site, cover);
    thin.organ = Organ::stick;
    thin.diameter_m = 0.005;
    Exposure thick = thin;
    thick.diameter_m = 0.012;
    EXPECT_EQ(thin.key() == thick.key(), thin.cover.wall) << cover;
  }
}

TEST(Season, WithoutWeatherSpreadHasOneCourseAhead) {
  SeasonSettings settings = settings_at(morning_of_day_nine);
  settings.weather_spread = false;
  const MadeSeason made(made_site({}), mild(std::chrono::March / 20 / 2025, 15), start, settings);
  EXPECT_EQ(made.season.ahead.courses(), 1);
}

TEST(Season, OfAGraftStillToBeMadeBeginsNow) {
  const MadeSeason made(made_site({}), mild(std::chrono::March / 20 / 2025, 15),
                        morning_of_day_nine + std::chrono::days(3), settings_at(morning_of_day_nine));
  EXPECT_EQ(made.season.now(), 0U);
  EXPECT_EQ(made.season.hours(), 240U);
}

TEST(Season, HorizonEndsWithTheOutlook) {
  SeasonSettings settings = settings_at(morning_of_day_nine);
  settings.outlook_days = 3;
  const MadeSeason made(made_site({}), mild(std::chrono::March / 20 / 2025, 15), start, settings);
  EXPECT_EQ(made.season.horizon(), made.season.hours());
}

TEST(Season, WithoutAnyWeatherIsAnError) {
  HourlyWeather none = mild(std::chrono::March / 20 / 2025, 2);
  for (auto& origin : none[Variable::shortwave].origin) origin = Origin::missing;
  EXPECT_THROW(MadeSeason(made_site({}), none, start, settings_at(start + std::chrono::days(1))), RangeError);
}

}  // namespace
}  // namespace graftcast::testing
