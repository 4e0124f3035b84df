#include "records/split_batch.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "records/diary.hpp"
#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using namespace testing;

const char* const split_time = "2025-04-01T09:00Z";  // 10:00 on the site's clock

SplitRows split(const TemporaryFolder& folder, const char* id, int count, const char* at = split_time) {
  return split_batch(folder.path(), parsed_site(), sample_clock(), sample_names(), id, count, instant(at));
}

std::vector<std::string> events_of(const TemporaryFolder& folder, std::string_view id) {
  const auto diary = diary_of(folder.read("diary.csv"), ledger_of(folder.read("grafts.csv")));
  std::vector<std::string> events;
  for (const DiaryLine& line : lines_for(diary, id)) events.emplace_back(event_word(line.event));
  return events;
}

void append(const TemporaryFolder& folder, const DiaryEntry& entry) {
  append_diary(folder.path(), parsed_site(), sample_clock(), sample_names(), {entry});
}

TEST(SplitBatch, MakesARowOfItsOwnAndLowersTheCount) {
  const SampleFolder folder;
  const auto [parent, child] = split(folder, "R3-14", 60);
  EXPECT_EQ(parent.count, 140);
  EXPECT_EQ(child.id, "R3-14.1");
  EXPECT_EQ(child.count, 60);
  EXPECT_EQ(child.scion, "Old russet");
  EXPECT_EQ(child.other.at("row_label"), "A");
}

TEST(SplitBatch, ChangesNoOtherByte) {
  const SampleFolder folder;
  split(folder, "R3-14", 60);
  std::string expected(sample_grafts);
  expected.replace(expected.find(",200,"), 5, ",140,");
  expected +=
      "R3-14.1,2025-03-02,Old russet,apple,whip-and-tongue,T1,east-tables,0.5,60,A,\"first, of the day\"\n";
  EXPECT_EQ(folder.read("grafts.csv"), expected);
  EXPECT_EQ(ids_hidden(folder.read("diary.csv")),
            std::string(wide_sample_diary) + "2025-04-01T10:00,R3-14,split,R3-14.1,,ID,,\n");
}

TEST(SplitBatch, KeepsQuotesLineBreaksAndReturnsOfTheRow) {
  const SampleFolder folder;
  folder.write("grafts.csv",
               "id,comment,grafted_on,species,method,count\r\n\"R3-14\",\"two\r\nlines, "
               "\"\"so\"\"\",2025-03-02,apple,cleft,\"9\"\r\n"
               "R3-15,,2025-03-02,apple,cleft,1\r\n");
  split(folder, "R3-14", 4);
  EXPECT_EQ(
      folder.read("grafts.csv"),
      "id,comment,grafted_on,species,method,count\r\n\"R3-14\",\"two\r\nlines, "
      "\"\"so\"\"\",2025-03-02,apple,cleft,5\r\n"
      "R3-15,,2025-03-02,apple,cleft,1\r\nR3-14.1,\"two\r\nlines, \"\"so\"\"\",2025-03-02,apple,cleft,4\r\n");
}

TEST(SplitBatch, GivesThePartTheEarlierLinesOfTheBatchButNotTheLaterOnes) {
  const SampleFolder folder;
  split(folder, "R3-14", 60);
  append(folder, {"2025-04-02", "R3-14", Event::bag_off});
  append(folder, {"2025-04-03", "R3-14.1", Event::watered});
  EXPECT_THAT(events_of(folder, "R3-14"), ElementsAre("bag-on", "green", "bag-off"));
  EXPECT_THAT(events_of(folder, "R3-14.1"), ElementsAre("bag-on", "green", "watered"));
}

TEST(SplitBatch, HandsEarlierLinesOnToPartsOfParts) {
  const SampleFolder folder;
  split(folder, "R3-14", 60);
  append(folder, {"2025-04-05", "R3-14.1", Event::bag_off});
  const auto [parent, child] = split(folder, "R3-14.1", 10, "2025-04-10T09:00Z");
  EXPECT_EQ(child.id, "R3-14.1.1");
  EXPECT_THAT(events_of(folder, "R3-14.1.1"), ElementsAre("bag-on", "green", "bag-off"));
  EXPECT_THAT(events_of(folder, "R3-14"), ElementsAre("bag-on", "green"));
}

TEST(SplitBatch, LeavesCountsWithTheBatch) {
  const SampleFolder folder;
  append(folder, {"2025-03-25", "R3-14", Event::dead, "17"});
  split(folder, "R3-14", 60);
  EXPECT_THAT(events_of(folder, "R3-14.1"), ElementsAre("bag-on", "green"));
  EXPECT_THAT(events_of(folder, "R3-14"), ElementsAre("bag-on", "green", "dead"));
}

TEST(SplitBatch, FollowsThePartToItsOwnSpot) {
  const SampleFolder folder;
  split(folder, "R3-14", 60);
  append(folder, {"2025-04-02", "R3-14.1", Event::moved, "store"});
  append(folder, {"2025-04-03", "spot:store", Event::watered});
  EXPECT_THAT(events_of(folder, "R3-14.1"), ElementsAre("bag-on", "green", "moved", "watered"));
  EXPECT_THAT(events_of(folder, "R3-14"), ElementsAre("bag-on", "green"));
}

TEST(SplitBatch, CountsPartsUp) {
  const SampleFolder folder;
  split(folder, "R3-14", 60);
  EXPECT_EQ(split(folder, "R3-14", 60).child.id, "R3-14.2");
}

TEST(SplitBatch, RefusesCountsThatAreNotThere) {
  const SampleFolder folder;
  append(folder, {"2025-03-25", "R3-14", Event::taken, "150"});
  append(folder, {"2025-03-26", "R3-14", Event::dead, "17"});
  const auto before = folder.snapshot();
  const auto error = [&](const char* id, int count, const char* at = split_time) {
    return error_of([&] { split(folder, id, count, at); });
  };
  EXPECT_THAT(error("R3-14", 0),
              HasSubstr("usage 0 cannot be split off R3-14, which has 200; give a number from 1 to 199"));
  EXPECT_THAT(error("R3-14", -5), HasSubstr("usage"));
  EXPECT_THAT(error("R3-14", 200), HasSubstr("usage"));
  EXPECT_THAT(error("R3-14", 34),
              HasSubstr("of 200, 167 are noted as taken or dead; give a number up to 33"));
  EXPECT_THAT(error("R3-15", 1), HasSubstr("it is a single graft"));
  EXPECT_THAT(error("R3-41", 1), HasSubstr("did you mean R3-14"));
  EXPECT_THAT(error("R3-14", 10, "2025-03-01T12:00Z"),
              HasSubstr("was grafted on 2025-03-02, after the time of the split"));
  EXPECT_EQ(folder.snapshot(), before);
  EXPECT_EQ(split(folder, "R3-14", 33).child.count, 33);
}

// The power fails after the diary and before the ledger.
TEST(SplitBatch, HasNotHappenedWhenOnlyTheDiaryWasWritten) {
  const SampleFolder folder;
  split(folder, "R3-14", 60);
  folder.write("grafts.csv", sample_grafts);
  EXPECT_THAT(events_of(folder, "R3-14"), ElementsAre("bag-on", "green"));
  EXPECT_EQ(split(folder, "R3-14", 50, "2025-04-09T09:00Z").child.id, "R3-14.1");
  EXPECT_THAT(events_of(folder, "R3-14.1"), ElementsAre("bag-on", "green"));
}

TEST(SplitBatch, RefusesAHandWrittenSplitOfSomethingElse) {
  const Ledger ledger = ledger_of(sample_grafts);
  EXPECT_THAT(error_of([&] { diary_of("when,graft,event,value\n2025-04-01,R3-14,split,R3-15\n", ledger); }),
              HasSubstr("diary.csv:2:24: \"R3-15\" is not a part of \"R3-14\""));
}

// Killed after the diary was written and before the ledger.
TEST(SplitBatch, CutShortAndRepeatedCountsOnce) {
  const SampleFolder folder;
  const std::string grafts = folder.read("grafts.csv");
  split(folder, "R3-14", 60);
  folder.write("grafts.csv", grafts);
  EXPECT_THAT(events_of(folder, "R3-14"), ElementsAre("bag-on", "green"));
  const auto [parent, child] = split(folder, "R3-14", 60);
  EXPECT_EQ(parent.count, 140);
  EXPECT_EQ(child.id, "R3-14.1");
  EXPECT_THAT(events_of(folder, "R3-14.1"), ElementsAre("bag-on", "green"));
  // Before the split there were two hundred, and not sixty more.
  EXPECT_THAT(error_of([&] {
                append(folder, {"2025-04-02", "R3-14", Event::callus, "141"});
              }),
              HasSubstr("has only 140"));
}

}  // namespace
}  // namespace graftcast
