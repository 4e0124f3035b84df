#include "records/ledger.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Pair;
using namespace testing;
using namespace std::chrono_literals;

GraftRow row_of(const std::string& header, const std::string& cells) {
  const Ledger ledger =
      ledger_of("id,grafted_on,species,method," + header + "\nG1,2025-03-02,apple,cleft," + cells + "\n");
  return ledger.rows.at(0);
}

TEST(Ledger, ReadsEveryColumn) {
  const Ledger ledger = ledger_of(
      "id,grafted_on,scion,species,method,stock,stock_species,position,replaces,scion_state,diameter_mm,"
      "length_mm,buds,tip,"
      "cambium_match,spot,wrap,cover,shade,pot_litres,count,priority,grafter,comment\n"
      "A,2025-02-01,Russet,apple,cleft,T1,,,,,,,,,,,,,,,,,,\n"
      "B,2025-03-02T10:30,Russet,apple,bark,T1,pear,north "
      "limb,A,dormant,6.5,90,3,sealed,one-side,store,film,clear-bag,0.5,12,"
      "40,2.5,R. W.,\"two\nlines\"\n");
  ASSERT_EQ(ledger.rows.size(), 2U);
  const GraftRow& row = ledger.rows[1];
  EXPECT_EQ(row.id, "B");
  EXPECT_EQ(day_text(row.grafted_on), "2025-03-02");
  EXPECT_EQ(row.grafted_at, instant("2025-03-02T10:30Z"));
  EXPECT_EQ(row.scion, "Russet");
  EXPECT_EQ(row.species, "apple");
  EXPECT_EQ(row.method, "bark");
  EXPECT_EQ(row.stock, "T1");
  EXPECT_EQ(row.stock_species, "pear");
  EXPECT_EQ(row.position, "north limb");
  EXPECT_EQ(row.replaces, "A");
  EXPECT_EQ(row.scion_state, "dormant");
  EXPECT_EQ(row.diameter_mm, 6.5);
  EXPECT_EQ(row.length_mm, 90);
  EXPECT_EQ(row.buds, 3);
  EXPECT_EQ(row.tip, "sealed");
  EXPECT_EQ(row.cambium_match_word, "one-side");
  EXPECT_EQ(row.cambium_match_share, std::nullopt);
  EXPECT_EQ(row.spot, "store");
  EXPECT_EQ(row.wrap, "film");
  EXPECT_EQ(row.cover, "clear-bag");
  EXPECT_EQ(row.shade, 0.5);
  EXPECT_EQ(row.pot_litres, 12);
  EXPECT_EQ(row.count, 40);
  EXPECT_EQ(row.priority, 2.5);
  EXPECT_EQ(row.grafter, "R. W.");
  EXPECT_EQ(row.comment, "two\nlines");
  EXPECT_EQ(row.line, 3U);
}

TEST(Ledger, LeavesEmptyCellsAbsent) {
  const GraftRow row = row_of("buds,shade,pot_litres,cambium_match,count,priority,spot,tip", ",,,,,,,");
  EXPECT_EQ(row.buds, std::nullopt);
  EXPECT_EQ(row.shade, std::nullopt);
  EXPECT_EQ(row.pot_litres, std::nullopt);
  EXPECT_EQ(row.cambium_match_word, std::nullopt);
  EXPECT_EQ(row.cambium_match_share, std::nullopt);
  EXPECT_EQ(row.count, 1);
  EXPECT_EQ(row.priority, 1);
  EXPECT_EQ(row.grafted_at, std::nullopt);
}

TEST(Ledger, NeedsOnlyFourColumns) {
  EXPECT_EQ(ledger_of("species,id,method,grafted_on\n").rows.size(), 0U);
}

TEST(Ledger, ReadsACambiumMatchAsAShare) {
  const GraftRow row = row_of("cambium_match", "0.4");
  EXPECT_EQ(row.cambium_match_share, 0.4);
  EXPECT_EQ(row.cambium_match_word, std::nullopt);
}

TEST(Ledger, TakesTheLimitsOfEveryNumber) {
  EXPECT_EQ(row_of("shade", "0.95").shade, 0.95);
  EXPECT_EQ(row_of("shade", "0").shade, 0.0);
  EXPECT_EQ(row_of("diameter_mm", "1").diameter_mm, 1);
  EXPECT_EQ(row_of("count", "100000").count, 100'000);
  EXPECT_EQ(row_of("priority", "0").priority, 0);
}

TEST(Ledger, KeepsColumnsItDoesNotKnow) {
  const Ledger ledger = ledger_of(sample_grafts);
  EXPECT_THAT(ledger.rows.at(1).other, ElementsAre(Pair("row_label", "B")));
  EXPECT_TRUE(ledger.warnings.empty());
}

TEST(Ledger, WarnsOfAnUnknownColumnThatLooksLikeAKnownOne) {
  const Ledger ledger = ledger_of("id,grafted_on,species,method,wrapp,comment\n");
  EXPECT_THAT(ledger.warnings,
              ElementsAre("grafts.csv:1:30: the column \"wrapp\" has no meaning here; did you mean wrap"));
}

TEST(Ledger, ReadsTheSameFromSpreadsheetsOfEveryKind) {
  std::string text(sample_grafts);
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2)
    text.replace(at, 1, "\r\n");
  const Ledger ledger = ledger_of("\xEF\xBB\xBF" + text);
  ASSERT_EQ(ledger.rows.size(), 3U);
  EXPECT_EQ(ledger.columns.front(), "id");
  EXPECT_EQ(ledger.rows[2].comment, "");
  EXPECT_EQ(ledger.rows[0].comment, "first, of the day");
}

TEST(Ledger, TakesATimeOnTheSitesClockOrWithItsOwnOffset) {
  const auto grafted_at = [](const char* text) {
    const Ledger ledger =
        ledger_of(std::string("id,grafted_on,species,method\nA,") + text + ",apple,cleft\n");
    return *ledger.rows.at(0).grafted_at;
  };
  EXPECT_EQ(grafted_at("2025-06-02T10:00"), instant("2025-06-02T09:00Z"));
  EXPECT_EQ(grafted_at("2025-06-02 10:00"), instant("2025-06-02T09:00Z"));
  EXPECT_EQ(grafted_at("2025-06-02T10:00+05:00"), instant("2025-06-02T05:00Z"));
  // The clock goes back at 02:00 on this day: the earlier of the two readings is meant.
  EXPECT_EQ(grafted_at("2025-10-26T01:30"), instant("2025-10-26T00:30Z"));
}

TEST(Ledger, LetsARowReplaceOneFurtherDownIfItWasGraftedEarlier) {
  const Ledger ledger = ledger_of(
      "id,grafted_on,species,method,replaces\nB,2025-04-01,apple,cleft,A\nA,2025-03-01,apple,cleft,\n");
  EXPECT_EQ(ledger.rows[0].replaces, "A");
}

TEST(Ledger, FindsRowsById) {
  const Ledger ledger = ledger_of(sample_grafts);
  EXPECT_EQ(ledger.find("R3-16"), &ledger.rows[2]);
  EXPECT_EQ(ledger.find("R3-1"), nullptr);
}

TEST(ReadLedger, ReadsTheFileOfTheFolder) {
  const SampleFolder folder;
  EXPECT_EQ(read_ledger(folder.path(), parsed_site(), sample_clock(), sample_names()).rows.size(), 3U);
  std::filesystem::remove(folder.path() / "grafts.csv");
  EXPECT_THAT(error_of([&] { read_ledger(folder.path(), parsed_site(), sample_clock(), sample_names()); }),
              HasSubstr("cannot-open"));
}

}  // namespace
}  // namespace graftcast
