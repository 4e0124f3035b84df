// From extremes to chances: cold tables, risk with its band, quantiles, and what observations say.

#include "ensemble/survival.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

TEST(ColdKill, KillsTenAndNinetyPercentAtTheTemperaturesOfEveryRow) {
  std::size_t rows_seen = 0;
  for (const auto& [name, rows] : published_models().cold_tables) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
      // From the bud stage of the row to just before that of the next one.
      const double last = i + 1 < rows.size() ? std::nextafter(rows[i + 1].bud_stage_from, 0.0) : 3.0;
      for (const double bud_clock : {rows[i].bud_stage_from, last}) {
        // s = (T10 - T90) / 2.56 puts them at 1.28 standard deviations, 9.97 % and 90.03 % to be exact.
        EXPECT_NEAR(cold_kill(rows, bud_clock, rows[i].t10_c.value), 0.10, 5e-4)
            << name << ' ' << rows[i].stage;
        EXPECT_NEAR(cold_kill(rows, bud_clock, rows[i].t90_c.value), 0.90, 5e-4)
            << name << ' ' << rows[i].stage;
      }
      ++rows_seen;
    }
  }
  EXPECT_GT(rows_seen, 40U);
}

TEST(ColdKill, NeverFallsAsItGetsColderOrAsTheBudMovesOn) {
  for (const auto& [name, rows] : published_models().cold_tables) {
    for (double bud_clock = 0; bud_clock < 2; bud_clock += 0.05) {
      double before = 0;
      for (double tissue_c = 10; tissue_c > -45; tissue_c -= 0.5) {
        const double kill = cold_kill(rows, bud_clock, tissue_c);
        EXPECT_GE(kill, before) << name;
        EXPECT_LE(kill, 1) << name;
        before = kill;
      }
    }
    for (std::size_t i = 1; i < rows.size(); ++i) {
      EXPECT_GE(cold_kill(rows, rows[i].bud_stage_from, rows[i - 1].t10_c.value), 0.0999) << name;
    }
  }
}

constexpr SurvivalLimits limits{0.7, 0.05, 1.0, 0.3};

UnionStates one_state(const std::function<void(UnionStates&)>& change) {
  UnionStates states = fresh_states(4);
  change(states);
  return states;
}

TEST(SurvivalParts, AreAHalfAtTheirMedianLimits) {
  const auto at = [](auto change) { return survival_parts(limits, one_state(change), 3); };
  EXPECT_NEAR(at([](auto& s) { s.lowest_reserve.setConstant(0.7); }).water, 0.5, 1e-15);
  EXPECT_NEAR(at([](auto& s) { s.highest_heat_dose.setOnes(); }).heat, 0.5, 1e-15);
  EXPECT_NEAR(at([](auto& s) { s.stores_spent.setOnes(); }).stores, 0.5, 1e-15);
  EXPECT_NEAR(at([](auto& s) { s.highest_cold_kill.setConstant(0.3); }).cold, 0.7, 1e-15);
  // One standard deviation above the limit of water; e of the log-normal limit of heat.
  EXPECT_NEAR(at([](auto& s) { s.lowest_reserve.setConstant(0.75); }).water, 0.841344746, 1e-9);
  EXPECT_NEAR(at([](auto& s) { s.highest_heat_dose.setConstant(std::exp(1.0)); }).heat, 1 - 0.841344746,
              1e-9);
}

TEST(SurvivalParts, OfAFreshUnionAreOne) {
  EXPECT_NEAR(survival(limits, one_state([](auto&) {}))[0], 1, 1e-8);
}

/// States with every number drawn at random.
UnionStates random_states(std::mt19937_64& random, std::size_t members) {
  UnionStates states = fresh_states(members);
  const auto draw = [&](Eigen::ArrayXd& values, double high) {
    for (double& v : values) v = std::uniform_real_distribution(0.0, high)(random);
  };
  draw(states.water, 1);
  draw(states.healing, 4);
  draw(states.bud_clock, 2);
  draw(states.leaf_share, 1);
  draw(states.heat_dose, 3);
  draw(states.stores_spent, 2);
  draw(states.lowest_reserve, 1.2);
  draw(states.highest_heat_dose, 3);
  draw(states.highest_cold_kill, 1);
  return states;
}

TEST(SurvivalParts, MultiplyToSurvivalAndAreChances) {
  std::mt19937_64 random(11);
  const UnionStates states = random_states(random, 400);
  const std::vector<double> all = survival(limits, states);
  ASSERT_EQ(all.size(), 400U);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const SurvivalParts parts = survival_parts(limits, states, i);
    EXPECT_EQ(all[i], parts.water * parts.heat * parts.cold * parts.stores);
    for (const double part : {parts.water, parts.heat, parts.cold, parts.stores}) {
      EXPECT_GE(part, 0);
      EXPECT_LE(part, 1);
    }
  }
}

TEST(WeightedQuantile, IsTheSmallestValueWhoseWeightReachesTheShare) {
  const std::vector<double> values{3, 1, 2}, weights{0.5, 0.2, 0.3};
  for (const auto& [p, expected] :
       {std::pair{0.1, 1.0}, {0.2, 1.0}, {0.21, 2.0}, {0.5, 2.0}, {0.51, 3.0}, {1.0, 3.0}}) {
    EXPECT_EQ(weighted_quantile(values, weights, p), expected) << p;
  }
}

TEST(WeightedQuantile, SplitsTheWeightAtTheShare) {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> uniform(0, 1);
  for (int round = 0; round < 200; ++round) {
    std::vector<double> values(1 + round % 20), weights(values.size());
    for (double& v : values) v = std::floor(10 * uniform(random));
    for (double& w : weights) w = uniform(random);
    const double p = uniform(random);
    const double quantile = weighted_quantile(values, weights, p);
    double total = 0, up_to = 0, below = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
      total += weights[i];
      up_to += values[i] <= quantile ? weights[i] : 0;
      below += values[i] < quantile ? weights[i] : 0;
    }
    EXPECT_GE(up_to, p * total - 1e-12);
    EXPECT_LT(below, p * total + 1e-12);
  }
}

TEST(Risk, OfTwoMembersAlikeHasNoSpread) {
  const std::vector<double> weights{0.5, 0.5}, then{1, 0.5}, later{0.5, 0.25};
  const Risk risk = risk_between(weights, then, later);
  EXPECT_DOUBLE_EQ(risk.p, 0.5);
  EXPECT_DOUBLE_EQ(risk.low, 0.5);
  EXPECT_DOUBLE_EQ(risk.high, 0.5);
  EXPECT_NEAR(risk.error, 0, 1e-15);
}

TEST(Risk, OfOneSureLossAndOneSureTakeSpansAll) {
  const std::vector<double> weights{0.25, 0.75}, then{1, 1}, later{1, 0};
  const Risk risk = risk_between(weights, then, later);
  EXPECT_DOUBLE_EQ(risk.p, 0.75);
  EXPECT_DOUBLE_EQ(risk.low, 0);
  EXPECT_DOUBLE_EQ(risk.high, 1);
  // sqrt((1/4 * 3/4)^2 + (3/4 * 1/4)^2)
  EXPECT_NEAR(risk.error, std::sqrt(2) * 0.1875, 1e-15);
}

TEST(Risk, HasABandThatLeavesATenthOfTheMembersOnEitherSide) {
  // Fifteen members alike in weight lose 0.05, 0.10, ... 0.75, in no order: the second and the fourteenth.
  std::vector<double> weights(15, 1.0 / 15), then(15, 1), later(15);
  for (std::size_t i = 0; i < 15; ++i) later[i] = 1 - 0.05 * static_cast<double>(i * 7 % 15 + 1);
  const Risk risk = risk_between(weights, then, later);
  EXPECT_NEAR(risk.low, 0.10, 1e-12);
  EXPECT_NEAR(risk.high, 0.70, 1e-12);
}

TEST(Risk, CountsAMemberByItsWeightAndByHowMuchOfItIsStillAlive) {
  // 0.8 of weight alive a tenth and 0.2 alive wholly: shares 0.08 and 0.2, of which all and none are lost.
  const std::vector<double> weights{0.8, 0.2}, then{0.1, 1}, later{0, 1};
  EXPECT_NEAR(risk_between(weights, then, later).p, 0.08 / 0.28, 1e-15);
}

TEST(Risk, OfWhatIsDeadAlreadyIsOne) {
  const std::vector<double> weights{0.5, 0.5}, dead{0, 0};
  const Risk risk = risk_between(weights, dead, dead);
  EXPECT_EQ(risk.p, 1);
  EXPECT_EQ(risk.low, 1);
  EXPECT_EQ(risk.high, 1);
  EXPECT_EQ(risk.error, 0);
}

TEST(Risk, NeverFallsWithALongerHorizon) {
  for (const char* species : {"citrus", "apple", "walnut"}) {
    for (const char* cover : {"none", "clear-bag", "paper-over-bag"}) {
      MadeCase made;
      made.species = species;
      made.cover = cover;
      made.members = 32;
      std::mt19937_64 random(17);
      std::uniform_real_distribution<double> uniform(0, 1);
      const MadeRun run =
          run_made(made, made_weather(std::chrono::January / 30 / 2025, 20, [&](int) {
                     const double minimum_c = -8 + 28 * uniform(random);
                     return MadeDay{
                         minimum_c, minimum_c + 20 * uniform(random), 80 * uniform(random) + 10, 3, 900, 5.5};
                   }));
      const std::vector<double> weights(32, 1.0 / 32);
      const std::vector<double> then = survival(run.limits, run.daily[3]);
      double before = 0;
      for (std::size_t day = 4; day < run.daily.size(); ++day) {
        const Risk risk = risk_between(weights, then, survival(run.limits, run.daily[day]));
        EXPECT_GE(risk.p, before) << species << ' ' << cover << " day " << day;
        EXPECT_LE(risk.low, risk.high);
        before = risk.p;
      }
      EXPECT_GT(before, 0) << species << ' ' << cover;
    }
  }
}

TEST(NoteChance, AllowsForAMistakenNoteOneTimeInForty) {
  const ObservationConstants& constants = published_models().observation;
  std::mt19937_64 random(2);
  const UnionStates states = random_states(random, 320);
  for (const EventRow& row : event_table) {
    if (!is_evidence(row.event)) continue;
    double lowest = 1, highest = 0;
    for (std::size_t i = 0; i < states.members(); ++i) {
      const NoteChance chance = note_chance(constants, row.event, states, i, 0.9);
      for (const double likely : {chance.if_alive, chance.if_dead}) {
        EXPECT_GE(likely, 0.025 - 1e-12) << row.word;
        EXPECT_LE(likely, 0.975 + 1e-12) << row.word;
        lowest = std::min(lowest, likely);
        highest = std::max(highest, likely);
      }
    }
    EXPECT_LT(lowest + 0.1, highest) << row.word;
  }
  EXPECT_EQ(note_chance(constants, Event::staked, states, 0, 0.9).if_alive, 1);
  EXPECT_EQ(note_chance(constants, Event::staked, states, 0, 0.9).if_dead, 1);
}

TEST(NoteChance, SpeaksForTheMembersThatFitWhatWasSeen) {
  const ObservationConstants& constants = published_models().observation;
  const auto fresh = [](auto&) {};
  const auto of = [&](Event event, auto change, double joined = 0) {
    return note_chance(constants, event, one_state(change), 0, joined).if_alive;
  };
  const auto if_dead = [&](Event event) {
    return note_chance(constants, event, one_state(fresh), 0, 1).if_dead;
  };
  EXPECT_GT(of(Event::green, fresh), 0.97);
  EXPECT_LT(if_dead(Event::green), 0.03);
  EXPECT_LT(of(Event::dead, fresh), 0.03);
  EXPECT_GT(if_dead(Event::dead), 0.97);
  EXPECT_LT(of(Event::taken, fresh, 0), 0.03);
  EXPECT_GT(of(Event::taken, fresh, 1), 0.97);
  EXPECT_LT(if_dead(Event::taken), 0.03);
  EXPECT_LT(of(Event::callus, fresh), 0.03);
  EXPECT_GT(of(Event::callus, [](auto& s) { s.healing.setConstant(1.2); }), 0.97);
  EXPECT_NEAR(of(Event::callus, [&](auto& s) { s.healing.setConstant(constants.callus_healing); }), 0.5,
              1e-12);
  EXPECT_NEAR(of(Event::buds_moving, [](auto& s) { s.bud_clock.setOnes(); }), 0.5, 1e-12);
  EXPECT_GT(of(Event::leafed_out, [](auto& s) { s.leaf_share.setOnes(); }), 0.97);
  EXPECT_GT(of(Event::wilted, [](auto& s) { s.water.setConstant(0.5); }), 0.97);
  EXPECT_LT(of(Event::shrivelled, fresh), 0.03);
}

}  // namespace
}  // namespace graftcast::testing
