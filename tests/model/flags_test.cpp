// Flags of a day at their thresholds, for every stage.

#include "plant/flags.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr std::array stages{Stage::fresh, Stage::callusing, Stage::bridged, Stage::drinking, Stage::firm};

/// A day without any flag.
UnionDay quiet(Stage stage) {
  UnionDay day;
  day.stage = stage;
  day.tissue_max_c = 20;
  day.tissue_min_c = 10;
  return day;
}

template <typename Hazard>
double threshold(const Hazard& hazard, Stage stage) {
  return hazard.by_stage()[static_cast<std::size_t>(stage)];
}

class FlagsOfStage : public ::testing::TestWithParam<Stage> {
 protected:
  DayFlags flags() const { return day_flags(day, published_models()); }
  UnionDay day = quiet(GetParam());
};

TEST_P(FlagsOfStage, QuietDayHasNone) {
  EXPECT_THAT(flags(), IsEmpty());
}

TEST_P(FlagsOfStage, HeatFromItsTissueTemperatureOn) {
  const double limit_c = threshold(published_models().heat_day, GetParam());
  day.tissue_max_c = limit_c - 0.01;
  EXPECT_THAT(flags(), IsEmpty());
  day.tissue_max_c = limit_c;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::heat));
}

TEST_P(FlagsOfStage, HeatLaterInWarmSpecies) {
  day.warm_species = true;
  const double limit_c =
      threshold(published_models().heat_day, GetParam()) + published_models().heat_day.warm_species_k;
  day.tissue_max_c = limit_c - 0.01;
  EXPECT_THAT(flags(), IsEmpty());
  day.tissue_max_c = limit_c;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::heat));
}

TEST_P(FlagsOfStage, DryingFromItsLossOn) {
  const double limit = threshold(published_models().drying_day, GetParam());
  day.net_loss = limit - 1e-4;
  EXPECT_THAT(flags(), IsEmpty());
  day.net_loss = limit;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::drying));
}

TEST_P(FlagsOfStage, ColdFromItsTissueTemperatureDown) {
  const double limit_c = threshold(published_models().cold_day, GetParam());
  day.tissue_min_c = limit_c + 0.01;
  EXPECT_THAT(flags(), IsEmpty());
  day.tissue_min_c = limit_c;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::cold));
}

TEST_P(FlagsOfStage, MouldFromItsHoursOn) {
  const double hours = published_models().mould_day.hours;
  day.mouldy_hours = hours - 1;
  EXPECT_THAT(flags(), IsEmpty());
  day.mouldy_hours = hours;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::mould));
}

TEST_P(FlagsOfStage, SoakedOnlyWhereRainRunsIntoTheUnion) {
  const double rain_mm = published_models().soaked_day.rain_mm;
  day.rain_mm = rain_mm;
  EXPECT_THAT(flags(), IsEmpty());
  day.union_unsealed = true;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::soaked));
  day.rain_mm = rain_mm - 0.1;
  EXPECT_THAT(flags(), IsEmpty());
}

TEST_P(FlagsOfStage, WindSoonerWithAShootForItToTakeHoldOfAndLaterWithAStake) {
  const double gust_m_s = threshold(published_models().wind_day, GetParam());
  const WindDay& wind = published_models().wind_day;
  day.gust_m_s = gust_m_s;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::wind));
  day.gust_m_s = gust_m_s - 0.01;
  EXPECT_THAT(flags(), IsEmpty());
  day.shoot_share = 1;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::wind));
  day.gust_m_s = gust_m_s * (1 - wind.shoot_share) - 0.01;
  EXPECT_THAT(flags(), IsEmpty());
  day.shoot_share = 0;
  day.staked = true;
  day.gust_m_s = gust_m_s * wind.stake_factor - 0.01;
  EXPECT_THAT(flags(), IsEmpty());
  day.gust_m_s += 0.02;
  EXPECT_THAT(flags(), ElementsAre(DayFlag::wind));
}

INSTANTIATE_TEST_SUITE_P(AllStages, FlagsOfStage, ::testing::ValuesIn(stages),
                         [](const auto& one) { return std::string(stage_name(one.param)); });

TEST(Flags, ComeTogetherInTheirOrder) {
  UnionDay day = quiet(Stage::fresh);
  day.tissue_max_c = 50;
  day.tissue_min_c = -20;
  day.net_loss = 0.5;
  day.mouldy_hours = 24;
  day.rain_mm = 50;
  day.union_unsealed = true;
  day.gust_m_s = 40;
  day.shoot_share = 1;
  EXPECT_THAT(day_flags(day, published_models()),
              ElementsAre(DayFlag::heat, DayFlag::drying, DayFlag::cold, DayFlag::mould, DayFlag::soaked,
                          DayFlag::wind));
}

TEST(Flags, AreTightestForAFreshUnionAndLoosenStageByStage) {
  for (std::size_t i = 1; i < stages.size(); ++i) {
    EXPECT_GT(threshold(published_models().heat_day, stages[i]),
              threshold(published_models().heat_day, stages[i - 1]));
    EXPECT_GT(threshold(published_models().drying_day, stages[i]),
              threshold(published_models().drying_day, stages[i - 1]));
    EXPECT_LT(threshold(published_models().cold_day, stages[i]),
              threshold(published_models().cold_day, stages[i - 1]));
    EXPECT_GE(threshold(published_models().wind_day, stages[i]),
              threshold(published_models().wind_day, stages[i - 1]));
  }
}

TEST(Stage, BeginsAtItsHealing) {
  const StageLimits limits{0.25, 1, 1.6, 3};
  EXPECT_EQ(stage_of(limits, 0), Stage::fresh);
  EXPECT_EQ(stage_of(limits, 0.2499), Stage::fresh);
  EXPECT_EQ(stage_of(limits, 0.25), Stage::callusing);
  EXPECT_EQ(stage_of(limits, 0.9999), Stage::callusing);
  EXPECT_EQ(stage_of(limits, 1), Stage::bridged);
  EXPECT_EQ(stage_of(limits, 1.6), Stage::drinking);
  EXPECT_EQ(stage_of(limits, 2.9999), Stage::drinking);
  EXPECT_EQ(stage_of(limits, 3), Stage::firm);
}

TEST(Stage, LimitsRiseForEverySpecies) {
  for (const auto& [name, species] : published_models().species) {
    const StageLimits limits = stage_limits(published_models(), species);
    EXPECT_LT(0, limits.callusing_from) << name;
    EXPECT_LT(limits.callusing_from, limits.bridged_from) << name;
    EXPECT_LT(limits.bridged_from, limits.drinking_from) << name;
    EXPECT_LT(limits.drinking_from, limits.firm_from) << name;
    EXPECT_DOUBLE_EQ(limits.drinking_from, species.vascular_days / species.bridge_days) << name;
  }
}

}  // namespace
}  // namespace graftcast::testing
