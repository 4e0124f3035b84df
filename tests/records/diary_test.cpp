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
  EXPECT_EQ(diary[0].event, Event::shade);
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
  EXPECT_EQ(diary.at(0).event, Event::green);
}

TEST(Diary, IsSortedByTimeThenLine) {
  const auto diary = diary_with(
      "2025-04-03,R3-15,green,,\n2025-04-01,R3-15,watered,,\n2025-04-03,R3-15,callus,,\n2025-04-02,R3-15,bag-"
      "on,,\n");
  std::vector<Event> events;
  for (const DiaryLine& line : diary) events.push_back(line.event);
  EXPECT_THAT(events, ElementsAre(Event::watered, Event::bag_on, Event::green, Event::callus));
}

TEST(Diary, KnowsEveryEventWithoutAValueOrWithItsOwn) {
  for (const EventRow& row : event_table) {
    if (row.group == EventGroup::administration) continue;
    const char* value = row.value == EventValue::share ? "0.5" : row.value == EventValue::spot ? "store" : "";
    EXPECT_EQ(diary_with("2025-04-03,R3-15," + std::string(row.word) + "," + value + ",\n").size(), 1U)
        << row.word;
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
  EXPECT_EQ(diary[0].event, Event::watered);
}

TEST(DiaryVoid, TakesBackOneEventOnlyWhereItIsNamed) {
  const auto diary = diary_with(
      "2025-05-01,R3-15,green,,\n2025-05-01,R3-15,watered,,\n2025-05-03,R3-15,void,2025-05-01 green,\n");
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].event, Event::watered);
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

TEST(DiaryVoid, OfAStampTakesBackAllItsLinesAsOldDiariesHaveIt) {
  EXPECT_TRUE(
      diary_with("2025-05-01,R3-15,green,,\n2025-05-01,R3-15,watered,,\n2025-05-03,R3-15,void,2025-05-01,\n")
          .empty());
}

TEST(DiaryVoid, OfAnIdTakesBackThatLineWhereverItStands) {
  const auto diary = diary_of(
      "when,graft,event,value,comment,id\n2025-05-03,R3-15,void,b2,,v1\n2025-05-01,R3-15,green,,,a1\n"
      "2025-05-01,R3-15,watered,,,b2\n",
      ledger_of(ledger_text));
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].id, "a1");
}

TEST(DiaryVoid, TakesBackAnOldLineByTheIdThatItsCellsGive) {
  const std::string line = "2025-05-01,R3-15,green,,\n";
  const std::string id = diary_with(line).at(0).id;
  EXPECT_TRUE(diary_with(line + "2025-05-03,R3-15,void," + id + ",\n").empty());
  EXPECT_THAT(error_with(line + "2025-05-03,R3-15,void," + id + "x,\n"), HasSubstr("did you mean " + id));
}

TEST(DiaryIds, OfOldLinesAreTheSameInEveryCopy) {
  const std::string lines = "2025-05-01,R3-15,green,,\n2025-05-01,R3-15,green,,\n2025-05-01,R3-15,green,1,\n";
  const auto first = diary_with(lines), second = diary_with("2025-04-01,R3-14,callus,,\n" + lines);
  ASSERT_EQ(first.size(), 3U);
  EXPECT_NE(first[0].id, first[1].id);
  EXPECT_NE(first[0].id, first[2].id);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_EQ(first[k].id, second[k + 1].id);
    EXPECT_THAT(first[k].id, ::testing::MatchesRegex("[a-z2-7]{12}"));
  }
  // What a copy made years ago must agree with: never to be changed.
  EXPECT_EQ(first[0].id, "w5sbzn5tz2ui");
  EXPECT_EQ(first[1].id, "5i3wizmgbad4");
}

TEST(DiaryIds, StandOnce) {
  const std::string header = "when,graft,event,value,comment,id\n";
  const Ledger ledger = ledger_of(ledger_text);
  EXPECT_EQ(diary_of(header + "2025-05-01,R3-15,green,,,k1\n", ledger).at(0).id, "k1");
  EXPECT_THAT(error_of([&] {
                diary_of(header + "2025-05-01,R3-15,green,,,k1\n2025-05-02,R3-15,green,,,k1\n", ledger);
              }),
              HasSubstr("diary.csv:3:26: the id \"k1\" stands in line 2 too; take out one of the lines"));
  EXPECT_THAT(error_of([&] { diary_of(header + "2025-05-01,R3-15,green,,,two words\n", ledger); }),
              HasSubstr("id \"two words\" cannot be used"));
}

TEST(DiaryEvents, AreNamedByTheWordsOfTheTable) {
  EXPECT_EQ(diary_with("2025-05-01,R3-15,Vented,,\n").at(0).event, Event::bag_vented);
  EXPECT_EQ(diary_with("2025-05-01,R3-15,looks green,,\n").at(0).event, Event::green);
  EXPECT_THAT(error_with("2025-05-01,R3-15,greenish,,\n"), HasSubstr("event \"greenish\" is not known"));
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
  EXPECT_EQ(read_diary(folder.path(), parsed_site(), sample_clock(), sample_names(), ledger).size(), 2U);
  std::filesystem::remove(folder.path() / "diary.csv");
  EXPECT_TRUE(read_diary(folder.path(), parsed_site(), sample_clock(), sample_names(), ledger).empty());
}

TEST(LinesFor, GivesTheLinesOfOneGraft) {
  const auto diary =
      diary_with("2025-05-01,R3-14..15,green,,\n2025-05-02,R3-14,watered,,\n2025-05-03,*,staked,,\n");
  EXPECT_EQ(lines_for(diary, "R3-14").size(), 3U);
  EXPECT_EQ(lines_for(diary, "R3-15").size(), 2U);
  EXPECT_EQ(lines_for(diary, "R3").size(), 0U);
}

struct Counts {
  int taken, dead, open, removed;
};

Counts outcome_with(const std::string& lines, const char* until = "2026-01-01T00:00Z") {
  const Ledger ledger = ledger_of(ledger_text);
  const auto diary = diary_with(lines);
  const Outcome outcome = outcome_of(ledger.rows[0], lines_for(diary, "R3-14"), instant(until));
  EXPECT_EQ(outcome.taken + outcome.dead + outcome.open + outcome.removed, ledger.rows[0].count);
  return {outcome.taken, outcome.dead, outcome.open, outcome.removed};
}

TEST(OutcomeOf, AddsUpTheNumbersNoted) {
  const auto [taken, dead, open, removed] =
      outcome_with("2025-05-01,R3-14,taken,100,\n2025-05-02,R3-14,taken,80,\n2025-05-03,R3-14,dead,17,\n");
  EXPECT_EQ(taken, 180);
  EXPECT_EQ(dead, 17);
  EXPECT_EQ(open, 3);
  EXPECT_EQ(removed, 0);
}

TEST(OutcomeOf, TakesALineWithoutANumberAsAllThatAreLeft) {
  const auto [taken, dead, open, removed] =
      outcome_with("2025-05-01,R3-14,dead,17,\n2025-05-02,R3-14,taken,,\n");
  EXPECT_EQ(taken, 183);
  EXPECT_EQ(dead, 17);
  EXPECT_EQ(open, 0);
}

TEST(OutcomeOf, LetsWhatHadTakenDieLater) {
  const auto [taken, dead, open, removed] =
      outcome_with("2025-05-02,R3-14,taken,,\n2025-07-01,R3-14,dead,30,\n");
  EXPECT_EQ(taken, 170);
  EXPECT_EQ(dead, 30);
  EXPECT_EQ(open, 0);
  EXPECT_EQ(outcome_with("2025-05-02,R3-14,taken,,\n2025-07-01,R3-14,dead,,\n").dead, 200);
}

TEST(OutcomeOf, CountsWhatWasTakenAwayAsNeither) {
  const Counts some = outcome_with("2025-05-02,R3-14,taken,150,\n2025-05-03,R3-14,removed,20,\n");
  EXPECT_EQ(some.taken, 150);
  EXPECT_EQ(some.dead, 0);
  EXPECT_EQ(some.removed, 20);
  EXPECT_EQ(some.open, 30);
  const Counts rest = outcome_with("2025-05-02,R3-14,taken,150,\n2025-05-03,R3-14,removed,,\n");
  EXPECT_EQ(rest.taken, 150);
  EXPECT_EQ(rest.removed, 50);
  const Counts later = outcome_with("2025-05-02,R3-14,removed,20,\n2025-05-03,R3-14,dead,,\n");
  EXPECT_EQ(later.dead, 180);
  EXPECT_EQ(later.removed, 20);
  EXPECT_THAT(error_with("2025-05-02,R3-14,taken,150,\n2025-05-03,R3-14,removed,51,\n"),
              HasSubstr("removed 51 of R3-14, where 150 of 200 are noted"));
}

TEST(OutcomeOf, KnowsOnlyWhatWasNotedUntilThen) {
  const auto [taken, dead, open, removed] = outcome_with("2025-05-02,R3-14,taken,,\n", "2025-05-02T10:59Z");
  EXPECT_EQ(taken, 0);
  EXPECT_EQ(dead, 0);
  EXPECT_EQ(open, 200);
}

}  // namespace
}  // namespace graftcast
