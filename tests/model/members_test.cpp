// The Latin hypercube and what the members of a union make of it.

#include "ensemble/members.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "graftcast/error.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

constexpr std::array all_uncertain{
    Uncertain::pace,          Uncertain::bark_conductance, Uncertain::wrap_factor,
    Uncertain::bare_bud,      Uncertain::base_supply,      Uncertain::joined_supply,
    Uncertain::cambium_match, Uncertain::callus_lower,     Uncertain::callus_optimum,
    Uncertain::callus_upper,  Uncertain::bud_push,         Uncertain::heat_recovery};
static_assert(all_uncertain.size() == uncertain_count);

TEST(LatinHypercube, HitsEveryStratumOnceInEveryDimension) {
  for (const int members : {8, 64, 1000}) {
    const MemberQuantiles quantiles(7, members);
    for (const Uncertain what : all_uncertain) {
      std::set<int> strata;
      for (const double u : quantiles.uniform(what)) strata.insert(static_cast<int>(u * members));
      EXPECT_EQ(strata.size(), static_cast<std::size_t>(members));
      EXPECT_EQ(*strata.begin(), 0);
      EXPECT_EQ(*strata.rbegin(), members - 1);
    }
  }
}

TEST(LatinHypercube, PairsItsDimensionsAtRandom) {
  const MemberQuantiles quantiles(7, 1024);
  for (const Uncertain one : all_uncertain) {
    for (const Uncertain other : all_uncertain) {
      if (one == other) continue;
      const double r = 12 * ((quantiles.uniform(one) - 0.5) * (quantiles.uniform(other) - 0.5)).mean();
      EXPECT_LT(std::abs(r), 5 / 32.0);  // five standard errors of 1024 independent pairs
    }
  }
}

TEST(MemberQuantiles, NormalsStayWithinTwoStandardDeviationsAndKeepTheOrderOfTheUniforms) {
  const MemberQuantiles quantiles(1, 256);
  for (const Uncertain what : all_uncertain) {
    const auto& z = quantiles.normal(what);
    const auto& u = quantiles.uniform(what);
    EXPECT_LE(z.abs().maxCoeff(), 2);
    EXPECT_GT(z.maxCoeff(), 1.8);
    EXPECT_LT(z.minCoeff(), -1.8);
    for (Eigen::Index i = 1; i < z.size(); ++i) EXPECT_EQ(z[i] > z[0], u[i] > u[0]);
  }
}

TEST(MemberQuantiles, AreRoundedUpToWhatIsSteppedAtATimeAndLimited) {
  EXPECT_EQ(MemberQuantiles(1, 1).members(), 8);
  EXPECT_EQ(MemberQuantiles(1, 64).members(), 64);
  EXPECT_EQ(MemberQuantiles(1, 65).members(), 72);
  for (const int members : {0, -1, 65537}) EXPECT_THROW(MemberQuantiles(1, members), RangeError) << members;
}

TEST(MemberQuantiles, DependOnTheSeedAlone) {
  const MemberQuantiles one(5, 64), same(5, 64), other(6, 64);
  for (const Uncertain what : all_uncertain) {
    EXPECT_TRUE((one.uniform(what) == same.uniform(what)).all());
    EXPECT_FALSE((one.uniform(what) == other.uniform(what)).any());
  }
}

constexpr int many = 1024;

MemberQuantiles quantiles_of(int members = many, std::uint64_t seed = 1) {
  MemberQuantiles quantiles(seed, members);
  quantiles.set_match_shapes(published_models());
  return quantiles;
}

GraftCase graft_of(const std::string& species, const std::string& method, const std::string& wrap,
                   const std::string& tip = "") {
  GraftRow row;
  row.id = "G1";
  row.species = species;
  row.method = method;
  row.wrap = wrap;
  row.tip = tip;
  row.spot = "here";
  return graft_case(row, {}, made_site({}), Clock("UTC"), published_models(), Instant{});
}

UnionMembers members_of_case(const GraftCase& graft, const MemberQuantiles& quantiles) {
  return union_members(graft, graft.settings[0], published_models(), quantiles);
}

double median(Eigen::ArrayXd values) {
  std::sort(values.begin(), values.end());
  return 0.5 * (values[values.size() / 2 - 1] + values[values.size() / 2]);
}

TEST(Members, HaveThePublishedValuesAsMedians) {
  const Models& models = published_models();
  const GraftCase graft = graft_of("apple", "cleft", "none");
  const auto members = members_of_case(graft, quantiles_of());
  const auto expect = [&](const Eigen::ArrayXd& values, double value, const char* name) {
    EXPECT_NEAR(median(values) / value, 1, 2e-3) << name;
  };
  const Species& apple = models.species.at("apple");
  const WaterConstants& water = models.water;
  expect(members.bridge_days, apple.bridge_days / models.methods.at("cleft").rate_factor, "bridge_days");
  expect(members.callus_lower_c, apple.callus_lower_c, "callus_lower_c");
  expect(members.callus_optimum_c, apple.callus_optimum_c, "callus_optimum_c");
  expect(members.callus_upper_c, apple.callus_upper_c, "callus_upper_c");
  expect(members.bud_push_degree_days, apple.bud_push_degree_days, "bud_push_degree_days");
  expect(members.base_supply_per_day, water.base_supply_stick_per_day, "base supply");
  expect(members.joined_supply_per_day, water.joined_supply_stick_per_day, "joined supply");
  expect(members.heat_recovery_days, models.heat.recovery_days, "recovery_days");
  expect(members.bark_conductance_mol, 1e-3 * models.scion_states.at("dormant").bark_conductance_mmol,
         "bark conductance");
}

TEST(Members, MeetOnFourFifthsOfTheCambiumWhenBothSidesMatchAndOnHalfWhenOneDoes) {
  // Beta(8, 2) and Beta(5, 5) have the means 0.8 and 0.5.
  const MemberQuantiles quantiles = quantiles_of();
  EXPECT_NEAR(quantiles.match(false).mean(), 0.8, 1e-3);
  EXPECT_NEAR(quantiles.match(true).mean(), 0.5, 1e-3);
  EXPECT_TRUE((quantiles.match(true) < quantiles.match(false)).all());
  EXPECT_GT(quantiles.match(true).minCoeff(), 0);
  EXPECT_LT(quantiles.match(false).maxCoeff(), 1);
}

TEST(Members, TakeAKnownShareOfTheCambiumAsItIs) {
  GraftCase graft = graft_of("apple", "cleft", "film");
  graft.match_share = 0.37;
  EXPECT_TRUE((members_of_case(graft, quantiles_of(64)).cambium_match == 0.37).all());
}

TEST(Members, KeepTheCardinalTemperaturesOfEverySpeciesOrderedAndApart) {
  const MemberQuantiles quantiles = quantiles_of(256);
  for (const auto& [name, species] : published_models().species) {
    const UnionMembers m = members_of_case(graft_of(name, "cleft", "film"), quantiles);
    EXPECT_GE((m.callus_optimum_c - m.callus_lower_c).minCoeff(), 6 - 1e-12) << name;
    EXPECT_GE((m.callus_upper_c - m.callus_optimum_c).minCoeff(), 4 - 1e-12) << name;
    EXPECT_GE(m.callus_lower_c.minCoeff(), species.callus_lower_c.low) << name;
    EXPECT_LE(m.callus_lower_c.maxCoeff(), species.callus_lower_c.high) << name;
    EXPECT_GT(m.vascular_healing.minCoeff(), 1) << name;
  }
}

TEST(Members, DifferOnlyWithTheSeed) {
  const GraftCase graft = graft_of("cherry", "chip", "film-bud-out");
  const auto one = members_of_case(graft, quantiles_of(64, 3));
  const auto same = members_of_case(graft, quantiles_of(64, 3));
  const auto other = members_of_case(graft, quantiles_of(64, 4));
  for (const auto number : {&UnionMembers::bridge_days, &UnionMembers::bark_conductance_mol,
                            &UnionMembers::cambium_match, &UnionMembers::bare_conductance_area}) {
    EXPECT_TRUE((one.*number == same.*number).all());
    EXPECT_FALSE((one.*number == other.*number).all());
  }
}

double bare_area_cm2(const GraftCase& graft) {
  return 1e4 * members_of_case(graft, quantiles_of(8)).bare_area_m2[0];
}

TEST(Members, LoseWaterThroughWhatTheWrapLeavesOpen) {
  const WaterConstants& water = published_models().water;
  const double bud = water.bare_bud_area_cm2;
  const double tip = water.open_tip_area_cm2;
  const double edge = water.chip_edge_area_cm2;
  const double buds = published_models().methods.at("cleft").buds;
  EXPECT_EQ(bare_area_cm2(graft_of("apple", "cleft", "film")), 0);
  EXPECT_NEAR(bare_area_cm2(graft_of("apple", "cleft", "film-bud-out")), buds * bud, 1e-12);
  EXPECT_NEAR(bare_area_cm2(graft_of("apple", "cleft", "none", "open")), buds * bud + tip, 1e-12);
  EXPECT_NEAR(bare_area_cm2(graft_of("apple", "cleft", "film", "open")), 0,
              1e-12);  // the film covers the tip
  EXPECT_NEAR(bare_area_cm2(graft_of("apple", "chip", "none")), bud + edge, 1e-12);
}

TEST(Members, OfAnApproachGraftDrinkThroughTheirOwnRootsFromTheFirstDay) {
  const auto members = members_of_case(graft_of("mango", "approach", "film"), quantiles_of(64));
  EXPECT_TRUE((members.base_supply_per_day == members.joined_supply_per_day).all());
}

TEST(Members, OfABudDrinkAsABud) {
  const WaterConstants& water = published_models().water;
  const auto members = members_of_case(graft_of("apple", "chip", "film"), quantiles_of());
  EXPECT_NEAR(median(members.base_supply_per_day), water.base_supply_bud_per_day, 2e-3);
  EXPECT_NEAR(1e4 * members.shoot_leaf_area_m2[0], water.shoot_leaf_area_bud_cm2, 1e-12);
}

}  // namespace
}  // namespace graftcast::testing
