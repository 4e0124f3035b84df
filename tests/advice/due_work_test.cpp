// What is due: acts by time with a word in the cool hours before, dates since grafting until the diary says
// done.

#include "advice/work_calendar.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

using ::testing::_;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::VariantWith;

LocalDay day(std::chrono::year_month_day date) {
  return LocalDay{std::chrono::local_days{date}};
}

/// A time of the wall clock at the place.
Instant at(const Clock& clock, std::chrono::year_month_day date, int hour, int minute = 0) {
  return clock
      .resolve(std::chrono::local_seconds{std::chrono::local_days{date}} + std::chrono::hours(hour) +
               std::chrono::minutes(minute))
      .instant;
}

constexpr auto today = std::chrono::June / 9 / 2025;

GraftRecord record(const std::string& cover = "clear-bag") {
  return {made_row("N1", day(std::chrono::May / 20 / 2025), "citrus", "chip", cover), {}};
}

GraftMorning advised(std::optional<Instant> act_by) {
  GraftMorning graft;
  graft.id = "N1";
  graft.count = 6;
  graft.risk.p = 0.4;
  graft.advice = {{.kind = ActKind::paper_over_bag}, true, {}};
  graft.acts = {{graft.advice.act, 0.1, 1.8, {{"paper", 1}}, 5, {}}};
  graft.reasons = {PotIsDry{0.2}, WateringAssumed{}};
  graft.act_by = act_by;
  return graft;
}

GraftSince dated() {
  GraftSince graft;
  graft.id = "N1";
  graft.bagged = true;
  graft.vent_bag_from = {day(std::chrono::June / 20 / 2025), day(std::chrono::June / 16 / 2025), {}};
  graft.slit_wrap_from = {day(std::chrono::July / 5 / 2025), {}, {}};
  graft.buds_expected = {day(std::chrono::June / 14 / 2025), day(std::chrono::June / 11 / 2025),
                         day(std::chrono::June / 21 / 2025)};
  return graft;
}

struct Due {
  Clock clock{"Europe/Madrid"};
  Instant as_of = at(clock, today, 6, 30);
  std::vector<GraftRecord> records{record()};
  MorningReport morning;
  SinceReport since;

  std::vector<DueWork> works() const { return due_work(morning, since, records, clock, as_of); }
  std::vector<std::string> kinds() const {
    std::vector<std::string> names;
    for (const DueWork& work : works()) names.emplace_back(due_kind_name(work.kind));
    return names;
  }
};

Due with_act(std::chrono::year_month_day date, int hour) {
  Due due;
  due.morning.grafts = {advised(at(due.clock, date, hour))};
  return due;
}

TEST(DueAct, EndsAtItsLatestUsefulHourAndTakesItsMinutes) {
  const Due due = with_act(today, 19);
  const DueWork act = due.works().at(0);
  EXPECT_EQ(act.to, at(due.clock, today, 19));
  EXPECT_EQ(act.from, at(due.clock, today, 18, 30));  // Six grafts of five minutes.
  EXPECT_EQ(act.alarm, at(due.clock, today, 7));
  EXPECT_EQ(act.p, 0.4);
  EXPECT_EQ(act.p_after, 0.1);
  ASSERT_TRUE(act.reason.has_value());
  EXPECT_THAT(*act.reason, VariantWith<PotIsDry>(_));  // The first.
}

TEST(DueAct, IsToldOfTheEveningBeforeAnEarlyMorning) {
  const Due due = with_act(std::chrono::June / 11 / 2025, 7);
  EXPECT_EQ(due.works().at(0).alarm, at(due.clock, std::chrono::June / 10 / 2025, 19));
}

// Clocks in Spain went forward on 30 March and back on 26 October 2025 at 01:00 UTC (EU directive
// 2000/84/EC).
TEST(DueAct, KeepsToTheWallClockWhenClocksChange) {
  Due due;
  due.as_of = at(due.clock, std::chrono::March / 28 / 2025, 6);
  due.morning.grafts = {advised(at(due.clock, std::chrono::March / 30 / 2025, 7))};
  EXPECT_EQ(utc_text(*due.works().at(0).to), "2025-03-30T05:00:00Z");
  EXPECT_EQ(utc_text(*due.works().at(0).alarm), "2025-03-29T18:00:00Z");
  due.as_of = at(due.clock, std::chrono::October / 24 / 2025, 6);
  due.morning.grafts = {advised(at(due.clock, std::chrono::October / 26 / 2025, 7))};
  EXPECT_EQ(utc_text(*due.works().at(0).to), "2025-10-26T06:00:00Z");
  EXPECT_EQ(utc_text(*due.works().at(0).alarm), "2025-10-25T17:00:00Z");
}

TEST(DueAct, KeepsToAClockThatIsHalfAnHourOff) {
  Due due;
  due.clock = Clock("Australia/Adelaide");
  due.as_of = at(due.clock, today, 6);
  due.morning.grafts = {advised(at(due.clock, today, 19))};
  EXPECT_EQ(utc_text(*due.works().at(0).to), "2025-06-09T09:30:00Z");
  EXPECT_EQ(utc_text(*due.works().at(0).alarm), "2025-06-08T21:30:00Z");
}

TEST(DueAct, WhoseTimeHasComeIsOfNowAndNeverOfThePast) {
  for (const int hour : {5, 6, 7}) {
    const Due due = with_act(today, hour);
    const DueWork act = due.works().at(0);
    EXPECT_GE(*act.from, due.as_of);
    EXPECT_GE(*act.alarm, due.as_of);
    EXPECT_LE(*act.alarm, *act.from);
    EXPECT_GE(*act.to - *act.from, std::chrono::minutes(15));
  }
}

TEST(DueAct, ThatIsALookOrHasNoTimeIsNoAct) {
  Due due = with_act(today, 19);
  due.morning.grafts[0].advice.act.kind = ActKind::look;
  GraftSince undated = dated();
  undated.bagged = false;
  undated.slit_wrap_from = undated.buds_expected = {};
  due.since.grafts = {undated};
  EXPECT_THAT(due.kinds(), ElementsAre("check"));
  EXPECT_EQ(due.works()[0].day, day(today));
  due.since.grafts.clear();
  due.morning.grafts = {advised({})};
  EXPECT_THAT(due.kinds(), IsEmpty());
}

TEST(DueAct, ThatIsTemporaryIsUndoneAfterwards) {
  Due due = with_act(today, 19);
  due.morning.grafts[0].advice.undo_from = at(due.clock, std::chrono::June / 15 / 2025, 7);
  ASSERT_THAT(due.kinds(), ElementsAre("act", "undo"));
  EXPECT_EQ(due.works()[1].from, at(due.clock, std::chrono::June / 15 / 2025, 7));
  EXPECT_EQ(due.works()[1].alarm, due.works()[1].from);
  due.morning.grafts[0].advice.undo_from = due.as_of;  // Never before it is done.
  EXPECT_GE(*due.works()[1].from, *due.works()[0].to);
}

TEST(DueDates, AreLeftOutOnceTheDiarySaysSo) {
  Due due;
  due.since.grafts = {dated()};
  EXPECT_THAT(due.kinds(), ElementsAre("vent-bag", "slit-wrap", "buds-expected", "check"));
  due.records[0].lines = {made_line(due.as_of, "wrap-slit")};
  EXPECT_THAT(due.kinds(), ElementsAre("vent-bag", "buds-expected", "check"));
  due.records[0].lines.push_back(made_line(due.as_of, "buds-moving"));
  EXPECT_THAT(due.kinds(), ElementsAre("vent-bag"));
  due.since.grafts[0].bagged = false;
  EXPECT_THAT(due.kinds(), IsEmpty());
}

TEST(DueDates, OfARowWithoutAWrapHaveNoneToSlit) {
  Due due;
  due.since.grafts = {dated()};
  due.records[0].row.wrap = "none";
  EXPECT_THAT(due.kinds(), ElementsAre("vent-bag", "buds-expected", "check"));
}

TEST(DueDates, ThatHaveGoneByStayDueTodayExceptWhatIsOnlyExpected) {
  Due due;
  due.since.grafts = {dated()};
  due.as_of = at(due.clock, std::chrono::June / 30 / 2025, 6);
  ASSERT_THAT(due.kinds(), ElementsAre("vent-bag", "slit-wrap", "check"));
  const DueWork vent = due.works()[0];
  EXPECT_TRUE(vent.past_due);
  EXPECT_EQ(vent.day, day(std::chrono::June / 30 / 2025));
  EXPECT_EQ(vent.band.median, day(std::chrono::June / 20 / 2025));
  EXPECT_EQ(due.works()[2].day, day(std::chrono::June / 30 / 2025));
}

TEST(DueCheck, FollowsTheLastOfNineInTenUnlessOneIsAskedForNow) {
  Due due;
  due.since.grafts = {dated()};
  EXPECT_EQ(due.works().back().day, day(std::chrono::June / 22 / 2025));
  due.since.grafts[0].ground = LookIsOverdue{WayToLook::under_wrap};
  EXPECT_EQ(due.works().back().day, day(today));
  ASSERT_TRUE(due.works().back().ground.has_value());
  EXPECT_THAT(*due.works().back().ground, VariantWith<LookIsOverdue>(_));
}

TEST(DueWork, OfARowOfWhichNothingLivesIsNone) {
  Due due;
  due.since.grafts = {dated()};
  due.since.grafts[0].ground = NotedDead{};
  EXPECT_THAT(due.kinds(), IsEmpty());
}

TEST(DueWork, HasAtMostOneOfAKindForARow) {
  Due due = with_act(today, 19);
  due.morning.grafts[0].advice.undo_from = at(due.clock, std::chrono::June / 15 / 2025, 7);
  due.since.grafts = {dated()};
  std::vector<std::string> kinds = due.kinds();
  std::ranges::sort(kinds);
  EXPECT_EQ(std::ranges::adjacent_find(kinds), kinds.end());
  EXPECT_EQ(kinds.size(), 6U);
}

}  // namespace
}  // namespace graftcast::testing
