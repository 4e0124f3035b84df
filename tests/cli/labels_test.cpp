// `labels` over the whole program.

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;

json labels(const SmallSite& site, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"labels", "--json"};
  words.insert(words.end(), more.begin(), more.end());
  const Said said = site.run(words);
  EXPECT_EQ(said.exit_code, 0) << said.err;
  const json answer = json::parse(said.out, nullptr, false);
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-labels.schema.json");
  const json rules = json::parse(stream);
  EXPECT_THAT(testing::SchemaCheck(rules).complaints(answer), IsEmpty());
  return answer;
}

TEST(LabelsCommand, LabelsRowsOrEachGraftOfThem) {
  const SmallSite site;
  EXPECT_EQ(labels(site).at("labels").size(), 4U);
  EXPECT_EQ(labels(site, {"--each"}).at("labels").size(), 16U);  // 10 + 3 + 2 + 1.
  const json two = labels(site, {"B1", "A1", "--copies", "2"});
  ASSERT_EQ(two.at("labels").size(), 4U);
  EXPECT_EQ(two.at("labels")[0].at("id"), "A1");  // In the ledger's order.
  EXPECT_EQ(two.at("labels")[0].at("what"), "Millrace on row A");
  EXPECT_EQ(two.at("labels")[0].at("date"), "2025-06-03");
  EXPECT_EQ(two.at("labels")[2].at("id"), "B1");
}

TEST(LabelsCommand, LaysOutTheSheetThatIsAskedFor) {
  const SmallSite site;
  const json layout =
      labels(site, {"--page", "letter", "--size", "66.7x25.4", "--margin", "4", "--gap", "3", "--from", "4"})
          .at("layout");
  EXPECT_EQ(layout.at("page_mm"), json({215.9, 279.4}));  // 8.5 by 11 inches, ANSI/ASME Y14.1 (recalled).
  EXPECT_EQ(layout.at("columns"), 3);
  EXPECT_EQ(layout.at("lines"), 9);
  EXPECT_EQ(layout.at("from"), 4);
  EXPECT_EQ(labels(site).at("layout").at("page_mm"), json({210.0, 297.0}));  // A4, ISO 216 (recalled).
}

TEST(LabelsCommand, WritesAFileAndSaysHowToPrintIt) {
  const SmallSite site;
  const std::string file = (site.path() / "labels.html").string();
  const Said said = site.run({"labels", "--to", file, "--width", "200"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("4 labels of 60 x 30 mm, 24 to a page"));
  EXPECT_THAT(said.out, AllOf(HasSubstr("Keep the knife sharp"), HasSubstr("Local regulations")));
  EXPECT_THAT(site.read("labels.html"), HasSubstr("<bdi>Red Pith on pot 7</bdi>"));
  EXPECT_EQ(site.run({"labels"}).out, site.read("labels.html"));
}

TEST(LabelsCommand, TellsWhichIdsAreTooSmallForArmsLength) {
  const SmallSite site;
  site.replace("grafts.csv", "D1,", "the-cherry-behind-the-old-pump-house,");
  EXPECT_EQ(labels(site).at("warnings").size(), 1U);
  const Said said = site.run({"labels"});
  EXPECT_THAT(said.err,
              AllOf(HasSubstr("arm's length"), HasSubstr("the-cherry-behind"), HasSubstr("--size")));
  EXPECT_THAT(labels(site, {"--size", "190x60"}).at("warnings"), IsEmpty());
}

TEST(LabelsCommand, RefusesWhatCannotBe) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  for (const std::vector<std::string>& words : {std::vector<std::string>{"labels", "A9"},
                                                {"labels", "--size", "60"},
                                                {"labels", "--size", "60x"},
                                                {"labels", "--size", "300x300"},
                                                {"labels", "--from", "25"},
                                                {"labels", "--copies", "0"},
                                                {"labels", "--page", "A0"},
                                                {"labels", "--margin", "-1"}}) {
    const Said said = site.run(words);
    EXPECT_EQ(said.exit_code, 2) << words.back();
    EXPECT_THAT(said.out, IsEmpty());
  }
  EXPECT_THAT(site.run({"labels", "A9"}).err, HasSubstr("did you mean A1"));
  EXPECT_EQ(site.fingerprint(), before);
  site.write("grafts.csv", "id,grafted_on,species,method\n");
  site.write("diary.csv", "when,graft,event,value,comment\n");
  EXPECT_THAT(labels(site).at("warnings").dump(), HasSubstr("no graft"));
}

}  // namespace
}  // namespace graftcast
