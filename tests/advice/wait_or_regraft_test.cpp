// What waiting, looking and grafting again are worth, by hand.

#include "advice/wait_or_regraft.hpp"

#include "advice/graft_window.hpp"

#include <gtest/gtest.h>

#include <random>

#include "advice/stock_history.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

constexpr LocalDay today{std::chrono::local_days{std::chrono::April / 10 / 2025}};
constexpr GraftWindow open_for_long{true, today + std::chrono::days(90), today - std::chrono::days(10)};

NewGraft sure_graft() {
  NewGraft anew;
  anew.take = 0.8;
  anew.window = anew.window_then = open_for_long;
  return anew;
}

Standing standing() {
  Standing graft;
  graft.alive = 0.5;
  graft.still_to_take = 0.5;
  graft.today = today;
  graft.shows_by = today + std::chrono::days(28);
  graft.may_look = true;
  return graft;
}

TEST(WorthOfWaiting, IsTheDecisionTreeWorkedOutByHand) {
  // Half lost now, four weeks until it shows, 0.05 a week, 0.02 a look, 0.1 a graft; a sure look.
  const WaitOrRegraft worth = wait_or_regraft(standing(), sure_graft(), {0.05, 0.02, 0.1});
  EXPECT_NEAR(worth.value_regraft, 0.7, 1e-12);
  EXPECT_NEAR(worth.value_wait, 0.5 + 0.5 * (0.7 - 0.2), 1e-12);
  EXPECT_NEAR(*worth.value_look, 0.5 + 0.5 * 0.7 - 0.02, 1e-12);
  EXPECT_NEAR(worth.shows_lost, 0.5, 1e-12);
  EXPECT_TRUE(worth.look_pays());
  EXPECT_EQ(worth.season_left_days, 90);
}

TEST(WorthOfWaiting, ALookPaysBecauseTheWindowCloses) {
  NewGraft anew = sure_graft();
  Standing graft = standing();
  graft.alive = graft.still_to_take = 0.95;
  const OwnersCosts costs{0.01, 0.01, 0.1};
  EXPECT_FALSE(wait_or_regraft(graft, anew, costs).look_pays());
  anew.window.closes = today + std::chrono::days(10);
  anew.window_then = {false, today + std::chrono::days(330), today + std::chrono::days(300)};
  EXPECT_TRUE(wait_or_regraft(graft, anew, costs).look_pays());
}

TEST(WorthOfWaiting, KeepsTheOneLookForTheWeekInWhichItTellsMost) {
  Standing graft = standing();
  graft.alive = 1;
  graft.hand = 0.6;
  graft.still_to_take = 0.6;
  graft.shows_by = today + std::chrono::days(70);
  graft.shown_shares = {0.2, 0.6, 1, 1};
  const OwnersCosts costs{0.03, 0.01, 0.1};
  EXPECT_FALSE(wait_or_regraft(graft, sure_graft(), costs).look_pays());
  graft.shown_shares = {1, 1, 1, 1};
  EXPECT_TRUE(wait_or_regraft(graft, sure_graft(), costs).look_pays());
}

TEST(WorthOfWaiting, CountsWhatShowsInTheWeekOfTheLook) {
  // The hand's failures, 0.4, show in a week and not before; they show by themselves in ten weeks. A look in
  // a week finds them, on the whole half a week after they died; without it the stock lies idle for five
  // weeks.
  Standing graft = standing();
  graft.alive = 1;
  graft.hand = graft.still_to_take = 0.6;
  graft.shows_by = today + std::chrono::days(70);
  graft.shown_shares = {0, 1};
  const OwnersCosts costs{0.03, 0.01, 0.1};
  const WaitOrRegraft worth = wait_or_regraft(graft, sure_graft(), costs);
  EXPECT_NEAR(worth.value_wait, 0.6 - 0.01 + 0.4 * (0.7 - 0.03 / 2), 1e-12);
  EXPECT_NEAR(*worth.value_look, 0.6 - 0.01 + 0.4 * (0.7 - 0.03 * 5), 1e-12);
  graft.shown_shares = {0, 0};
  EXPECT_NEAR(wait_or_regraft(graft, sure_graft(), costs).value_wait, 0.6 + 0.4 * (0.7 - 0.03 * 5), 1e-12);
}

TEST(WorthOfWaiting, HasNoLookWhereNoneIsAllowed) {
  Standing graft = standing();
  graft.may_look = false;
  EXPECT_FALSE(wait_or_regraft(graft, sure_graft(), {0.05, 0, 0.1}).value_look.has_value());
  EXPECT_FALSE(wait_or_regraft(graft, sure_graft(), {0.05, 0, 0.1}).look_pays());
}

TEST(WorthOfWaiting, AFreeSureLookIsNeverWorthLessThanWaitingInAnOpenSeason) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> share(0, 1);
  for (int i = 0; i < 2000; ++i) {
    Standing graft = standing();
    graft.alive = share(random);
    graft.hand = share(random);
    graft.still_to_take = graft.alive * graft.hand * share(random);
    graft.shown_shares = {share(random)};
    NewGraft anew = sure_graft();
    anew.take = share(random);
    const WaitOrRegraft worth = wait_or_regraft(graft, anew, {share(random), 0, share(random)});
    EXPECT_GE(*worth.value_look, worth.value_wait - 1e-12);
    EXPECT_TRUE(worth.shows_lost >= 0 && worth.shows_lost <= 1 - graft.still_to_take + 1e-12);
  }
}

TEST(GraftWindow, IsTheSameInBothHalvesOfTheGlobeHalfAYearApart) {
  const Models& models = published_models();
  for (const auto& [name, species] : models.species) {
    for (int day = 0; day < 365; day += 5) {
      const LocalDay north =
          LocalDay{std::chrono::local_days{std::chrono::December / 21 / 2024}} + std::chrono::days(day);
      const LocalDay south =
          LocalDay{std::chrono::local_days{std::chrono::June / 21 / 2025}} + std::chrono::days(day);
      const GraftWindow one = graft_window(species, 45, north), other = graft_window(species, -45, south);
      EXPECT_EQ(one.open, other.open) << name << ' ' << day;
      EXPECT_EQ((one.closes - north).count(), (other.closes - south).count()) << name << ' ' << day;
      EXPECT_EQ((one.opens - north).count(), (other.opens - south).count()) << name << ' ' << day;
      EXPECT_GE(one.closes, north);
      if (!one.open) {
        EXPECT_GT(one.opens, north);
      }
    }
  }
}

TEST(GraftWindow, OfApplesIsLateWinterToSpringAndSummerForBuds) {
  const Species& apple = published_models().species.at("apple");
  const auto on = [&](std::chrono::month_day day) {
    return graft_window(apple, 51, LocalDay{std::chrono::local_days{day / 2025}});
  };
  EXPECT_TRUE(on(std::chrono::March / 10).open);  // dormant grafts (handbooks, recalled)
  EXPECT_FALSE(on(std::chrono::June / 1).open);
  EXPECT_TRUE(on(std::chrono::August / 5).open);  // summer budding
  EXPECT_FALSE(on(std::chrono::November / 20).open);
}

GraftRecord attempt(const std::string& id, int day, const std::string& stock, const std::string& replaces,
                    const std::string& event = "") {
  GraftRecord record{made_row(id, today + std::chrono::days(day)), {}};
  record.row.stock = stock;
  record.row.replaces = replaces;
  if (!event.empty()) record.lines = {made_line(std::chrono::sys_days{std::chrono::May / 20 / 2025}, event)};
  return record;
}

TEST(StockHistory, ShowsEveryAttemptAndFollowsWhatReplacedWhat) {
  const std::vector<GraftRecord> grafts{attempt("C", 20, "", "B"), attempt("A", 0, "old pear", "", "taken"),
                                        attempt("X", 0, "other", ""),
                                        attempt("B", 1, "old pear", "", "dead")};
  const StockHistory history =
      stock_history("old pear", grafts, std::chrono::sys_days{std::chrono::June / 1 / 2025});
  ASSERT_EQ(history.attempts.size(), 3U);
  EXPECT_EQ(history.attempts[0].id, "A");
  EXPECT_EQ(history.attempts[0].outcome, AttemptOutcome::taken);
  EXPECT_EQ(history.attempts[1].outcome, AttemptOutcome::lost);
  EXPECT_EQ(history.attempts[1].replaced_by, "C");
  EXPECT_EQ(history.attempts[2].id, "C");
  EXPECT_EQ(history.attempts[2].outcome, AttemptOutcome::open);
  EXPECT_TRUE(stock_history("no such", grafts, {}).attempts.empty());
}

}  // namespace
}  // namespace graftcast::testing
