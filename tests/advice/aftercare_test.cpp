// The work after grafting: what comes when, what notes take off the list, and what heat postpones. The order
// and the rules are common practice, no published source, where no other is named.

#include "advice/aftercare.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "advice/morning.hpp"
#include "advice/since.hpp"
#include "advice/stock_notes.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

using ::testing::ElementsAre;

constexpr auto first_day = std::chrono::September / 1 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr LocalDay day_of(int day) {
  return LocalDay{std::chrono::local_days{first_day}} + std::chrono::days(day);
}

constexpr MadeDay mild{15, 25, 60, 1.5, 600, 6};
constexpr MadeDay hot{27, 44, 10, 3, 950, 5.5};

/// As of seven in the morning of `day`, with `known` days of weather.
GraftSince since_on(int day, const GraftRecord& graft, const std::function<MadeDay(int)>& shape, int known) {
  SeasonSettings settings;
  settings.as_of = start + std::chrono::hours(24 * day + 7);
  settings.members = 32;
  settings.outlook_days = 60;
  const MadeSeason made(made_site({}), made_weather(first_day, known, shape), start, settings);
  return since(made.season, {graft}, {}, 1).grafts.at(0);
}

GraftSince since_mild(int day, const GraftRecord& graft) {
  return since_on(
      day, graft, [](int) { return mild; }, day + 20);
}

GraftRecord plain(const std::string& species = "citrus", const std::string& method = "cleft",
                  const std::string& cover = "none") {
  return {made_row("G1", day_of(1), species, method, cover), {}};
}

void note(GraftRecord& graft, int day, const std::string& event, const std::string& value = "") {
  graft.lines.push_back(made_line(start + std::chrono::hours(24 * day + 12), event, value));
}

const CareTask* task_of(const GraftSince& graft, CareWork work) {
  const auto found = std::ranges::find(graft.aftercare, work, &CareTask::work);
  return found == graft.aftercare.end() ? nullptr : &*found;
}

TEST(Aftercare, SlitsTheWrapOnTheDayOfTheRunAndOnlyOnce) {
  GraftRecord graft = plain();
  const GraftSince before = since_mild(40, graft);
  ASSERT_NE(task_of(before, CareWork::slit_wrap), nullptr);
  EXPECT_EQ(task_of(before, CareWork::slit_wrap)->due.median, before.slit_wrap_from.median);
  note(graft, 39, "wrap-slit");
  const CareTask* done = task_of(since_mild(40, graft), CareWork::slit_wrap);
  ASSERT_NE(done, nullptr);
  EXPECT_EQ(done->done, day_of(39));
  EXPECT_FALSE(done->is_open());
  // What is left of it comes off three weeks later.
  EXPECT_EQ(task_of(since_mild(40, graft), CareWork::remove_wrap)->due.median, day_of(39 + 21));
}

TEST(Aftercare, RubsOffSuckersAgainAFortnightAfterTheLastTime) {
  GraftRecord graft = plain();
  const CareTask first = *task_of(since_mild(40, graft), CareWork::rub_suckers);
  EXPECT_GE(*first.due.median, day_of(1 + 14));
  note(graft, 38, "suckers-rubbed");
  EXPECT_EQ(task_of(since_mild(40, graft), CareWork::rub_suckers)->due.median, day_of(38 + 14));
}

TEST(Aftercare, HeadsBackOnlyWhatWasBuddedBelowAFullHead) {
  EXPECT_EQ(task_of(since_mild(30, plain("citrus", "cleft")), CareWork::head_back), nullptr);
  GraftRecord bud = plain("citrus", "chip");
  EXPECT_EQ(task_of(since_mild(30, bud), CareWork::head_back), nullptr);
  // University of Florida, citrus propagation (seen): lop at the removal of the wrap.
  ASSERT_NE(task_of(since_mild(30, bud), CareWork::lop), nullptr);
  note(bud, 29, "headed-back");
  EXPECT_FALSE(task_of(since_mild(30, bud), CareWork::lop)->is_open());
}

TEST(Aftercare, LetsALateBudOfADeciduousTreeSleepUntilSpring) {
  // September on the northern half of the globe is late; on the southern it is spring. August buds stay
  // dormant and are forced next spring (extension norm, recalled).
  for (const double latitude_deg : {45.0, -45.0}) {
    Site site = made_site({});
    site.location.latitude_deg = latitude_deg;
    SeasonSettings settings;
    settings.as_of = start + std::chrono::hours(24 * 30);
    settings.members = 16;
    settings.outlook_days = 30;
    const MadeSeason made(site, made_weather(first_day, 40, [](int) { return mild; }), start, settings);
    const GraftSince graft = since(made.season, {plain("apple", "t-bud")}, {}, 1).grafts.at(0);
    const CareTask* task = task_of(graft, CareWork::head_back);
    ASSERT_NE(task, nullptr);
    const int months = static_cast<int>((*task->due.median - day_of(0)).count() / 30);
    EXPECT_EQ(months >= 5, latitude_deg > 0) << latitude_deg;
  }
}

TEST(Aftercare, ThinsSticksAndNotBuds) {
  EXPECT_NE(task_of(since_mild(40, plain()), CareWork::thin), nullptr);
  EXPECT_EQ(task_of(since_mild(40, plain("citrus", "chip")), CareWork::thin), nullptr);
  GraftRecord thinned = plain();
  note(thinned, 39, "thinned");
  EXPECT_FALSE(task_of(since_mild(40, thinned), CareWork::thin)->is_open());
}

/// The stake's task as of `today`, with gusts on day 12 and, where given, a shoot to tie from then on.
CareTask stake_on(int today, std::optional<LocalDay> shoot_to_tie, const std::vector<DiaryLine>& lines = {}) {
  const Site site = made_site({});
  const Clock clock(site.time_zone);
  const GraftRow row = made_row("G1", day_of(1));
  const GraftCase graft =
      graft_case(row, lines, site, clock, published_models(), start + std::chrono::hours(24 * today));
  CareDates dates;
  dates.shoot_to_tie = {shoot_to_tie, shoot_to_tie, shoot_to_tie};
  dates.gusts = GustsAhead{14, day_of(12)};
  const auto tasks = aftercare({row, graft, lines, dates, {}, clock, published_models(), 45, day_of(today)});
  const auto stake = std::ranges::find(tasks, CareWork::stake, &CareTask::work);
  return stake == tasks.end() ? CareTask{} : *stake;
}

TEST(Aftercare, StakesOnTheDayBeforeTheGaleAndOnItsDayAtTheLatest) {
  for (const auto shoot : {std::optional<LocalDay>(), std::optional(day_of(30))}) {
    const CareTask stake = stake_on(9, shoot);
    EXPECT_EQ(stake.due.median, day_of(11));
    ASSERT_TRUE(stake.gusts.has_value());
    EXPECT_EQ(stake.gusts->gust_m_s, 14);
    EXPECT_EQ(stake_on(12, shoot).due.median, day_of(12));
  }
}

TEST(Aftercare, StakesWhereThereIsAShootToTieBeforeTheGale) {
  const CareTask stake = stake_on(9, day_of(10));
  EXPECT_EQ(stake.due.median, day_of(10));
  EXPECT_FALSE(stake.gusts.has_value());
}

TEST(Aftercare, KnowsOnWhichDayItWasStaked) {
  const CareTask stake = stake_on(9, {}, {made_line(start + std::chrono::hours(24 * 8 + 12), "staked")});
  EXPECT_EQ(stake.done, day_of(8));
  EXPECT_FALSE(stake.is_open());
}

TEST(Aftercare, CountsAStakeFromItsDayOn) {
  HourlyWeather weather = made_weather(first_day, 20, [](int) { return mild; });
  auto& gust = weather[Variable::gust];
  for (std::size_t hour = 0; hour < weather.size(); ++hour) {
    gust.value[hour] = hour / 24 == 5 || hour / 24 == 9 ? 14 : 3;
    gust.origin[hour] = Origin::measured;
  }
  SeasonSettings settings;
  settings.as_of = start + std::chrono::hours(24 * 12 + 7);
  settings.members = 16;
  const MadeSeason made(made_site({}), weather, start, settings);
  GraftRecord graft = plain();
  note(graft, 7, "staked");
  std::vector<LocalDay> windy;
  const SinceReport report = since(made.season, {graft}, {}, 1);
  for (const SinceDay& day : report.grafts.at(0).days)
    if (has(day.flags, DayFlag::wind)) windy.push_back(day.day);
  EXPECT_THAT(windy, ElementsAre(day_of(5)));
}

TEST(Aftercare, HasNothingForTheDead) {
  GraftRecord graft = plain();
  note(graft, 39, "dead");
  EXPECT_TRUE(since_mild(40, graft).aftercare.empty());
}

TEST(Hardening, GoesByStepsOnceTheUnionDrinksAndKeepsTheShade) {
  GraftRecord bagged = plain("citrus", "cleft", "paper-over-bag");
  const GraftSince young = since_mild(10, bagged);
  EXPECT_EQ(task_of(young, CareWork::open_corner), nullptr);  // it drinks later than steps are looked for
  const GraftSince graft = since_mild(60, bagged);
  ASSERT_GE(graft.stage, Stage::drinking);
  const CareTask *corner = task_of(graft, CareWork::open_corner), *half = task_of(graft, CareWork::open_half),
                 *off = task_of(graft, CareWork::take_bag_off), *bare = task_of(graft, CareWork::shade_off);
  ASSERT_TRUE(corner && half && off && bare);
  EXPECT_EQ(corner->due.median, day_of(60));
  EXPECT_EQ(half->due.median, day_of(62));
  EXPECT_EQ(off->due.median, day_of(64));  // off 3-7 days after it is vented (extension norm, recalled)
  EXPECT_GE(*bare->due.median, day_of(64 + 7));
}

TEST(Hardening, IsPutOffByHeatThatIsComing) {
  const GraftRecord bagged = plain("citrus", "cleft", "paper-over-bag");
  const GraftSince graft = since_on(
      60, bagged, [](int day) { return day >= 60 && day < 65 ? hot : mild; }, 80);
  const CareTask* corner = task_of(graft, CareWork::open_corner);
  ASSERT_NE(corner, nullptr);
  EXPECT_EQ(corner->due.median, day_of(65));
  EXPECT_EQ(corner->put_off_days, 5);
  EXPECT_TRUE(corner->put_off_for.has_value());
}

TEST(Hardening, GoesOnFromWhatIsNoted) {
  GraftRecord bagged = plain("citrus", "cleft", "paper-over-bag");
  note(bagged, 58, "bag-vented");
  const GraftSince vented = since_mild(60, bagged);
  EXPECT_FALSE(task_of(vented, CareWork::open_corner)->is_open());
  EXPECT_EQ(task_of(vented, CareWork::open_half)->due.median, day_of(60));
  note(bagged, 59, "bag-off");
  const GraftSince off = since_on(
      60, bagged, [](int day) { return day >= 62 && day < 64 ? hot : mild; }, 80);
  EXPECT_EQ(task_of(off, CareWork::open_half), nullptr);
  ASSERT_NE(task_of(off, CareWork::cover_again), nullptr);
  EXPECT_LE(*task_of(off, CareWork::cover_again)->due.median, day_of(62));
}

TEST(DueTasks, PutsRowsTogetherThatShareATask) {
  const auto on = [](int day) { return DateBand{day_of(day), day_of(day), day_of(day)}; };
  const std::vector<CareTask> tasks{{.id = "A", .work = CareWork::stake, .due = on(3)},
                                    {.id = "B", .work = CareWork::stake, .due = on(2)},
                                    {.id = "B", .work = CareWork::thin, .due = on(9)},
                                    {.id = "C", .work = CareWork::slit_wrap, .done = day_of(1)}};
  const std::vector<DueTask> due = due_tasks(tasks, day_of(5));
  ASSERT_EQ(due.size(), 1U);
  EXPECT_THAT(due[0].ids, ElementsAre("A", "B"));
  EXPECT_EQ(due[0].due, day_of(2));
}

TEST(MorningsDueTasks, CountGraftsThatHaveTakenToo) {
  GraftRecord taken = plain();
  note(taken, 50, "taken");
  SeasonSettings settings;
  settings.as_of = start + std::chrono::hours(24 * 60 + 7);
  settings.members = 16;
  const MadeSeason made(made_site({}), made_weather(first_day, 80, [](int) { return mild; }), start,
                        settings);
  const MorningReport report = morning(made.season, {taken}, 1);
  EXPECT_TRUE(report.grafts.empty());
  EXPECT_TRUE(std::ranges::any_of(
      report.also_due, [](const DueTask& due) { return due.first.work == CareWork::rub_suckers; }));
  for (const DueTask& due : report.also_due) EXPECT_LE(due.due, day_of(60));
}

TEST(StockNotes, OfTheLastWeeksCountAndTheLastOneWins) {
  GraftRecord graft = plain("walnut", "bark");
  const Clock clock("UTC");
  const auto on = [&](int day) {
    return stock_notes({graft}, start + std::chrono::hours(24 * day), clock, published_models());
  };
  note(graft, 2, "slips");
  note(graft, 5, "bleeding");
  EXPECT_TRUE(on(10).slips.at("walnut"));
  EXPECT_EQ(on(10).bleeding.at("walnut"), day_of(5));
  EXPECT_TRUE(on(4).bleeding.empty());
  EXPECT_TRUE(on(60).slips.empty());
  EXPECT_TRUE(on(60).bleeding.empty());
  note(graft, 8, "slips", "0");
  note(graft, 9, "bleeding", "0");
  EXPECT_FALSE(on(10).slips.at("walnut"));
  EXPECT_TRUE(on(10).bleeding.empty());
  note(graft, 11, "flushing");
  EXPECT_TRUE(on(12).slips.at("walnut"));
}

}  // namespace
}  // namespace graftcast::testing
