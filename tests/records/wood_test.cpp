#include "records/wood.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using namespace testing;

constexpr std::string_view sample_wood =
    "id,scion,species,cut_on,stored,wrap,count,shelf,comment\n"
    "W1,Old russet,apple,2025-01-20,fridge,film,25,top,damp paper\n"
    "W2,,,2025-03-01,none,,,,\n";

std::vector<WoodRow> wood_rows(std::string_view text) {
  return wood_from_text(text, "wood.csv", sample_clock(), sample_names());
}

std::string error_with(const std::string& row) {
  return error_of([&] { wood_rows("id,species,cut_on,stored,wrap,count\n" + row + "\n"); });
}

TEST(Wood, ReadsItsRows) {
  const auto wood = wood_rows(sample_wood);
  ASSERT_EQ(wood.size(), 2U);
  EXPECT_EQ(wood[0].id, "W1");
  EXPECT_EQ(wood[0].scion, "Old russet");
  EXPECT_EQ(wood[0].species, "apple");
  EXPECT_EQ(day_text(wood[0].cut_on), "2025-01-20");
  EXPECT_EQ(wood[0].stored, "fridge");
  EXPECT_EQ(wood[0].wrap, "film");
  EXPECT_EQ(wood[0].count, 25);
  EXPECT_EQ(wood[0].other.at("shelf"), "top");
  EXPECT_EQ(wood[0].comment, "damp paper");
  EXPECT_EQ(wood[1].count, std::nullopt);
  EXPECT_EQ(wood[1].line, 3U);
}

TEST(Wood, PointsAtWhatIsWrong) {
  EXPECT_THAT(error_with("W1,apple,2025-13-20,fridge,,"),
              HasSubstr("wood.csv:2:10: cut_on \"2025-13-20\" is not a date"));
  EXPECT_THAT(
      error_with("W1,apple,2025-01-20,freezer,,"),
      HasSubstr("wood.csv:2:21: stored \"freezer\" is not known; give one of: fridge, shed, water, none"));
  EXPECT_THAT(error_with("W1,apple,2025-01-20,,,"), HasSubstr("stored is empty"));
  EXPECT_THAT(error_with("W1,aple,2025-01-20,shed,,"), HasSubstr("did you mean apple"));
  EXPECT_THAT(error_with("W1,apple,2025-01-20,shed,,-1"), HasSubstr("count \"-1\" is out of range"));
  EXPECT_THAT(error_with("W1,,2025-01-20,shed,,\nW1,,2025-01-20,shed,,"),
              HasSubstr("wood.csv:3:1: the id \"W1\" is already"));
}

TEST(Wood, IsOptional) {
  const SampleFolder folder;
  EXPECT_TRUE(read_wood(folder.path(), sample_clock(), sample_names()).empty());
  folder.write("wood.csv", sample_wood);
  EXPECT_EQ(read_wood(folder.path(), sample_clock(), sample_names()).size(), 2U);
}

TEST(AddWood, AppendsARowAndKeepsTheRest) {
  const SampleFolder folder;
  folder.write("wood.csv", sample_wood);
  const WoodRow row = add_wood(folder.path(), sample_clock(), sample_names(),
                               {{"id", "W3"}, {"cut_on", "2025-02-11"}, {"stored", "shed"}, {"count", "7"}});
  EXPECT_EQ(row.count, 7);
  EXPECT_EQ(folder.read("wood.csv"), std::string(sample_wood) + "W3,,,2025-02-11,shed,,7,,\n");
}

TEST(AddWood, WritesNothingWhenTheRowIsWrong) {
  const SampleFolder folder;
  const auto before = folder.snapshot();
  const auto error = [&](const WoodCells& cells) {
    return error_of([&] { add_wood(folder.path(), sample_clock(), sample_names(), cells); });
  };
  EXPECT_EQ(error({{"id", "W3"}, {"cut_on", "2025-02-11"}, {"stored", "sheed"}}),
            "bad-data stored \"sheed\" is not known; did you mean shed");
  EXPECT_THAT(error({{"id", "W3"}, {"cut", "2025-02-11"}}),
              HasSubstr("usage there is no column \"cut\"; did you mean cut_on"));
  EXPECT_EQ(folder.snapshot(), before);
}

TEST(WoodOf, IsTheRowThatTheScionNames) {
  const auto wood = wood_rows(sample_wood);
  GraftRow graft;
  graft.scion = "W2";
  EXPECT_EQ(wood_of(graft, wood), &wood[1]);
  graft.scion = "Old russet";
  EXPECT_EQ(wood_of(graft, wood), nullptr);
}

TEST(CheckWood, RefusesWoodCutAfterTheGraftOrOfAnotherSpecies) {
  const auto wood = wood_rows(sample_wood);
  const auto error = [&](const std::string& row) {
    const Ledger ledger = ledger_of("id,grafted_on,species,method,scion\n" + row + "\n");
    return error_of([&] { check_wood(wood, ledger, "grafts.csv"); });
  };
  EXPECT_EQ(error("A,2025-03-01,pear,cleft,W2"), "no error");
  EXPECT_EQ(error("A,2025-01-01,pear,cleft,another"), "no error");
  EXPECT_THAT(error("A,2025-02-28,pear,cleft,W2"),
              HasSubstr("grafts.csv:2: A was grafted on 2025-02-28 from the wood W2"));
  EXPECT_THAT(error("A,2025-03-01,pear,cleft,W1"),
              HasSubstr("grafts.csv:2: A is pear, but its wood W1 is apple"));
}

}  // namespace
}  // namespace graftcast
