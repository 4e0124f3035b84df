// Factors made harmless one at a time: each takes away its own harm, and what is harmless already stays.

#include "ensemble/counterfactual.hpp"

#include <gtest/gtest.h>

#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

constexpr auto made_on = std::chrono::January / 10 / 2025;
constexpr int lived_days = 20;

struct Ask {
  std::string species = "citrus", method = "cleft", wrap = "film", cover = "none";
  MadeDay day{17, 29, 45, 2.5, 800, 5.5};
  double wind_share = 1;
  std::optional<double> pot_litres = {};
  std::optional<double> match_share = {};
};

/// One graft's past, from noon of its first day.
class Past {
 public:
  explicit Past(const Ask& ask) : made_(site_of(ask), weather_of(ask), start(), settings()) {
    GraftRow row = made_row("G1", LocalDay{std::chrono::local_days{made_on}}, ask.species, ask.method,
                            ask.cover, ask.wrap);
    row.pot_litres = ask.pot_litres;
    row.cambium_match_share = ask.match_share;
    const std::vector<DiaryLine> lines{made_line(start() + std::chrono::hours(12), "watered")};
    run_.emplace(made_.season, graft_case(row, lines, made_.site, made_.clock, published_models(),
                                          made_.season.settings.as_of));
    climates_.emplace(made_.season);
    runs_.emplace(*run_, *climates_, made_.season.now());
  }

  const Counterfactuals& runs() const { return *runs_; }
  const GraftRun& run() const { return *run_; }
  UnionStates as_it_was() const { return runs_->states(all_factors()); }
  UnionStates without(Factor factor) const { return runs_->states(all_factors() ^ only(factor)); }
  double part(const UnionStates& states, double SurvivalParts::*part) const {
    double sum = 0;
    for (std::size_t i = 0; i < states.members(); ++i) sum += survival_parts(run_->limits(), states, i).*part;
    return sum / static_cast<double>(states.members());
  }

 private:
  static Instant start() { return std::chrono::sys_days{made_on}; }
  static Site site_of(const Ask& ask) {
    Site site = made_site({});
    site.spots.at("here").wind_share = ask.wind_share;
    return site;
  }
  static HourlyWeather weather_of(const Ask& ask) {
    return made_weather(made_on, lived_days + 1, [&](int) { return ask.day; });
  }
  static SeasonSettings settings() {
    SeasonSettings settings;
    settings.as_of = start() + std::chrono::days(lived_days);
    settings.members = 32;
    settings.horizon_days = settings.outlook_days = 0;
    return settings;
  }

  MadeSeason made_;
  std::optional<GraftRun> run_;
  std::optional<HarmlessClimates> climates_;
  std::optional<Counterfactuals> runs_;
};

/// Equal to the last bit in everything that is carried from hour to hour.
void expect_same(const UnionStates& a, const UnionStates& b, const std::string& what) {
  a.each([&](const Eigen::ArrayXd& one,
             const Eigen::ArrayXd& other) { EXPECT_TRUE((one == other).all()) << what; },
         a, b);
}

TEST(Counterfactuals, WithEverythingAsItWasAreTheRunItself) {
  const Past past({.cover = "paper-over-bag", .pot_litres = 3});
  UnionStates states = past.run().fresh();
  std::vector<UnionStates> none;
  past.run().run(past.run().as_it_is(), past.runs().begin(), past.runs().end(), states, {}, none);
  expect_same(past.as_it_was(), states, "as it was");
  expect_same(past.runs().under(past.run().as_it_is(), {}, none), states, "under the same treatment");
}

TEST(Counterfactuals, LeaveAsItIsWhatDoesNoHarm) {
  // Damp calm air at the optimum, a stock in the ground, all of the cambium met, the usual wrap, no cover.
  const Past past(
      {.species = "apple", .day = {23.5, 24, 99, 0.8, 0, 5.5}, .wind_share = 0.5, .match_share = 1.0});
  for (const Factor factor : {Factor::wind, Factor::cover_sun, Factor::missing_cover, Factor::dry_stock,
                              Factor::cold, Factor::match, Factor::dry_air})
    expect_same(past.as_it_was(), past.without(factor), std::string(factor_name(factor)));
}

TEST(Counterfactuals, WithoutHeatNothingCooksAndTheWaterStays) {
  const Past past({.cover = "clear-bag", .day = {22, 39, 20, 1, 950, 5.5}});
  const UnionStates without = past.without(Factor::heat);
  EXPECT_LT(past.part(past.as_it_was(), &SurvivalParts::heat), 0.5);
  EXPECT_NEAR(past.part(without, &SurvivalParts::heat), 1, 1e-9);
  EXPECT_TRUE((without.water == past.as_it_was().water).all());
}

TEST(Counterfactuals, WithoutSunTheBagIsNoHotterThanTheAir) {
  const Past past({.cover = "clear-bag", .day = {22, 34, 30, 1, 950, 5.5}});
  EXPECT_LT(past.part(past.as_it_was(), &SurvivalParts::heat), 0.9);
  EXPECT_GT(past.part(past.without(Factor::cover_sun), &SurvivalParts::heat), 0.99);
}

TEST(Counterfactuals, DampAirKeepsMoreWaterAndWeakWindNoLess) {
  const Past past({.wrap = "none", .day = {17, 27, 30, 5, 500, 5.5}});
  const double was = past.as_it_was().lowest_reserve.mean();
  EXPECT_GT(past.without(Factor::dry_air).lowest_reserve.mean(), was + 0.02);
  EXPECT_GT(past.without(Factor::wind).lowest_reserve.mean(), was);
}

TEST(Counterfactuals, WithNothingMissingItIsTheUsualGraft) {
  const Past bare({.species = "apple", .wrap = "none"});
  const Past usual({.species = "apple"});
  expect_same(bare.without(Factor::missing_cover), usual.as_it_was(), "wrapped as usual");
}

TEST(Counterfactuals, AWateredStockNeverRunsShort) {
  const Past dry({.method = "chip", .day = {20, 33, 25, 3, 900, 5.5}, .pot_litres = 0.7});
  const Past ground({.method = "chip", .day = {20, 33, 25, 3, 900, 5.5}});
  EXPECT_LT(dry.as_it_was().healing.mean(), ground.as_it_was().healing.mean());
  expect_same(dry.without(Factor::dry_stock), ground.without(Factor::dry_stock), "no stock is short");
}

TEST(Counterfactuals, WithoutColdFrostKillsNeitherBudsNorCallus) {
  const Past past({.day = {-9, 14, 60, 1, 500, 5.5}});
  const UnionStates without = past.without(Factor::cold);
  EXPECT_LT(past.part(past.as_it_was(), &SurvivalParts::cold), 0.5);
  EXPECT_EQ(past.part(without, &SurvivalParts::cold), 1);
  EXPECT_GE(without.healing.mean(), past.as_it_was().healing.mean());
}

TEST(Counterfactuals, CallusAtItsBestHealsAliveAtAnyTemperature) {
  const Ask cool{.species = "apple", .day = {6, 12, 80, 1, 200, 5.5}};
  Ask warm = cool;
  warm.day = {10, 16, 80, 1, 200, 5.5};
  const Past in_cool(cool), in_warm(warm);
  EXPECT_LT(in_cool.as_it_was().healing.mean(), 0.8 * in_warm.as_it_was().healing.mean());
  EXPECT_NEAR(in_cool.without(Factor::slow_callus).healing.mean(),
              in_warm.without(Factor::slow_callus).healing.mean(), 1e-3);
  EXPECT_TRUE((in_cool.as_it_was().bud_clock == in_cool.without(Factor::slow_callus).bud_clock).all());
}

TEST(Counterfactuals, BudsThatStayShutBringNoLeaves) {
  const Past past({.species = "peach"});
  EXPECT_GT(past.as_it_was().bud_clock.mean(), 1);
  const UnionStates without = past.without(Factor::early_push);
  EXPECT_LT(without.bud_clock.mean(), 1e-200);
  EXPECT_EQ(without.leaf_share.mean(), 0);
}

TEST(Counterfactuals, AFullMatchHealsFaster) {
  const Past past({.species = "apple", .match_share = 0.2});
  EXPECT_GT(past.without(Factor::match).healing.mean(), 1.1 * past.as_it_was().healing.mean());
}

}  // namespace
}  // namespace graftcast::testing
