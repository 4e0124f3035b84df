// What README.md shows can be typed, and what it says comes back does.

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "run_shell.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

const std::filesystem::path source = GRAFTCAST_SOURCE_DIR;
constexpr const char* sample_morning = "--at 2025-06-09T06:30";

/// The blocks between lines of three backquotes.
std::vector<std::string> blocks_of_readme() {
  std::ifstream stream(source / "README.md");
  std::vector<std::string> blocks;
  bool within = false;
  for (std::string line; std::getline(stream, line);) {
    if (line.starts_with("```")) {
      within = !within;
      if (within) blocks.emplace_back();
    } else if (within) {
      blocks.back() += line + '\n';
    }
  }
  return blocks;
}

/// How each block begins that is tried below, or by itself: the first two are how one comes to be here, and
/// what becomes of the third is the test `installed.PackageHoldsWhatItNeedsAndRunsItsDemo`.
constexpr std::array<const char*, 10> known_blocks{
    "#include <cstdio>",  // tests/installed/try.sh builds and runs it
    "sh sample_weather/demo.sh", "air    measured until", "cd .build/demo && cpack",
    "graftcast new orchard",     "\"weather\": {",        "17 * * * *  graftcast",
    "graftcast spots --fit",     "parallel --keep-order", "{\n \"id\": \"C3\""};

std::string block(const std::string& opening) {
  const auto blocks = blocks_of_readme();
  const auto found =
      std::ranges::find_if(blocks, [&](const std::string& text) { return text.starts_with(opening); });
  EXPECT_NE(found, blocks.end()) << "README.md has no block " << opening;
  return found == blocks.end() ? std::string() : *found;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from << " is not in " << text;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

/// A folder beside `sample_weather`, as the source tree is.
class Readme : public ::testing::Test {
 protected:
  void SetUp() override {
    std::filesystem::create_directory_symlink(source / "sample_weather", here() / "sample_weather");
    std::filesystem::create_directory(here() / "sites");
    std::filesystem::copy(source / "sample_weather/site", site(), std::filesystem::copy_options::recursive);
  }

  const std::filesystem::path& here() const { return folder_.path(); }
  std::filesystem::path site() const { return here() / "sites/dry-ford"; }

  std::string said(const std::string& command, const std::filesystem::path& where) const {
    const std::string path = std::filesystem::path(GRAFTCAST_PROGRAM).parent_path().string();
    const Said said =
        run_shell("PATH='" + path + "':$PATH; LC_ALL=C.UTF-8; export PATH LC_ALL; set -e\n" + command, where);
    EXPECT_EQ(said.exit_code, 0) << command << '\n' << said.err;
    return said.out;
  }

  TemporaryFolder folder_;
};

TEST_F(Readme, HasNoBlockThatIsNotTriedHere) {
  for (const std::string& text : blocks_of_readme()) {
    EXPECT_TRUE(std::ranges::any_of(known_blocks, [&](const char* known) { return text.starts_with(known); }))
        << text;
  }
}

TEST_F(Readme, ShowsWhatTheSampleSiteAnswers) {
  const std::string answer =
      said(std::string("graftcast ") + sample_morning + " --width 100 morning", site());
  std::istringstream shown(block("air    measured until"));
  std::string paragraph;
  int paragraphs = 0;
  const auto compare = [&] {
    EXPECT_THAT(answer, HasSubstr(paragraph));
    paragraphs += paragraph.empty() ? 0 : 1;
    paragraph.clear();
  };
  for (std::string line; std::getline(shown, line);) {
    const bool is_left_out = line.find_first_not_of(" .") == std::string::npos;
    is_left_out ? compare() : void(paragraph += line + '\n');
  }
  compare();
  EXPECT_GE(paragraphs, 5);
}

TEST_F(Readme, MakesAFirstSiteInFiveMinutes) {
  const std::string out = said(block("graftcast new orchard"), here());
  EXPECT_THAT(out, HasSubstr("G1"));
  EXPECT_TRUE(std::filesystem::exists(here() / "orchard/diary.csv"));
}

TEST_F(Readme, EntersServicesAsSiteJsonTakesThem) {
  json settings = json::parse(std::ifstream(site() / "site.json"));
  settings["weather"] = json::parse("{" + block("\"weather\": {") + "}")["weather"];
  std::filesystem::copy_file(site() / "weather/invented_station_hourly.csv", site() / "weather/station.csv");
  std::ofstream(site() / "site.json") << settings;
  EXPECT_THAT(said("graftcast weather fetch --dry-run", site()), HasSubstr("example.org/export.csv"));
}

TEST_F(Readme, FetchesByCronInWordsThatTheProgramTakes) {
  std::string line = block("17 * * * *  graftcast");
  line = replaced(line, "17 * * * *  ", "");
  line = replaced(line, "/home/grower/orchard", site().string());
  // The sample site has no service to ask: it says so, and what it says is not about the words.
  const Said said = run_shell("PATH='" + std::filesystem::path(GRAFTCAST_PROGRAM).parent_path().string() +
                              "':$PATH; " + line);
  EXPECT_THAT(said.err, HasSubstr("service"));
  EXPECT_THAT(said.err, ::testing::Not(HasSubstr("did you mean")));
}

TEST_F(Readme, LearnsASpotFromAThermometer) {
  std::filesystem::copy_file(site() / "loggers/bench_thermometer.csv", site() / "bench.csv");
  const std::string command = replaced(block("graftcast spots --fit"), "--spot bench", "--spot south-bench");
  said(replaced(command, "graftcast spots", std::string("graftcast ") + sample_morning + " spots"), site());
}

TEST_F(Readme, AnswersForManySitesALineEach) {
  const std::string line = block("parallel --keep-order");
  const std::size_t begin = line.find('\'') + 1;
  std::string command = line.substr(begin, line.find('\'', begin) - begin);
  command = replaced(command.substr(0, command.find('|')), "{}", "sites/*/");
  command = replaced(command, "graftcast ", std::string("graftcast ") + sample_morning + " ");
  EXPECT_EQ(json::parse(said(command, here()))["command"], "morning");
}

/// Each member of `shown` is one of `answer`, with its value.
void expect_part(const json& shown, const json& answer, const std::string& where) {
  for (const auto& [key, value] : shown.items()) {
    ASSERT_TRUE(answer.contains(key)) << where << key;
    if (value.is_object()) {
      expect_part(value, answer[key], where + key + ".");
    } else {
      EXPECT_EQ(value, answer[key]) << where << key;
    }
  }
}

TEST_F(Readme, ShowsAGraftAsJsonHasIt) {
  const json answer = json::parse(said(std::string("graftcast --json morning ") + sample_morning, site()));
  const auto& grafts = answer["grafts"];
  const auto graft = std::ranges::find_if(grafts, [](const json& each) { return each["id"] == "C3"; });
  ASSERT_NE(graft, grafts.end());
  expect_part(json::parse(block("{\n \"id\": \"C3\"")), *graft, "");
}

}  // namespace
}  // namespace graftcast::testing
