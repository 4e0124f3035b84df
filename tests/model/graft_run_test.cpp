// One graft through its season: pieces add up, treatments leave the past alone, notes weigh the members.

#include "ensemble/graft_run.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <set>

#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr Instant as_of = start + std::chrono::days(12) + std::chrono::hours(7);

SeasonSettings settings(bool weather_spread = true) {
  SeasonSettings s;
  s.as_of = as_of;
  s.members = 32;
  s.horizon_days = 5;
  s.outlook_days = 8;
  s.weather_spread = weather_spread;
  return s;
}

struct GraftRunTest : ::testing::Test {
  MadeSeason made{
      made_site({}),
      made_weather(first_day, 20, [](int day) { return MadeDay{17, 30.0 + day % 4, 30, 2, 850, 5.5}; }),
      start, settings()};
  const Season& season = made.season;

  GraftRow row(const char* method = "cleft", const char* cover = "none") const {
    return made_row("G1", std::chrono::local_days{first_day}, "citrus", method, cover);
  }
  GraftRun run_of(const GraftRow& graft, const std::vector<DiaryLine>& lines = {}) const {
    return {season, graft_case(graft, lines, made.site, made.clock, season.models, as_of)};
  }
  static UnionNow now_of(GraftRun run) {
    std::vector<UnionStates> none;
    return run.to_now({}, none);
  }
  static UnionStates through(const GraftRun& run, const Treatment& treatment, std::size_t from,
                             std::size_t to, UnionStates states) {
    std::vector<UnionStates> none;
    run.run(treatment, from, to, states, {}, none);
    return states;
  }
  UnionStates fresh() const { return fresh_states(static_cast<std::size_t>(season.quantiles.members())); }
};

void expect_same(const UnionStates& one, const UnionStates& other) {
  one.each([](const Eigen::ArrayXd& a, const Eigen::ArrayXd& b) { EXPECT_TRUE((a == b).all()); }, one, other);
}

std::vector<DiaryLine> busy_diary() {
  return {made_line(start + std::chrono::days(2) + std::chrono::hours(9), "bag-on"),
          made_line(start + std::chrono::days(4) + std::chrono::hours(18), "shade", "0.5"),
          made_line(start + std::chrono::days(7) + std::chrono::hours(6), "paper-on"),
          made_line(start + std::chrono::days(9) + std::chrono::hours(6), "bag-off")};
}

TEST_F(GraftRunTest, InTwoPiecesIsTheRunInOne) {
  for (const char* method : {"cleft", "chip"}) {
    const GraftRun run = run_of(row(method), busy_diary());
    const Treatment& treatment = run.as_it_is();
    const UnionStates whole = through(run, treatment, run.begin(), season.hours(), fresh());
    // Also cut at the very hour of bagging, at now and at the horizon.
    const std::size_t bagged = season.index_of(start + std::chrono::days(2) + std::chrono::hours(9));
    for (const std::size_t cut :
         {run.begin() + 1, bagged, bagged + 1, season.now(), season.horizon(), season.hours()}) {
      const UnionStates half = through(run, treatment, run.begin(), cut, fresh());
      expect_same(whole, through(run, treatment, cut, season.hours(), half));
    }
  }
}

TEST_F(GraftRunTest, MarksAreTheStatesAtTheirHours) {
  const GraftRun run = run_of(row(), busy_diary());
  const std::vector<std::size_t> marks{run.begin(), 100, 100, season.now(), season.horizon(), season.hours()};
  UnionStates states = fresh();
  std::vector<UnionStates> at_marks;
  run.run(run.as_it_is(), run.begin(), season.hours(), states, marks, at_marks);
  ASSERT_EQ(at_marks.size(), marks.size());
  for (std::size_t i = 0; i < marks.size(); ++i) {
    expect_same(at_marks[i], through(run, run.as_it_is(), run.begin(), marks[i], fresh()));
  }
}

TEST_F(GraftRunTest, BeginsAtTheFirstFullHourAfterGrafting) {
  GraftRow graft = row();
  EXPECT_EQ(run_of(graft).begin(), 12U);  // noon where no time is given
  graft.grafted_at = start + std::chrono::hours(15) + std::chrono::minutes(20);
  EXPECT_EQ(run_of(graft).begin(), 16U);
  graft.grafted_at = as_of + std::chrono::days(2);
  const GraftRun ahead = run_of(graft);
  EXPECT_EQ(ahead.begin(), season.now());
  const UnionNow now = now_of(ahead);
  expect_same(now.states, fresh());
}

TEST_F(GraftRunTest, ChangedLeavesThePastAlone) {
  GraftRow graft = row();
  graft.pot_litres = 5;
  const GraftRun run = run_of(graft, busy_diary());
  Setting bagged = run.graft().settings.back();
  bagged.cover = "paper-over-bag";
  const Instant when = season.hour(season.now());
  const Treatment treated = run.changed(when, bagged, true);
  const Treatment& as_it_is = run.as_it_is();
  ASSERT_EQ(treated.settings.size(), as_it_is.settings.size() + 1);
  for (std::size_t i = 0; i < as_it_is.settings.size(); ++i) {
    EXPECT_EQ(treated.settings[i].from, as_it_is.settings[i].from);
    EXPECT_EQ(treated.settings[i].cover, as_it_is.settings[i].cover);
  }
  EXPECT_EQ(treated.settings.back().from, when);
  for (std::size_t hour = 0; hour < season.now(); ++hour) {
    EXPECT_EQ(treated.stock_stress[hour], as_it_is.stock_stress[hour]);
  }
  const UnionStates now = through(run, as_it_is, run.begin(), season.now(), fresh());
  expect_same(now, through(run, treated, run.begin(), season.now(), fresh()));
  const UnionStates later = through(run, as_it_is, season.now(), season.hours(), now);
  const UnionStates treated_later = through(run, treated, season.now(), season.hours(), now);
  EXPECT_FALSE((later.water == treated_later.water).all());
}

TEST_F(GraftRunTest, ChangedToTheSameSettingChangesNothing) {
  const GraftRun run = run_of(row("cleft", "clear-bag"));
  const Treatment same = run.changed(season.hour(season.now()), run.graft().settings.back(), false);
  const UnionStates now = through(run, run.as_it_is(), run.begin(), season.now(), fresh());
  expect_same(through(run, run.as_it_is(), season.now(), season.hours(), now),
              through(run, same, season.now(), season.hours(), now));
}

TEST_F(GraftRunTest, FirstHourInABagStillHasTheAirOfTheOutside) {
  const GraftRun open = run_of(row());
  Setting bagged = open.graft().settings.back();
  bagged.cover = "clear-bag";
  const std::size_t noon = season.index_of(start + std::chrono::days(3) + std::chrono::hours(12));
  const UnionStates before = through(open, open.as_it_is(), open.begin(), noon, fresh());
  const auto water_after = [&](std::size_t closed_at) {
    const Treatment treatment = open.changed(season.hour(closed_at), bagged, false);
    return through(open, treatment, noon, noon + 1, before).water.mean();
  };
  const double closed_now = water_after(noon);
  const double closed_an_hour_ago = water_after(noon - 1);
  EXPECT_LT(closed_now, closed_an_hour_ago);
}

double mean(const UnionNow& now, Eigen::ArrayXd UnionStates::*number) {
  return weighted_mean(now.states.*number, now.weights);
}

TEST_F(GraftRunTest, WeighsItsMembersByWhatWasSeen) {
  const UnionNow unseen = now_of(run_of(row()));
  for (const double w : unseen.weights) EXPECT_DOUBLE_EQ(w, 1.0 / 32);
  const UnionNow callus = now_of(run_of(row(), {made_line(start + std::chrono::days(6), "callus")}));
  EXPECT_NEAR(std::accumulate(callus.weights.begin(), callus.weights.end(), 0.0), 1, 1e-12);
  EXPECT_GT(mean(callus, &UnionStates::healing), mean(unseen, &UnionStates::healing));
  EXPECT_FALSE(callus.contradicted);
  expect_same(callus.states, unseen.states);
}

TEST_F(GraftRunTest, WeighsAFewOfABatchLessThanAllOfThem) {
  GraftRow batch = row();
  batch.count = 100;
  const double unseen = mean(now_of(run_of(batch)), &UnionStates::healing);
  const double few = mean(now_of(run_of(batch, {made_line(start + std::chrono::days(6), "callus", "1")})),
                          &UnionStates::healing);
  const double all = mean(now_of(run_of(batch, {made_line(start + std::chrono::days(6), "callus", "100")})),
                          &UnionStates::healing);
  EXPECT_GT(few, unseen);
  EXPECT_GT(all, few);
}

TEST_F(GraftRunTest, SeenGreenSaysThatItLivesAndNothingOfWhatComes) {
  GraftRow graft = row("chip");
  graft.wrap = "film-bud-out";
  GraftRun unseen = run_of(graft);
  GraftRun seen = run_of(graft, {made_line(as_of - std::chrono::hours(1), "green")});
  const UnionNow before = now_of(unseen), after = now_of(seen);
  const auto alive = [](const UnionNow& now) {
    return std::inner_product(now.alive_weights.begin(), now.alive_weights.end(), now.survival.begin(), 0.0);
  };
  EXPECT_LT(alive(before), 0.97);
  EXPECT_GT(alive(after), alive(before));
  const auto risk = [&](GraftRun& run, const UnionNow& now) {
    return risk_between(
        now.alive_weights, now.survival,
        survival(run.limits(), through(run, run.as_it_is(), season.now(), season.horizon(), now.states)));
  };
  EXPECT_NEAR(risk(unseen, before).p, risk(seen, after).p, 1e-12);
}

TEST_F(GraftRunTest, SeenGreenCountsWhereTheModelHoldsItForDead) {
  GraftRow graft = row();
  graft.wrap = "none";
  graft.tip = "open";
  const UnionNow unseen = now_of(run_of(graft));
  EXPECT_LT(unseen.alive(), 1e-3);
  EXPECT_FALSE(unseen.contradicted);
  const UnionNow seen = now_of(run_of(graft, {made_line(as_of - std::chrono::hours(1), "green")}));
  EXPECT_TRUE(seen.contradicted);
  EXPECT_GT(seen.alive(), 0.9);
  const UnionNow dead = now_of(run_of(graft, {made_line(as_of - std::chrono::hours(1), "dead")}));
  EXPECT_FALSE(dead.contradicted);
}

TEST_F(GraftRunTest, DrawsMembersAnewWhereFewFitWhatWasSeen) {
  GraftRow batch = row();
  batch.count = 200;
  const UnionNow unseen = now_of(run_of(batch));
  const auto lines = std::vector{made_line(start + std::chrono::days(5), "callus", "200")};
  const UnionNow seen = now_of(run_of(batch, lines));
  EXPECT_EQ(unseen.redrawn, 0);
  ASSERT_GT(seen.redrawn, 0);
  EXPECT_FALSE(seen.contradicted);
  EXPECT_NEAR(std::accumulate(seen.weights.begin(), seen.weights.end(), 0.0), 1, 1e-12);
  EXPECT_GE(1 / std::inner_product(seen.weights.begin(), seen.weights.end(), seen.weights.begin(), 0.0),
            0.25 * 32);
  const std::set<double> values = [&] {
    const Eigen::ArrayXd& healing = seen.states.healing;
    return std::set<double>(healing.begin(), healing.end());
  }();
  EXPECT_EQ(values.size(), 32U);
  EXPECT_GT(mean(seen, &UnionStates::healing), mean(unseen, &UnionStates::healing));
  expect_same(seen.states, now_of(run_of(batch, lines)).states);
}

TEST_F(GraftRunTest, KeepsAllMembersAlikeWhereTheNotesFitNone) {
  const UnionNow now =
      now_of(run_of(row(), {made_line(start + std::chrono::days(1), "leafed-out"),
                            made_line(start + std::chrono::days(1) + std::chrono::hours(2), "buds-moving")}));
  EXPECT_TRUE(now.contradicted);
  for (const double w : now.weights) EXPECT_DOUBLE_EQ(w, 1.0 / 32);
}

TEST_F(GraftRunTest, OfADryPotNeverWateredGetsNothingFromTheStock) {
  GraftRow graft = row("chip");  // keeps its head, so that a small pot dries
  graft.pot_litres = 0.5;
  const GraftRun dry = run_of(graft, {made_line(start + std::chrono::hours(12), "watered")});
  EXPECT_EQ(dry.as_it_is().stock_stress.back(), 0);
  EXPECT_NEAR(dry.stock_depletion_now(), 1, 1e-9);
  const GraftRun wet = run_of(graft, [] {
    std::vector<DiaryLine> lines;
    for (int day = 0; day < 12; ++day)
      lines.push_back(made_line(start + std::chrono::days(day) + std::chrono::hours(12), "watered"));
    return lines;
  }());
  EXPECT_GT(wet.as_it_is().stock_stress[season.now() - 1], 0.9);
  const UnionNow dried = now_of(dry), watered = now_of(wet);
  EXPECT_LT(mean(dried, &UnionStates::water), mean(watered, &UnionStates::water));
  EXPECT_LT(mean(dried, &UnionStates::healing), mean(watered, &UnionStates::healing));
  dried.states.each([](const Eigen::ArrayXd& values) { EXPECT_TRUE(values.isFinite().all()); }, dried.states);
}

TEST_F(GraftRunTest, OfAPotWithoutAnyNoteIsWateredWeekly) {
  GraftRow graft = row("chip");
  graft.pot_litres = 0.5;
  const GraftRun run = run_of(graft);
  const auto& stress = run.as_it_is().stock_stress;
  for (const std::size_t week : {std::size_t{0}, std::size_t{168}, std::size_t{336}}) {
    EXPECT_EQ(stress[run.begin() + week], 1) << week;
  }
  EXPECT_LT(stress[run.begin() + 167], 1);
}

TEST(WeatherSpread, SwitchedOffLeavesTheBandToTheParameters) {
  const auto weather = made_weather(first_day, 20, [](int day) {
    return day >= 12 ? MadeDay{23, 39, 14, 2.5, 900, 5.5} : MadeDay{16, 28, 40, 1.8, 850, 5.5};
  });
  const auto risk_with = [&](bool spread) {
    const MadeSeason made(made_site({}), weather, start, settings(spread));
    const GraftRow row = made_row("G1", std::chrono::local_days{first_day} + std::chrono::days(8), "citrus",
                                  "chip", "none", "film-bud-out");
    GraftRun run(made.season, graft_case(row, {}, made.site, made.clock, published_models(), as_of));
    std::vector<UnionStates> none;
    const UnionNow now = run.to_now({}, none);
    UnionStates states = now.states;
    run.run(run.as_it_is(), made.season.now(), made.season.horizon(), states, {}, none);
    return risk_between(now.weights, now.survival, survival(run.limits(), states));
  };
  const Risk parameters = risk_with(false), both = risk_with(true);
  EXPECT_GT(parameters.p, 0.1);
  EXPECT_LT(parameters.low, parameters.high);
  EXPECT_LE(parameters.low, parameters.p);
  EXPECT_GE(parameters.high, parameters.p);
  EXPECT_NEAR(parameters.p, both.p, 0.2);
  EXPECT_NE(parameters.p, both.p);
}

}  // namespace
}  // namespace graftcast::testing
