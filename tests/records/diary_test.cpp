#include "records/diary.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using namespace testing;

constexpr std::string_view ledger_text =
    "id,grafted_on,species,method,stock,spot,count\n"
    "R3-14,2025-03-02,apple,cleft,T1,east-tables,200\n"
    "R3-15,2025-03-02,apple,cleft,T1,east-tables,1\n"
    "R3-20,2025-03-02,apple,cleft,Old pear,store,1\n"
    "R4-16,2025-03-02,apple,cleft,,,1\n"
    "R3-16,2025-04-10,pear,chip,T1,store,1\n";

std::vector<DiaryLine> diary_with(const std::string& lines) {
  return diary_of("when,graft,event,value,comment\n" + lines, ledger_of(ledger_text));
}

std::string error_with(const std::string& lines) {
  return error_of([&] { diary_with(lines); });
}

std::vector<std::string> grafts_of(const std::string& line) {
  return diary_with(line + "\n").at(0).grafts;
}

TEST(Diary, ReadsItsLines) {
  const auto diary = diary_with("2025-04-12T18:00,R3-15,shade,0.5,\"north side, two pegs\"\n");
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].when, instant("2025-04-12T17:00Z"));
  EXPECT_EQ(diary[0].stamp, "2025-04-12T18:00");
  EXPECT_EQ(diary[0].graft, "R3-15");
  EXPECT_EQ(diary[0].event, "shade");
  EXPECT_EQ(diary[0].number(), 0.5);
  EXPECT_EQ(diary[0].comment, "north side, two pegs");
  EXPECT_EQ(diary[0].line, 2U);
}

TEST(Diary, TakesADayAloneAsItsNoon) {
  EXPECT_EQ(diary_with("2025-07-12,R3-15,green,,\n").at(0).when, instant("2025-07-12T11:00Z"));
}

TEST(Diary, NeedsOnlyThreeColumns) {
  const auto diary =
      diary_of("event,graft,when,weather\ngreen,R3-15,2025-04-01,fine\n", ledger_of(ledger_text));
  EXPECT_EQ(diary.at(0).event, "green");
}

TEST(Diary, IsSortedByTimeThenLine) {
  const auto diary = diary_with(
      "2025-04-03,R3-15,green,,\n2025-04-01,R3-15,watered,,\n2025-04-03,R3-15,callus,,\n2025-04-02,R3-15,bag-"
      "on,,\n");
  std::vector<std::string> events;
  for (const DiaryLine& line : diary) events.push_back(line.event);
  EXPECT_THAT(events, ElementsAre("watered", "bag-on", "green", "callus"));
}

TEST(Diary, KnowsEveryEventWithoutAValueOrWithItsOwn) {
  for (const DiaryEvent& event : diary_events()) {
    if (event.value == EventValue::stamp || event.value == EventValue::child) continue;
    const char* value = event.value == EventValue::share  ? "0.5"
                        : event.value == EventValue::spot ? "store"
                                                          : "";
    EXPECT_EQ(diary_with("2025-04-03,R3-15," + std::string(event.name) + "," + value + ",\n").size(), 1U)
        << event.name;
  }
}

TEST(DiarySelection, ExpandsIdsRangesStocksAndSpots) {
  EXPECT_THAT(grafts_of("2025-05-01,R3-15,green,,"), ElementsAre("R3-15"));
  EXPECT_THAT(grafts_of("2025-05-01,R3-14..20,green,,"), ElementsAre("R3-14", "R3-15", "R3-20", "R3-16"));
  EXPECT_THAT(grafts_of("2025-05-01,R3-15..R3-16,green,,"), ElementsAre("R3-15", "R3-16"));
  EXPECT_THAT(grafts_of("2025-05-01,*,green,,"), ElementsAre("R3-14", "R3-15", "R3-20", "R4-16", "R3-16"));
  EXPECT_THAT(grafts_of("2025-05-01,stock:Old pear,watered,20,"), ElementsAre("R3-20"));
  EXPECT_THAT(grafts_of("2025-05-01,spot:store,shade,0.5,"), ElementsAre("R3-20", "R3-16"));
}

TEST(DiarySelection, LeavesOutGraftsNotYetMade) {
  EXPECT_THAT(grafts_of("2025-04-09,*,green,,"), ElementsAre("R3-14", "R3-15", "R3-20", "R4-16"));
  EXPECT_THAT(grafts_of("2025-04-10,R3-14..16,green,,"), ElementsAre("R3-14", "R3-15", "R3-16"));
  EXPECT_THAT(grafts_of("2025-01-01,spot:store,shade,0.5,"), IsEmpty());
}

TEST(DiarySelection, LetsWhatConcernsTheStockComeBeforeTheGraft) {
  EXPECT_THAT(grafts_of("2025-04-01,stock:T1,slips,,"), ElementsAre("R3-14", "R3-15", "R3-16"));
  EXPECT_THAT(grafts_of("2025-04-01,R3-16,watered,5,"), ElementsAre("R3-16"));
  EXPECT_THAT(error_with("2025-04-01,R3-16,green,,\n"),
              HasSubstr("diary.csv:2:1: R3-16 was grafted on 2025-04-10"));
}

TEST(DiarySelection, FollowsMovesFromSpotToSpot) {
  const auto diary = diary_with(
      "2025-04-20,spot:store,watered,,\n2025-04-15,R3-15,moved,store,\n2025-04-10,spot:store,watered,,\n"
      "2025-04-25,R3-20,moved,east-tables,\n2025-04-26,spot:store,watered,,\n");
  EXPECT_THAT(diary.at(0).grafts, ElementsAre("R3-20", "R3-16"));
  EXPECT_THAT(diary.at(2).grafts, ElementsAre("R3-15", "R3-20", "R3-16"));
  EXPECT_THAT(diary.at(4).grafts, ElementsAre("R3-15", "R3-16"));
}

TEST(DiarySelection, RefusesWhatMeansNothing) {
  EXPECT_THAT(error_with("2025-05-01,R3-51,green,,\n"),
              HasSubstr("diary.csv:2:12: the graft \"R3-51\" is not in the ledger; did you mean R3-15"));
  EXPECT_THAT(error_with("2025-05-01,R3-14..200,green,,\n"), HasSubstr("\"R3-200\" at the end of the range"));
  EXPECT_THAT(error_with("2025-05-01,R3-20..14,green,,\n"), HasSubstr("is not a range"));
  EXPECT_THAT(error_with("2025-05-01,R3-14..R4-16,green,,\n"), HasSubstr("is not a range"));
  EXPECT_THAT(error_with("2025-05-01,stock:T9,green,,\n"),
              HasSubstr("no graft is on a stock \"T9\"; did you mean T1"));
  EXPECT_THAT(error_with("2025-05-01,spot:stoer,green,,\n"),
              HasSubstr("the site has no spot \"stoer\"; did you mean store"));
}

TEST(DiaryVoid, TakesBackTheLineOfItsStamp) {
  const auto diary = diary_with(
      "2025-05-01T08:00,R3-15,green,,\n2025-05-02,R3-15,watered,,\n2025-05-03,R3-15,void,2025-05-01T08:00,"
      "wrong row\n");
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].event, "watered");
}

TEST(DiaryVoid, TakesBackOneEventOnlyWhereItIsNamed) {
  const auto diary = diary_with(
      "2025-05-01,R3-15,green,,\n2025-05-01,R3-15,watered,,\n2025-05-03,R3-15,void,2025-05-01 green,\n");
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].event, "watered");
}

TEST(DiaryVoid, TakesSomeGraftsOutOfAWiderLine) {
  const auto diary = diary_with("2025-05-01,R3-14..16,green,,\n2025-05-03,R3-15,void,2025-05-01,\n");
  EXPECT_THAT(diary.at(0).grafts, ElementsAre("R3-14", "R3-16"));
}

TEST(DiaryVoid, UndoesAMove) {
  const auto diary = diary_with(
      "2025-04-15,R3-15,moved,store,\n2025-04-26,spot:store,watered,,\n2025-04-27,R3-15,void,2025-04-15,\n");
  EXPECT_THAT(diary.at(0).grafts, ElementsAre("R3-20", "R3-16"));
}

TEST(DiaryVoid, MakesRoomForACorrectedCount) {
  const std::string lines =
      "2025-05-01,R3-14,dead,150,\n2025-05-02,R3-14,void,2025-05-01,\n2025-05-02,R3-14,taken,180,\n";
  EXPECT_EQ(diary_with(lines).at(0).number(), 180);
}

TEST(DiaryVoid, MustFindSomethingEarlierToTakeBack) {
  EXPECT_THAT(error_with("2025-05-01,R3-15,green,,\n2025-05-03,R3-15,void,2025-05-02,\n"),
              HasSubstr("diary.csv:3:23: no earlier line is of \"2025-05-02\"; did you mean 2025-05-01"));
  EXPECT_THAT(error_with("2025-05-03,R3-15,void,2025-05-01,\n2025-05-01,R3-15,green,,\n"),
              HasSubstr("no earlier line"));
  EXPECT_THAT(error_with("2025-05-01,R3-15,green,,\n2025-05-03,R3-20,void,2025-05-01,\n"),
              HasSubstr("diary.csv:3:12: the lines of \"2025-05-01\" do not concern \"R3-20\""));
}

TEST(DiaryCounts, NeverExceedTheBatch) {
  EXPECT_EQ(diary_with("2025-05-01,R3-14,taken,180,\n2025-05-01,R3-14,dead,20,\n").size(), 2U);
  EXPECT_THAT(error_with("2025-05-01,R3-14,taken,180,\n2025-05-01,R3-14,dead,21,\n"),
              HasSubstr("diary.csv:3:23: dead 21 of R3-14, where 180 of 200 are noted as taken or dead "
                        "before; give a number "
                        "up to 20"));
  EXPECT_THAT(error_with("2025-05-01,R3-14,wilted,201,\n"),
              HasSubstr("diary.csv:2:25: 201 of R3-14, which has only 200"));
  EXPECT_EQ(diary_with("2025-05-01,R3-14,wilted,150,\n2025-05-02,R3-14,wilted,150,\n").size(), 2U);
}

TEST(DiaryCounts, BlameTheLineWrittenLast) {
  EXPECT_THAT(error_with("2025-05-09,R3-14,taken,180,\n2025-05-01,R3-14,dead,50,\n"),
              HasSubstr("diary.csv:3:23"));
}

TEST(DiaryCounts, AreOfOneBatchAtATime) {
  EXPECT_THAT(error_with("2025-05-01,R3-14..16,dead,2,\n"), HasSubstr("diary.csv:2:27: a number of grafts"));
  EXPECT_EQ(diary_with("2025-05-01,R3-14..16,dead,,\n").at(0).grafts.size(), 3U);
}

TEST(DiaryFile, IsOptional) {
  const SampleFolder folder;
  const Ledger ledger = ledger_of(sample_grafts);
  EXPECT_EQ(read_diary(folder.path(), parsed_site(), sample_clock(), ledger).size(), 2U);
  std::filesystem::remove(folder.path() / "diary.csv");
  EXPECT_TRUE(read_diary(folder.path(), parsed_site(), sample_clock(), ledger).empty());
}

TEST(LinesFor, GivesTheLinesOfOneGraft) {
  const auto diary =
      diary_with("2025-05-01,R3-14..15,green,,\n2025-05-02,R3-14,watered,,\n2025-05-03,*,staked,,\n");
  EXPECT_EQ(lines_for(diary, "R3-14").size(), 3U);
  EXPECT_EQ(lines_for(diary, "R3-15").size(), 2U);
  EXPECT_EQ(lines_for(diary, "R3").size(), 0U);
}

struct Counts {
  int taken, dead, open;
};

Counts outcome_with(const std::string& lines, const char* until = "2026-01-01T00:00Z") {
  const Ledger ledger = ledger_of(ledger_text);
  const auto diary = diary_with(lines);
  const Outcome outcome = outcome_of(ledger.rows[0], lines_for(diary, "R3-14"), instant(until));
  EXPECT_EQ(outcome.taken + outcome.dead + outcome.open, ledger.rows[0].count);
  return {outcome.taken, outcome.dead, outcome.open};
}

TEST(OutcomeOf, AddsUpTheNumbersNoted) {
  const auto [taken, dead, open] =
      outcome_with("2025-05-01,R3-14,taken,100,\n2025-05-02,R3-14,taken,80,\n2025-05-03,R3-14,dead,17,\n");
  EXPECT_EQ(taken, 180);
  EXPECT_EQ(dead, 17);
  EXPECT_EQ(open, 3);
}

TEST(OutcomeOf, TakesALineWithoutANumberAsAllThatAreLeft) {
  const auto [taken, dead, open] = outcome_with("2025-05-01,R3-14,dead,17,\n2025-05-02,R3-14,taken,,\n");
  EXPECT_EQ(taken, 183);
  EXPECT_EQ(dead, 17);
  EXPECT_EQ(open, 0);
}

TEST(OutcomeOf, LetsWhatHadTakenDieLater) {
  const auto [taken, dead, open] = outcome_with("2025-05-02,R3-14,taken,,\n2025-07-01,R3-14,dead,30,\n");
  EXPECT_EQ(taken, 170);
  EXPECT_EQ(dead, 30);
  EXPECT_EQ(open, 0);
  EXPECT_EQ(outcome_with("2025-05-02,R3-14,taken,,\n2025-07-01,R3-14,dead,,\n").dead, 200);
}

TEST(OutcomeOf, KnowsOnlyWhatWasNotedUntilThen) {
  const auto [taken, dead, open] = outcome_with("2025-05-02,R3-14,taken,,\n", "2025-05-02T10:59Z");
  EXPECT_EQ(taken, 0);
  EXPECT_EQ(dead, 0);
  EXPECT_EQ(open, 200);
}

}  // namespace
}  // namespace graftcast
