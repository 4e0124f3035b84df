// Labels: measures in mm, an id that is read at arm's length and never cut, names as text.

#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "report/label_sheet.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

GraftRow row(const std::string& id, int count = 1) {
  GraftRow row;
  row.id = id;
  row.scion = "Blue Lattice";
  row.stock = "pot 7";
  row.species = "citrus";
  row.method = "chip";
  row.count = count;
  row.grafted_on = LocalDay(std::chrono::year(2025) / std::chrono::June / 8);
  return row;
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

std::string sheets(const std::vector<GraftLabel>& labels, const SheetLayout& layout = {}) {
  return label_sheet_html(labels, layout, "Invented nursery", {"Mind the knife."});
}

/// Left and top of every label in mm.
std::vector<std::pair<double, double>> places(const std::string& html) {
  std::vector<std::pair<double, double>> found;
  const std::regex place("style=\"left:([0-9.]+)mm;top:([0-9.]+)mm\"");
  for (std::sregex_iterator at(html.begin(), html.end(), place), end; at != end; ++at)
    found.emplace_back(std::stod((*at)[1]), std::stod((*at)[2]));
  return found;
}

TEST(Labels, AreOneARowOrOneAGraftEachInCopies) {
  const std::vector<GraftRow> rows{row("A1", 40), row("B1", 3)};
  EXPECT_EQ(graft_labels(rows, false, 1).size(), 2U);
  EXPECT_EQ(graft_labels(rows, false, 2).size(), 4U);
  EXPECT_EQ(graft_labels(rows, true, 1).size(), 43U);
  EXPECT_EQ(graft_labels(rows, true, 2).size(), 86U);
  const GraftLabel label = graft_labels(rows, true, 1)[42];
  EXPECT_EQ(label.id, "B1");
  EXPECT_EQ(label.what, "Blue Lattice on pot 7");
  EXPECT_EQ(label.date, "2025-06-08");
}

TEST(Labels, OfARowWithoutScionShowItsSpecies) {
  GraftRow bare = row("A1");
  bare.scion.clear();
  bare.stock.clear();
  EXPECT_EQ(graft_labels(std::vector{bare}, false, 1)[0].what, "citrus");
}

TEST(LabelSheet, FillsAnA4PageToTheMillimetre) {
  const SheetLayout layout;
  // 3 x 60 mm and two gaps of 3 mm are 186 of 210 - 2 x 8 mm; 8 x 30 and seven gaps are 261 of 281 mm.
  EXPECT_EQ(layout.columns(), 3);
  EXPECT_EQ(layout.lines(), 8);
  const std::string html = sheets(graft_labels(std::vector{row("A1", 25)}, true, 1));
  EXPECT_THAT(html, HasSubstr("@page{size:210.00mm 297.00mm;margin:0}"));
  EXPECT_EQ(count_of(html, "<section class=\"sheet\">"), 2U);
  const auto all = places(html);
  ASSERT_EQ(all.size(), 25U);
  EXPECT_EQ(all[0], std::pair(12.0, 18.0));  // What is left over is shared: (210 - 186) / 2, (297 - 261) / 2.
  EXPECT_EQ(all[1], std::pair(75.0, 18.0));
  EXPECT_EQ(all[23], std::pair(138.0, 249.0));
  EXPECT_EQ(all[24], all[0]);
}

TEST(LabelSheet, NeverPutsALabelOverThePagesMargin) {
  for (const double width : {10.0, 48.5, 63.5, 99.1, 194.0})
    for (const double height : {10.0, 21.2, 33.9, 67.7})
      for (const double gap : {0.0, 2.5}) {
        SheetLayout layout;
        layout.label_width = width;
        layout.label_height = height;
        layout.gap = gap;
        const int per_page = layout.columns() * layout.lines();
        const auto all = places(sheets(graft_labels(std::vector{row("A1", per_page)}, true, 1), layout));
        ASSERT_EQ(all.size(), static_cast<std::size_t>(per_page));
        for (const auto& [left, top] : all) {
          EXPECT_GE(left, 8 - 0.01);
          EXPECT_GE(top, 8 - 0.01);
          EXPECT_LE(left + width, 202.01);
          EXPECT_LE(top + height, 289.01);
        }
      }
}

TEST(LabelSheet, BeginsAtTheFirstFreeLabelOfASheetInUse) {
  SheetLayout layout;
  layout.first = 24;
  const auto all = places(sheets(graft_labels(std::vector{row("A1", 2)}, true, 1), layout));
  EXPECT_THAT(all, ElementsAre(std::pair(138.0, 249.0), std::pair(12.0, 18.0)));
}

TEST(LabelSheet, ThatCannotBeIsRefused) {
  SheetLayout layout;
  layout.label_width = 300;
  EXPECT_THROW(check_layout(layout), UsageError);
  layout = {};
  layout.first = 25;
  EXPECT_THROW(check_layout(layout), UsageError);
  layout.first = 24;
  EXPECT_NO_THROW(check_layout(layout));
}

// 4.7 mm for labels seen from 0.5 to 1 m: MIL-STD-1472F (recalled). ISO 9241-303 prefers characters of 20 to
// 22 minutes of arc (seen cited): 22 minutes at 0.7 m, an arm's length, are 700 mm * tan(22 / 60 deg).
TEST(LabelId, IsReadAtArmsLength) {
  EXPECT_GE(arms_length_cap_mm, 700 * std::tan(22.0 / 60 * 3.14159265 / 180));
  const SheetLayout layout;
  for (const char* id : {"A1", "G214", "R3-14", "A1.1.12", "WWWWWW", "2025-0614"})
    EXPECT_GE(id_letters(layout, id).cap_height_mm, 4.7) << id;
  EXPECT_GE(id_letters(layout, "AV1").cap_height_mm, 9.9);
}

TEST(LabelId, GrowsWithItsLabelAndShrinksWithItsLength) {
  SheetLayout small, large;
  small.label_width = 40;
  small.label_height = 20;
  large.label_width = 90;
  large.label_height = 40;
  double before = 100;
  std::string id;
  for (int letters = 1; letters <= 64; ++letters) {
    id += 'G';
    const double cap = id_letters(small, id).cap_height_mm;
    EXPECT_LE(cap, before + 1e-9);
    EXPECT_LE(cap, id_letters(large, id).cap_height_mm);
    before = cap;
  }
}

TEST(LabelId, IsBrokenRatherThanCutAndToldWhenItIsTooSmall) {
  const SheetLayout layout;
  const std::string id(64, 'G');  // The longest that a ledger takes.
  EXPECT_GT(id_letters(layout, id).lines, 1);
  const std::vector<GraftLabel> labels = graft_labels(std::vector{row("A1"), row(id, 3)}, true, 1);
  EXPECT_THAT(ids_too_small(labels, layout), ElementsAre(id));
  EXPECT_THAT(sheets(labels), HasSubstr("<bdi>" + id + "</bdi>"));
}

TEST(LabelSheet, ShowsNamesAsText) {
  GraftRow hostile = row("a<b>&'");
  hostile.scion = "<script>alert(1)</script>\n\u202e\"x\" \u6885";
  hostile.method = "</p></div><img src=x>";
  const std::string html =
      label_sheet_html(graft_labels(std::vector{hostile}, false, 1), {}, "</title><script>", {"<b>mind</b>"});
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, Not(HasSubstr("<img")));
  EXPECT_THAT(html, Not(HasSubstr("<b>")));
  EXPECT_THAT(html, HasSubstr("<bdi>a&lt;b&gt;&amp;&#39;</bdi>"));
  EXPECT_THAT(html, HasSubstr("&lt;/script&gt;??&quot;x&quot; \u6885 on pot 7</bdi>"));
  EXPECT_EQ(count_of(html, "class=\"label\""), 1U);
}

TEST(LabelSheet, LoadsNothingAndPrintsNoCautions) {
  const std::string html = sheets(graft_labels(std::vector{row("A1")}, false, 1));
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
  for (const char* part : {"http:", "https:", "url(", "@import", "<link", "src="})
    EXPECT_THAT(html, Not(HasSubstr(part)));
  EXPECT_THAT(html, HasSubstr("@media print{.note{display:none}}"));
  EXPECT_THAT(html, HasSubstr("Mind the knife."));
}

}  // namespace
}  // namespace graftcast
