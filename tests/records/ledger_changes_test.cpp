// Adding rows to grafts.csv.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "records/ledger.hpp"
#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;
using namespace testing;

std::vector<GraftRow> add(const TemporaryFolder& folder, const std::vector<GraftCells>& grafts) {
  return add_grafts(folder.path(), parsed_site(), sample_clock(), sample_names(), grafts);
}

const GraftCells plain{{"id", "N1"}, {"grafted_on", "2025-05-01"}, {"species", "apple"}, {"method", "cleft"}};

GraftCells plain_with(const GraftCells& more) {
  GraftCells cells = plain;
  for (const auto& [column, text] : more) cells[column] = text;
  return cells;
}

TEST(AddGrafts, AppendsUnderTheFilesOwnColumnsAndTouchesNothingElse) {
  const SampleFolder folder;
  const auto added = add(folder, {plain_with({{"comment", "by the \"old\" gate, left"}, {"shade", "0.3"}})});
  ASSERT_EQ(added.size(), 1U);
  EXPECT_EQ(added[0].comment, "by the \"old\" gate, left");
  EXPECT_EQ(
      folder.read("grafts.csv"),
      std::string(sample_grafts) + "N1,2025-05-01,,apple,cleft,,,0.3,,,\"by the \"\"old\"\" gate, left\"\n");
}

TEST(AddGrafts, StartsTheFileWhenThereIsNone) {
  const TemporaryFolder folder;
  add(folder, {plain});
  EXPECT_THAT(folder.read("grafts.csv"), StartsWith("id,grafted_on,scion,species,method,stock,"));
  EXPECT_THAT(folder.read("grafts.csv"), HasSubstr("\nN1,2025-05-01,,apple,cleft,"));
}

TEST(AddGrafts, AddsTheColumnsANewGraftNeeds) {
  const TemporaryFolder folder;
  folder.write("grafts.csv",
               "id,grafted_on,species,method\r\nA,2025-03-01,apple,\"cleft\"\r\n\r\nB,2025-03-01,pear,chip");
  add(folder, {plain_with({{"buds", "2"}})});
  EXPECT_EQ(
      folder.read("grafts.csv"),
      "id,grafted_on,species,method,buds\r\nA,2025-03-01,apple,\"cleft\",\r\n\r\nB,2025-03-01,pear,chip,\r\n"
      "N1,2025-05-01,apple,cleft,2\r\n");
}

TEST(AddGrafts, KeepsAByteOrderMark) {
  const TemporaryFolder folder;
  folder.write("grafts.csv", "\xEF\xBB\xBFid,grafted_on,species,method\nA,2025-03-01,apple,cleft\n");
  add(folder, {plain_with({{"buds", "2"}})});
  EXPECT_EQ(folder.read("grafts.csv"),
            "\xEF\xBB\xBFid,grafted_on,species,method,buds\nA,2025-03-01,apple,cleft,\nN1,2025-05-01,apple,"
            "cleft,2\n");
}

TEST(AddGrafts, FillsColumnsOfTheOwnersOwn) {
  const SampleFolder folder;
  EXPECT_EQ(add(folder, {plain_with({{"row_label", "D"}})}).at(0).other.at("row_label"), "D");
}

TEST(AddGrafts, GivesTheNextFreeIdToThoseWithoutOne) {
  const SampleFolder folder;
  GraftCells nameless = plain;
  nameless.erase("id");
  const auto first = add(folder, {plain_with({{"id", "G7"}}), nameless, nameless});
  EXPECT_EQ(first[1].id, "G8");
  EXPECT_EQ(first[2].id, "G9");
  EXPECT_EQ(add(folder, {nameless}).at(0).id, "G10");
}

TEST(AddGrafts, LetsNewRowsReplaceOldOnesAndEachOther) {
  const SampleFolder folder;
  const auto added =
      add(folder, {plain_with({{"replaces", "R3-15"}}), plain_with({{"id", "N2"}, {"replaces", "N1"}})});
  EXPECT_EQ(added[1].replaces, "N1");
}

TEST(AddGrafts, AddsAllOrNothing) {
  const SampleFolder folder;
  const auto before = folder.snapshot();
  EXPECT_EQ(error_of([&] {
              add(folder, {plain, plain_with({{"id", "N2"}, {"species", "aple"}})});
            }),
            "bad-data species \"aple\" is not known; did you mean apple");
  EXPECT_EQ(folder.snapshot(), before);
}

TEST(AddGrafts, RefusesAnIdThatIsTakenAndAColumnThatDoesNotExist) {
  const SampleFolder folder;
  const auto before = folder.snapshot();
  EXPECT_THAT(error_of([&] {
                add(folder, {plain_with({{"id", "R3-14"}})});
              }),
              HasSubstr("the id \"R3-14\" is already used on line 2"));
  EXPECT_EQ(error_of([&] {
              add(folder, {plain_with({{"sopt", "store"}})});
            }),
            "usage there is no column \"sopt\"; did you mean spot");
  EXPECT_EQ(folder.snapshot(), before);
}

TEST(AddGrafts, PointsIntoTheFileWhenItIsTheFileThatIsWrong) {
  const SampleFolder folder;
  folder.write("grafts.csv", "id,grafted_on,species,method\nA,2025-02-30,apple,cleft\n");
  EXPECT_THAT(error_of([&] { add(folder, {plain}); }),
              HasSubstr("grafts.csv:2:3: grafted_on \"2025-02-30\""));
}

// Whatever text stands in cells, old rows keep their bytes and new ones read back as they were given.
TEST(AddGrafts, ReadsBackWhatWasAddedForAnyText) {
  std::mt19937 random(99);
  const std::string letters = "ab ,\"\n;\xC3\xA9";
  const auto any_text = [&] {
    std::string text;
    for (std::size_t length = random() % 8; length > 0; --length) {
      const std::size_t k = random() % (letters.size() - 1);
      text += k == letters.size() - 2 ? letters.substr(k) : letters.substr(k, 1);
    }
    return "x" + text + "x";
  };
  const TemporaryFolder folder;
  folder.write("grafts.csv", "id,grafted_on,note,species,method,comment\n");
  std::string before = folder.read("grafts.csv");
  for (int k = 0; k < 60; ++k) {
    const GraftCells cells =
        plain_with({{"id", "N" + std::to_string(k)}, {"comment", any_text()}, {"note", any_text()}});
    const GraftRow row = add(folder, {cells}).at(0);
    ASSERT_EQ(row.comment, cells.at("comment"));
    ASSERT_EQ(row.other.at("note"), cells.at("note"));
    const std::string after = folder.read("grafts.csv");
    ASSERT_EQ(after.substr(0, before.size()), before);
    before = after;
  }
}

TEST(AddGrafts, WhatIsNotUtf8NeverGetsIn) {
  const SampleFolder folder;
  const std::string before = folder.read("grafts.csv");
  EXPECT_THAT(error_of([&] { add(folder, {plain_with({{"stock", "\xFF"}})}); }), HasSubstr("is not UTF-8"));
  EXPECT_EQ(folder.read("grafts.csv"), before);
}

}  // namespace
}  // namespace graftcast
