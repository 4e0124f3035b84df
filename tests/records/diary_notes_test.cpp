// Notes as typed, and adding them to the diary.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "records/diary.hpp"
#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using namespace testing;

const char* const now = "2025-05-03T17:20Z";  // 18:20 on the site's clock

std::vector<DiaryEntry> notes(const std::string& text) {
  return parse_notes(text, "standard input", sample_clock(), instant(now));
}

DiaryEntry note(const std::string& text) {
  return notes(text).at(0);
}

std::string error_of_note(const std::string& text) {
  return error_of([&] { notes(text); });
}

TEST(ParseNotes, ReadsTheShortestForm) {
  const DiaryEntry entry = note("R3-14..20 green");
  EXPECT_EQ(entry.when, "2025-05-03T18:20");
  EXPECT_EQ(entry.graft, "R3-14..20");
  EXPECT_EQ(entry.event, "green");
  EXPECT_EQ(entry.value, "");
  EXPECT_EQ(entry.comment, "");
}

TEST(ParseNotes, ReadsValuesAndComments) {
  EXPECT_EQ(note("R3-14 taken 180").value, "180");
  EXPECT_EQ(note("R3-14 taken 180 # by the gate").comment, "by the gate");
  EXPECT_EQ(note("R3-14 wilted leaves limp at noon").comment, "leaves limp at noon");
  EXPECT_EQ(note("R3-14 bag-on 2 layers").value, "");
  EXPECT_EQ(note("R3-14 bag-on 2 layers").comment, "2 layers");
  EXPECT_EQ(note("* shade 0.5").value, "0.5");
  EXPECT_EQ(note("R3-14 void 2025-05-01 18:00 green # mistaken").value, "2025-05-01 18:00 green");
}

TEST(ParseNotes, ReadsNamesOfStocksAndSpotsThatHoldBlanks) {
  const DiaryEntry watered = note("stock:Old pear by the wall watered 20");
  EXPECT_EQ(watered.graft, "stock:Old pear by the wall");
  EXPECT_EQ(watered.event, "watered");
  EXPECT_EQ(watered.value, "20");
  const DiaryEntry moved = note("R3-15 moved east tables # for the sun");
  EXPECT_EQ(moved.value, "east tables");
  EXPECT_EQ(moved.comment, "for the sun");
}

TEST(ParseNotes, ReadsATimeBeforeTheGraft) {
  EXPECT_EQ(note("2025-05-01 R3-14 green").when, "2025-05-01");
  EXPECT_EQ(note("2025-05-01T07:15 R3-14 green").when, "2025-05-01T07:15");
  const DiaryEntry entry = note("2025-05-01 07:15 R3-14 green");
  EXPECT_EQ(entry.when, "2025-05-01 07:15");
  EXPECT_EQ(entry.graft, "R3-14");
}

TEST(ParseNotes, PassesOverBlankLinesAndRemarks) {
  const auto entries = notes("# Tuesday\n\nR3-14 green\r\n   \n  R3-15 dead  \n");
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[1].event, "dead");
  EXPECT_EQ(to_string(entries[1].place), "standard input:5:3");
  EXPECT_TRUE(notes("").empty());
}

TEST(ParseNotes, StampsInUtcWhereTheClockShowsATimeTwice) {
  const auto entries = parse_notes("R3-14 green", "x", sample_clock(), instant("2025-10-26T00:30Z"));
  EXPECT_EQ(entries.at(0).when, "2025-10-26T00:30:00Z");
}

TEST(ParseNotes, PointsAtWhatItCannotRead) {
  EXPECT_THAT(error_of_note("R3-14 green\nR3-15 grean"),
              HasSubstr("standard input:2:7: event \"grean\" is not known; did you mean green"));
  EXPECT_THAT(error_of_note("R3-14"),
              HasSubstr("standard input:1:6: the note names no event; write for example"));
  EXPECT_THAT(error_of_note("2025-05-01"), HasSubstr("names no graft"));
  EXPECT_THAT(error_of_note("2025-02-30 R3-14 green"),
              HasSubstr("standard input:1:1: \"2025-02-30\" is not a date"));
  EXPECT_THAT(error_of_note("stock:Old pear"), HasSubstr("event \"pear\" is not known"));
  EXPECT_THAT(error_of_note("R3-14 \xFF"), HasSubstr("not UTF-8"));
}

std::vector<DiaryLine> append(const TemporaryFolder& folder, const std::vector<DiaryEntry>& entries) {
  return append_diary(folder.path(), parsed_site(), sample_clock(), sample_names(), entries);
}

TEST(AppendDiary, AddsLinesAndGivesThemAsReadBack) {
  const SampleFolder folder;
  const auto added = append(folder, notes("R3-14..15 green\nR3-14 dead 17 # frost, north end"));
  ASSERT_EQ(added.size(), 2U);
  EXPECT_THAT(added[0].grafts, ElementsAre("R3-14", "R3-15"));
  EXPECT_EQ(folder.read("diary.csv"), std::string(sample_diary) +
                                          "2025-05-03T18:20,R3-14..15,green,,\n"
                                          "2025-05-03T18:20,R3-14,dead,17,\"frost, north end\"\n");
}

TEST(AppendDiary, StartsTheFileWhenThereIsNone) {
  const SampleFolder folder;
  std::filesystem::remove(folder.path() / "diary.csv");
  append(folder, notes("R3-14 green"));
  EXPECT_EQ(folder.read("diary.csv"), "when,graft,event,value,comment\n2025-05-03T18:20,R3-14,green,,\n");
}

TEST(AppendDiary, NeverMergesWithALastLineThatWasCutBeforeItsEnd) {
  const SampleFolder folder;
  folder.write("diary.csv", std::string(sample_diary) + "2025-04-01,R3-14,green,,\"cut\"");
  append(folder, notes("R3-14 callus"));
  EXPECT_THAT(folder.read("diary.csv"),
              EndsWith("\n2025-04-01,R3-14,green,,\"cut\"\n2025-05-03T18:20,R3-14,callus,,\n"));
}

TEST(AppendDiary, KeepsTheFilesOwnLineEndsAndColumns) {
  const SampleFolder folder;
  folder.write("diary.csv", "event,graft,when,weather\r\ngreen,R3-15,2025-04-01,fine\r\n");
  append(folder, notes("R3-14 dead 3"));
  EXPECT_EQ(
      folder.read("diary.csv"),
      "event,graft,when,weather,value\r\ngreen,R3-15,2025-04-01,fine,\r\ndead,R3-14,2025-05-03T18:20,,3\r\n");
}

TEST(AppendDiary, AddsAllOrNothingAndPointsAtTheNote) {
  const SampleFolder folder;
  const auto before = folder.snapshot();
  const auto error = [&](const std::string& text) { return error_of([&] { append(folder, notes(text)); }); };
  EXPECT_EQ(error("R3-14 green\n\nR3-144 green"),
            "bad-data standard input:3:1: the graft \"R3-144\" is not in the ledger; did you mean R3-14, "
            "R3-15 or R3-16");
  EXPECT_THAT(error("R3-14 taken 150\nR3-14 dead 60"),
              HasSubstr("standard input:2:1: dead 60 of R3-14, where 150 of 200"));
  EXPECT_THAT(error("R3-14 shade"), HasSubstr("standard input:1:1: shade needs a value"));
  EXPECT_THAT(error("R3-14 shade 50"),
              HasSubstr("value \"50\" is out of range; give a number from 0 to 0.95"));
  EXPECT_THAT(error("R3-14 moved barn"), HasSubstr("the site has no spot \"barn\""));
  EXPECT_THAT(error("2025-03-01 * green"),
              HasSubstr("standard input:1:1: \"*\" means no graft at that time"));
  EXPECT_THAT(error("R3-14 split R3-14.1"), HasSubstr("graftcast split"));
  EXPECT_EQ(folder.snapshot(), before);
}

TEST(AppendDiary, TakesBackAnEarlierLine) {
  const SampleFolder folder;
  append(folder, notes("R3-14 void 2025-03-02T18:00"));
  const auto diary = diary_of(folder.read("diary.csv"), ledger_of(sample_grafts));
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].event, "green");
}

}  // namespace
}  // namespace graftcast
