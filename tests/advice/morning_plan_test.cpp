#include "advice/morning_plan.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const Models& models() {
  static const Models loaded = load_models(GRAFTCAST_SOURCE_DIR "/models");
  return loaded;
}

ActOutcome outcome(const GraftMorning& graft, ActKind kind, double p_after, std::map<std::string, int> needs,
                   double minutes) {
  return {{.kind = kind}, p_after, graft.count * (graft.risk.p - p_after), std::move(needs), minutes, {}};
}

GraftMorning at_risk(std::string id, int count, double p) {
  GraftMorning graft;
  graft.id = std::move(id);
  graft.count = count;
  graft.risk.p = p;
  graft.urgency = Urgency::soon;
  return graft;
}

/// Two rows: bags with paper save most, bags alone less; two bags and one paper for three grafts.
MorningReport two_rows() {
  MorningReport report;
  GraftMorning a = at_risk("A", 2, 0.9), b = at_risk("B", 1, 0.6);
  a.acts = {outcome(a, ActKind::paper_over_bag, 0.1, {{"bag", 1}, {"paper", 1}}, 3),
            outcome(a, ActKind::clear_bag, 0.5, {{"bag", 1}}, 2)};
  b.acts = {outcome(b, ActKind::clear_bag, 0.1, {{"bag", 1}}, 2), outcome(b, ActKind::water, 0.4, {}, 1)};
  report.grafts = {a, b};
  return report;
}

Site with_supplies(std::map<std::string, int> supplies) {
  Site site;
  site.supplies = std::move(supplies);
  return site;
}

TEST(MorningPlan, GivesScarceCoversToThoseTheySaveMost) {
  const MorningPlan plan = morning_plan(two_rows(), with_supplies({{"bag", 2}, {"paper", 1}}), models(), {});
  // By hand: one A with bag and paper (0.8), the other with a bag (0.4), B watered (0.2): 1.4. With the bag
  // for B: 1.3.
  EXPECT_NEAR(plan.saved, 1.4, 1e-12);
  ASSERT_EQ(plan.assigned.size(), 3U);
  EXPECT_EQ(plan.assigned[0].id, "A");
  EXPECT_EQ(plan.assigned[0].act.kind, ActKind::paper_over_bag);
  EXPECT_EQ(plan.assigned[0].count, 1);
  EXPECT_EQ(plan.assigned[1].act.kind, ActKind::clear_bag);
  EXPECT_EQ(plan.assigned[2].act.kind, ActKind::water);
  EXPECT_THAT(plan.unserved, IsEmpty());
  EXPECT_EQ(plan.left, (std::map<std::string, int>{{"bag", 0}, {"paper", 0}}));
  EXPECT_DOUBLE_EQ(plan.minutes, 6);
  // One more bag goes to B (0.5 for 0.2), one more paper over the other bag (0.8 for 0.4).
  EXPECT_NEAR(plan.marginal.at("bag"), 0.3, 1e-5);
  EXPECT_NEAR(plan.marginal.at("paper"), 0.4, 1e-5);
}

TEST(MorningPlan, SaysWhoGetsNothing) {
  MorningReport report = two_rows();
  report.grafts[1].acts.pop_back();
  const MorningPlan plan = morning_plan(report, with_supplies({{"bag", 1}, {"paper", 1}}), models(), {});
  EXPECT_THAT(plan.unserved, ElementsAre("A", "B"));
}

TEST(MorningPlan, KeepsWithinTheMinutes) {
  const MorningPlan plan = morning_plan(two_rows(), with_supplies({{"bag", 9}, {"paper", 9}}), models(), 4.0);
  EXPECT_LE(plan.minutes, 4);
  // By hand: 3 minutes for one A (0.8) and 1 for watering B (0.2) beat two bags (0.4 + 0.5).
  EXPECT_NEAR(plan.saved, 1.0, 1e-12);
}

TEST(MorningPlan, TakesLessWorkWhereItSavesTheSame) {
  MorningReport report;
  GraftMorning a = at_risk("A", 3, 0.5);
  a.acts = {outcome(a, ActKind::move, 0.1, {}, 9), outcome(a, ActKind::shade, 0.1, {}, 1)};
  report.grafts = {a};
  const MorningPlan plan = morning_plan(report, {}, models(), {});
  ASSERT_EQ(plan.assigned.size(), 1U);
  EXPECT_EQ(plan.assigned[0].act.kind, ActKind::shade);
}

TEST(MorningPlan, NamesSuppliesThatNobodyCounted) {
  MorningReport report;
  GraftMorning a = at_risk("A", 1, 0.5);
  a.acts = {outcome(a, ActKind::frost_cover, 0.1, {{"frost-cover", 1}}, 1)};
  report.grafts = {a};
  const MorningPlan plan = morning_plan(report, with_supplies({{"bag", 1}}), models(), {});
  EXPECT_THAT(plan.not_counted, ElementsAre("frost-cover"));
  EXPECT_EQ(plan.assigned.size(), 1U);
}

TEST(MorningPlan, LeavesAloneWhatIsExcludedCalmOrHardlyHelped) {
  MorningReport report;
  GraftMorning calm = at_risk("calm", 1, 0.02), excluded = at_risk("excluded", 1, 0.8),
               vain = at_risk("vain", 1, 0.8);
  calm.urgency = Urgency::leave;
  calm.acts = {outcome(calm, ActKind::clear_bag, 0.0, {}, 1)};
  excluded.acts = {outcome(excluded, ActKind::clear_bag, 0.1, {}, 1)};
  excluded.acts[0].excluded = Exclusion::cooks;
  vain.acts = {outcome(vain, ActKind::water, 0.7999, {}, 1)};
  report.grafts = {excluded, vain, calm};
  EXPECT_THAT(morning_plan(report, {}, models(), {}).assigned, IsEmpty());
}

TEST(MorningPlan, SaysWhyNotTheBest) {
  const MorningPlan plan = morning_plan(two_rows(), with_supplies({{"bag", 3}, {"paper", 1}}), models(), {});
  ASSERT_EQ(plan.assigned.size(), 3U);
  EXPECT_EQ(plan.assigned[1].act.kind, ActKind::clear_bag);
  ASSERT_TRUE(plan.assigned[1].dearer.has_value());
  EXPECT_EQ(plan.assigned[1].dearer->act.kind, ActKind::paper_over_bag);
  EXPECT_THAT(plan.assigned[1].dearer->supplies, ElementsAre("paper"));
}

}  // namespace
}  // namespace graftcast
