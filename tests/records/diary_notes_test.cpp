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
using ::testing::Not;
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
  EXPECT_EQ(entry.event, Event::green);
  EXPECT_EQ(entry.value, "");
  EXPECT_EQ(entry.comment, "");
}

TEST(ParseNotes, ReadsValuesAndComments) {
  EXPECT_EQ(note("R3-14 taken 180").value, "180");
  EXPECT_EQ(note("R3-14 taken 180 # by the gate").comment, "by the gate");
  EXPECT_EQ(note("R3-14 wilted # leaves limp at noon").comment, "leaves limp at noon");
  EXPECT_EQ(note("R3-14 bag-on # 2 layers").value, "");
  EXPECT_EQ(note("R3-14 bag-on # 2 layers").comment, "2 layers");
  EXPECT_EQ(note("R3-14 bag-on paper-over-bag # late").value, "paper-over-bag");
  EXPECT_EQ(note("* shade 0.5").value, "0.5");
  EXPECT_EQ(note("R3-14 void 2025-05-01 18:00 green # mistaken").value, "2025-05-01 18:00 green");
}

TEST(ParseNotes, ReadsNamesOfStocksAndSpotsThatHoldBlanks) {
  const DiaryEntry watered = note("stock:Old pear by the wall watered 20");
  EXPECT_EQ(watered.graft, "stock:Old pear by the wall");
  EXPECT_EQ(watered.event, Event::watered);
  EXPECT_EQ(watered.value, "20");
  const DiaryEntry moved = note("R3-15 moved east tables # for the sun");
  EXPECT_EQ(moved.value, "east tables");
  EXPECT_EQ(moved.comment, "for the sun");
}

TEST(ParseNotes, TakesTheWordsThatPeopleSay) {
  EXPECT_EQ(note("R3-14 Dead 3").event, Event::dead);
  EXPECT_EQ(note("R3-14 looks green").event, Event::green);
  EXPECT_EQ(note("R3-14 vented").event, Event::bag_vented);
  EXPECT_EQ(note("R3-14 bag on paper-over-bag").value, "paper-over-bag");
  const DiaryEntry moved = note("R3-15 Moved to store # for the sun");
  EXPECT_EQ(moved.event, Event::moved);
  EXPECT_EQ(moved.value, "store");
}

TEST(ParseNotes, TakesAnEventsOwnWordBeforeWhatMayBeAName) {
  EXPECT_EQ(note("stock:Black Oxford watered 20").graft, "stock:Black Oxford");
  EXPECT_EQ(note("stock:Old pear irrigated 20").graft, "stock:Old pear");
}

TEST(ParseNotes, KeepsNoWordThatItDoesNotUnderstand) {
  EXPECT_THAT(error_of_note("R3-14 green looks fine"),
              HasSubstr("standard input:1:13: \"looks\" is not understood after green"));
  EXPECT_THAT(error_of_note("R3-14 callus grene"), HasSubstr("did you mean green; a remark begins with #"));
  EXPECT_THAT(error_of_note("R3-14 watered lots"), HasSubstr("\"lots\" is not understood after watered"));
  EXPECT_THAT(error_of_note("R3-14 taken 3 4"), HasSubstr("\"4\" is not understood after taken"));
  EXPECT_THAT(error_of_note("R3-14 paper-on 2"), HasSubstr("\"2\" is not understood after paper-on"));
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
  EXPECT_EQ(entries[1].event, Event::dead);
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
  EXPECT_EQ(ids_hidden(folder.read("diary.csv")),
            std::string(wide_sample_diary) +
                "2025-05-03T18:20,R3-14..15,green,,,ID,,\n"
                "2025-05-03T18:20,R3-14,dead,17,\"frost, north end\",ID,,\n");
}

TEST(AppendDiary, StartsTheFileWhenThereIsNone) {
  const SampleFolder folder;
  std::filesystem::remove(folder.path() / "diary.csv");
  append(folder, notes("R3-14 green"));
  EXPECT_EQ(ids_hidden(folder.read("diary.csv")),
            "when,graft,event,value,comment,id,by,photo\n2025-05-03T18:20,R3-14,green,,,ID,,\n");
}

TEST(AppendDiary, NeverMergesWithALastLineThatWasCutBeforeItsEnd) {
  const SampleFolder folder;
  folder.write("diary.csv", std::string(sample_diary) + "2025-04-01,R3-14,green,,\"cut\"");
  append(folder, notes("R3-14 callus"));
  EXPECT_THAT(ids_hidden(folder.read("diary.csv")),
              EndsWith("\n2025-04-01,R3-14,green,,\"cut\",,,\n2025-05-03T18:20,R3-14,callus,,,ID,,\n"));
}

TEST(AppendDiary, KeepsTheFilesOwnLineEndsAndColumns) {
  const SampleFolder folder;
  folder.write("diary.csv", "event,graft,when,weather\r\ngreen,R3-15,2025-04-01,fine\r\n");
  append(folder, notes("R3-14 dead 3"));
  EXPECT_EQ(ids_hidden(folder.read("diary.csv")),
            "event,graft,when,weather,value,comment,id,by,photo\r\n"
            "green,R3-15,2025-04-01,fine,,,,,\r\ndead,R3-14,2025-05-03T18:20,,3,,ID,,\r\n");
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

TEST(AppendDiary, WritesTheEventsOwnWord) {
  const SampleFolder folder;
  append(folder, notes("R3-14 Looks Green"));
  EXPECT_THAT(folder.read("diary.csv"), HasSubstr("2025-05-03T18:20,R3-14,green,"));
}

TEST(AppendDiary, KeepsWhoNotedItAndTheNameOfThePicture) {
  const SampleFolder folder;
  DiaryEntry entry = note("R3-14 green");
  entry.by = "Marta, by the gate";
  entry.photo = "a.jpg";
  const auto added = append(folder, {entry});
  EXPECT_EQ(added.at(0).by, "Marta, by the gate");
  EXPECT_EQ(added.at(0).photo, "a.jpg");
  entry.photo = "../a.jpg";
  EXPECT_THAT(error_of([&] { append(folder, {entry}); }),
              HasSubstr("photo \"../a.jpg\" is not a file's name"));
  entry.photo = "";
  entry.by = "two\nlines";
  EXPECT_THAT(error_of([&] { append(folder, {entry}); }), HasSubstr("by holds a line break"));
}

TEST(AppendDiary, GivesEveryLineAnIdOfItsOwn) {
  const SampleFolder folder;
  const auto added = append(folder, notes("R3-14 green\nR3-14 green"));
  ASSERT_EQ(added.size(), 2U);
  EXPECT_EQ(added[0].id.size(), 12U);
  EXPECT_NE(added[0].id, added[1].id);
  DiaryEntry again = note("R3-15 green");
  again.id = added[0].id;
  EXPECT_THAT(error_of([&] { append(folder, {again}); }),
              HasSubstr("the id \"" + added[0].id + "\" stands in line 4 too"));
}

TEST(AppendDiary, KeepsTheIdsOfTheLinesThatAreThere) {
  const SampleFolder folder;
  const auto ids = [&] {
    std::vector<std::string> all;
    for (const DiaryLine& line : diary_of(folder.read("diary.csv"), ledger_of(sample_grafts)))
      all.push_back(line.id);
    return all;
  };
  const auto before = ids();
  append(folder, notes("R3-14 callus"));
  const auto after = ids();
  ASSERT_EQ(after.size(), 3U);
  EXPECT_EQ(std::vector(after.begin(), after.begin() + 2), before);
}

TEST(AppendDiary, PutsOnOnlyACoverOrWrapThatTheModelsHave) {
  const SampleFolder folder;
  const auto before = folder.snapshot();
  EXPECT_EQ(
      error_of([&] { append(folder, notes("R3-14 bag-on sock")); }),
      "bad-data standard input:1:1: bag-on \"sock\" is not known; give one of: clear-bag, paper-over-bag");
  EXPECT_EQ(folder.snapshot(), before);
  EXPECT_EQ(append(folder, notes("R3-14 bag-on paper-over-bag")).at(0).value, "paper-over-bag");
  EXPECT_EQ(append(folder, notes("R3-14 wrap-on wax")).at(0).value, "wax");
}

TEST(AppendDiary, WritesAVoidWithTheIdOfItsLine) {
  const SampleFolder folder;
  const std::string id = diary_of(folder.read("diary.csv"), ledger_of(sample_grafts)).at(0).id;
  append(folder, notes("R3-14 void 2025-03-02T18:00"));
  EXPECT_THAT(folder.read("diary.csv"), HasSubstr("R3-14,void," + id + ","));
  EXPECT_THAT(error_of([&] { append(folder, notes("R3-14 void 2025-03-02T18:00")); }),
              HasSubstr("the line of \"2025-03-02T18:00\" is taken back already"));
}

TEST(AppendDiary, AsksWhichOfTheLinesOfAStampIsMeant) {
  const SampleFolder folder;
  const auto added = append(folder, notes("R3-14..15 green\nR3-14 callus 3\nR3-15 watered"));
  const auto before = folder.snapshot();
  const std::string error = error_of([&] { append(folder, notes("R3-14 void 2025-05-03T18:20")); });
  EXPECT_THAT(error, HasSubstr("standard input:1:1: 2 lines are of \"2025-05-03T18:20\""));
  EXPECT_THAT(error, HasSubstr(added[0].id + " (2025-05-03T18:20 R3-14..15 green)"));
  EXPECT_THAT(error, HasSubstr(added[1].id + " (2025-05-03T18:20 R3-14 callus 3)"));
  EXPECT_THAT(error, Not(HasSubstr("watered")));
  EXPECT_EQ(folder.snapshot(), before);
  append(folder, notes("R3-14 void 2025-05-03T18:20 callus\nR3-14 void " + added[0].id));
  const auto left = lines_for(diary_of(folder.read("diary.csv"), ledger_of(sample_grafts)), "R3-14");
  EXPECT_EQ(left.back().stamp, "2025-03-20");
}

TEST(AppendDiary, TakesBackAnEarlierLine) {
  const SampleFolder folder;
  append(folder, notes("R3-14 void 2025-03-02T18:00"));
  const auto diary = diary_of(folder.read("diary.csv"), ledger_of(sample_grafts));
  ASSERT_EQ(diary.size(), 1U);
  EXPECT_EQ(diary[0].event, Event::green);
}

}  // namespace
}  // namespace graftcast
