// Ranges and reasons as a person reads them, held against the same answer as JSON.

#include <cmath>
#include <filesystem>
#include <optional>
#include <regex>
#include <set>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "run_program.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

/// A copy of the sample site, whose weather spreads its members.
class PrintedBands : public ::testing::Test {
 protected:
  void SetUp() override {
    std::filesystem::copy(GRAFTCAST_SOURCE_DIR "/sample_weather/site", site_,
                          std::filesystem::copy_options::recursive);
  }

  std::string said(std::vector<std::string> command) const {
    std::vector<std::string> words{"--site", site_.string(), "--at", "2025-06-09T06:30", "--members",
                                   "8",      "--width",      "200"};
    words.insert(words.end(), command.begin(), command.end());
    const Said said = run(words);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return said.out;
  }
  json answer(std::vector<std::string> command) const {
    command.emplace_back("--json");
    return json::parse(said(std::move(command)));
  }

  TemporaryFolder folder_;
  std::filesystem::path site_ = folder_.path() / "site";
};

int percent(const json& share) {
  return static_cast<int>(std::lround(100 * share.get<double>()));
}

/// Nothing where words stand in for figures: all but sure, or all members alike.
std::optional<std::string> band_words(const json& chance) {
  const int p = percent(chance["p"]), low = percent(chance["low"]), high = percent(chance["high"]);
  if (p < 1 || p > 99 || low == high) return std::nullopt;
  return fmt::format("{} % ({}\u2013{} %)", p, low, high);
}

/// Every band of `chances` stands in the text, and at least `least` different ones do.
void expect_printed(const std::vector<json>& chances, const std::string& text, std::size_t least) {
  std::set<std::string> bands;
  for (const json& chance : chances) {
    if (const auto words = band_words(chance)) bands.insert(*words);
  }
  for (const std::string& band : bands) EXPECT_NE(text.find(band), std::string::npos) << band;
  EXPECT_GE(bands.size(), least);
}

std::vector<json> risks(const json& morning) {
  std::vector<json> risks;
  for (const json& graft : morning["grafts"])
    if (graft["urgency"] != "leave") risks.push_back(graft["risk"]);
  return risks;
}

TEST_F(PrintedBands, OfTheMorningHaveBothEndsInTheTerminalAndOnThePage) {
  const json morning = answer({"morning"});
  expect_printed(risks(morning), said({"morning"}), 6);
  const std::string page = (folder_.path() / "page.html").string();
  said({"page", "--to", page});
  // There a figure and its unit are kept on one line.
  const std::string html = std::regex_replace(folder_.read("page.html"), std::regex("\u00a0"), " ");
  expect_printed(risks(morning), html, 6);
}

TEST_F(PrintedBands, OfWhenHaveBothEnds) {
  const std::vector<std::string> ask{"when", "--species", "citrus", "--method", "chip"};
  std::vector<json> takes;
  const json days = answer(ask)["candidates"][0]["days"];
  for (const json& day : days) takes.push_back(day["take"]);
  expect_printed(takes, said(ask), 6);
}

TEST_F(PrintedBands, OfASeasonHaveBothEnds) {
  const std::string orchard = (folder_.path() / "orchard").string();
  run({"new", orchard, "--latitude", "47.6", "--longitude", "-122.3", "--elevation", "130", "--time-zone",
       "America/Los_Angeles"});
  run({"--site", orchard, "weather", "add", "--wind-height", "10",
       GRAFTCAST_SOURCE_DIR "/sample_weather/seattle_daily_2012_2015.csv"});
  std::vector<std::string> ask{
      "--site", orchard, "--at",     "2015-06-27T06:30", "--members", "8",        "--width",
      "200",    "when",  "--season", "--species",        "apple",     "--method", "whip-and-tongue"};
  const std::string text = run(ask).out;
  ask.emplace_back("--json");
  std::vector<json> takes;
  const json weeks = json::parse(run(ask).out)["candidates"][0]["weeks"];
  for (const json& week : weeks) {
    const json& take = week["usual"]["take"];
    if (take["high"].get<double>() - take["low"].get<double>() > 0.011) takes.push_back(take);
  }
  expect_printed(takes, text, 6);
}

TEST_F(PrintedBands, StandWithTheFirstReasonInItsOwnLineAndTheOthersAsNotes) {
  const std::string text = said({"morning", "--ascii"});
  int first_ones = 0;
  const json grafts = answer({"morning"})["grafts"];
  for (const json& graft : grafts) {
    if (graft["urgency"] != "now" && graft["urgency"] != "soon") continue;
    // Temperatures are shown in the terminal's own way.
    std::string first = graft["reasons"][0];
    first = first.substr(0, first.find(" up to "));
    EXPECT_THAT(text, HasSubstr("  why  " + first)) << graft["id"];
    EXPECT_THAT(text, Not(HasSubstr("  note " + first))) << graft["id"];
    ++first_ones;
  }
  EXPECT_GE(first_ones, 6);
}

}  // namespace
}  // namespace graftcast::testing
