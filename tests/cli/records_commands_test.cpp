// Commands that write.

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::Said;
using testing::SmallSite;
using ::testing::StartsWith;
using testing::TemporaryFolder;

void expect_fits(const std::string& schema, const Said& said) {
  ASSERT_EQ(said.exit_code, 0) << said.err;
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-" + schema + ".schema.json");
  const json rules = json::parse(stream);
  EXPECT_THAT(testing::SchemaCheck(rules).complaints(json::parse(said.out)), IsEmpty());
}

const std::vector<std::string> new_place{"--latitude",  "-34.9", "--longitude", "138.6",
                                         "--elevation", "48",    "--time-zone", "Australia/Adelaide"};

Said start_site(const std::filesystem::path& folder, std::vector<std::string> more) {
  std::vector<std::string> words{"new", folder.string()};
  words.insert(words.end(), new_place.begin(), new_place.end());
  words.insert(words.end(), more.begin(), more.end());
  return testing::run(words);
}

TEST(New, MakesASiteThatTheOtherCommandsTake) {
  const TemporaryFolder folder;
  const auto site = folder.path() / "roof";
  const Said said = start_site(site, {"--spot", "tables,sun=0.7,wind=0.5,movable", "--spot",
                                      "store,sun=0.05,sheltered", "--supply", "clear-bag=12"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, StartsWith("roof is ready"));
  const json written = json::parse(folder.read("roof/site.json"));
  EXPECT_EQ(written["spots"]["tables"]["sun"], 0.7);
  EXPECT_EQ(written["spots"]["tables"]["movable"], true);
  EXPECT_EQ(written["spots"]["store"]["rain"], false);
  EXPECT_EQ(written["supplies"]["clear-bag"], 12);
  EXPECT_EQ(testing::run({"--site", site.string(), "graft", "--species", "citrus", "--method", "chip",
                          "--spot", "tables"})
                .exit_code,
            0);
  EXPECT_EQ(testing::run({"--site", site.string(), "models", "check"}).exit_code, 0);
}

TEST(New, AnswersInJson) {
  const TemporaryFolder folder;
  expect_fits("new", start_site(folder.path() / "a", {"--json"}));
}

TEST(New, RefusesAFolderThatIsASiteAndChangesNothing) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  const Said said = start_site(site.path(), {});
  EXPECT_EQ(said.exit_code, 2);
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(New, SaysAllThatLacks) {
  const TemporaryFolder folder;
  const Said said = testing::run({"new", (folder.path() / "a").string(), "--latitude", "1"});
  EXPECT_EQ(said.exit_code, 2);
  EXPECT_THAT(said.err, HasSubstr("lacks --longitude, --elevation, --time-zone"));
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "a"));
}

TEST(Graft, AddsARowAndKeepsTheRest) {
  const SmallSite site;
  const std::string before = site.read("grafts.csv");
  const Said said = site.run({"graft", "--species", "walnut", "--method", "patch", "--scion", "Thin Shell",
                              "--spot", "bench", "--count", "4", "--comment", "by \"the gate\", late"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("G1: walnut patch of 2025-06-11, Thin Shell, 4 alike"));
  EXPECT_THAT(said.out, HasSubstr("thousand-cankers"));  // The quarantine rule of the species.
  EXPECT_THAT(site.read("grafts.csv"), StartsWith(before));
  EXPECT_THAT(site.read("grafts.csv"), HasSubstr("2025-06-11T06:30"));
}

TEST(Graft, AnswersInJson) {
  const SmallSite site;
  const Said said =
      site.run({"graft", "--species", "fig", "--method", "chip", "--on", "2025-06-10", "--json"});
  expect_fits("graft", said);
  EXPECT_EQ(json::parse(said.out)["grafts"][0]["grafted_on"], "2025-06-10");
}

TEST(Note, IsReadFromItsWords) {
  const SmallSite site;
  const Said said = site.run({"note", "B1", "bag-off", "--comment", "hot"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(site.read("diary.csv"), HasSubstr("\n2025-06-11T06:30,B1,bag-off,,hot,"));
}

TEST(Note, TakesWordsThatAreNamesOfCommandsToo) {
  const SmallSite site;
  EXPECT_EQ(site.run({"note", "B1", "watered", "2", "#", "since", "morning", "graft", "split"}).exit_code, 0);
  EXPECT_THAT(site.read("diary.csv"), HasSubstr("since morning graft split"));
}

TEST(Note, RefusesAWordThatItDoesNotUnderstand) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  for (const auto& [word, near] : {std::pair{"sock", "give one of: clear-bag"}, {"clear-bga", "clear-bag"}}) {
    const Said said = site.run({"note", "A1", "bag-on", word});
    EXPECT_EQ(said.exit_code, 65);
    EXPECT_THAT(said.err, HasSubstr(std::string("bag-on \"") + word + "\" is not known"));
    EXPECT_THAT(said.err, HasSubstr(near));
  }
  const Said said = site.run({"note", "A1", "green", "grene"});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr("did you mean green; a remark begins with #"));
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(Note, SaysWhoNotedItAndTheIdThatTakesItBack) {
  const SmallSite site;
  const Said said = site.run({"note", "A1", "callus", "4", "--by", "Marta", "--json"});
  expect_fits("note", said);
  const json note = json::parse(said.out)["notes"][0];
  EXPECT_EQ(note["by"], "Marta");
  EXPECT_EQ(note["photo"], nullptr);
  const std::string id = note["id"];
  EXPECT_THAT(site.read("diary.csv"), EndsWith(",A1,callus,4,," + id + ",Marta,\n"));
  EXPECT_EQ(site.run({"note", "A1", "void", id}).exit_code, 0);
  const Said again = site.run({"note", "A1", "void", id});
  EXPECT_EQ(again.exit_code, 65);
  EXPECT_THAT(again.err, HasSubstr("taken back already"));
}

TEST(Note, OfAnOwnCoverOrWrapPutsItOn) {
  const SmallSite site;
  std::filesystem::create_directories(site.path() / "models");
  site.write("models/covers.json",
             R"({"format": 1, "covers": [{"name": "sock", "title": "A woollen sock", "like": "paper-over-bag",
                                          "words": {"needs": "sock"}}],
                 "wraps": [{"name": "raffia", "title": "Raffia", "like": "film"}]})");
  site.replace("site.json", "\"paper\": 4", "\"paper\": 4, \"sock\": 2");
  const auto needs_of_sock = [&] {
    const json morning = json::parse(site.run({"morning", "--json"}).out);
    for (const json& graft : morning["grafts"])
      for (const json& action : graft["actions"])
        if (graft["id"] == "A1" && action["action"] == "sock") return action["needs"];
    return json();
  };
  EXPECT_EQ(needs_of_sock(), json({{"sock", 1}}));
  const std::string page = site.run({"page", "--no-weeks"}).out;
  EXPECT_THAT(page, HasSubstr("value=\"A1 bag-on sock\""));
  EXPECT_THAT(page, HasSubstr("value=\"A1 wrap-on raffia\""));
  const Said said = site.run({"note", "A1", "bag-on", "sock", "--json"});
  ASSERT_EQ(said.exit_code, 0) << said.err;
  EXPECT_EQ(json::parse(said.out)["notes"][0]["value"], "sock");
  EXPECT_EQ(site.run({"note", "A1", "wrap-on", "raffia"}).exit_code, 0);
  EXPECT_EQ(site.run({"graft", "--species", "fig", "--method", "chip", "--cover", "sock", "--wrap", "raffia"})
                .exit_code,
            0);
  EXPECT_EQ(needs_of_sock(), json());
  EXPECT_EQ(site.run({"note", "A1", "paper-on"}).exit_code, 0);
  EXPECT_EQ(site.run({"morning"}).exit_code, 0);
  EXPECT_EQ(site.run({"why", "A1"}).exit_code, 0);
}

TEST(Note, IsReadFromStandardInputLineByLine) {
  const SmallSite site;
  const Said said = site.run({"note"}, {.input = "# seen this morning\nA1 callus 4\n\nB1..B1 green\n"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("2 lines added"));
  expect_fits("note", site.run({"note", "-", "--json"}, {.input = "C1 watered 1 # little\n"}));
}

TEST(Note, IsTakenWholeOrNotAtAll) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  const Said said = site.run({"note"}, {.input = "A1 callus 4\nA1 calus 4\n"});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr("standard input:2:"));
  EXPECT_THAT(said.err, HasSubstr("did you mean callus"));
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(Note, OfTakenTakesTheGraftOffTheList) {
  const SmallSite site;
  EXPECT_EQ(site.run({"note", "D1", "taken"}).exit_code, 0);
  const json morning = json::parse(site.run({"morning", "--json"}).out);
  for (const json& graft : morning["grafts"]) EXPECT_NE(graft["id"], "D1");
}

TEST(Note, OfRemovedTakesTheGraftOffTheListAsNeitherTakenNorLost) {
  const SmallSite site;
  EXPECT_EQ(site.run({"note", "D1", "removed"}).exit_code, 0);
  const json morning = json::parse(site.run({"morning", "--json"}).out);
  for (const json& graft : morning["grafts"]) EXPECT_NE(graft["id"], "D1");
  const Said since = site.run({"since", "D1", "--json"});
  expect_fits("since", since);
  const Said why = site.run({"why", "D1", "--json"});
  expect_fits("why", why);
  EXPECT_EQ(json::parse(why.out)["graft"]["outcome"], "removed");
}

TEST(Split, MakesARowOfItsOwn) {
  const SmallSite site;
  const Said said = site.run({"split", "A1", "4"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_EQ(said.out, "A1.1: 4 grafts, split off A1, which keeps 6\n");
  const Said again = site.run({"split", "A1", "2", "--json"});
  expect_fits("split", again);
  EXPECT_EQ(json::parse(again.out)["child"]["id"], "A1.2");
  EXPECT_EQ(json::parse(again.out)["parent"]["count"], 4);
}

TEST(WeatherAdd, CopiesTheFileAndEntersItLast) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto log = folder.write(
      "may.csv", "date,air_temperature_min [degC],air_temperature_max [degC]\n2025-05-30,10,20\n");
  const std::string before = site.read("site.json");
  const Said said = site.run({"weather", "add", log.string()});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_EQ(site.read("weather/may.csv"), folder.read("may.csv"));
  const json sources = json::parse(site.read("site.json"))["weather"]["sources"];
  ASSERT_EQ(sources.size(), 3U);
  EXPECT_EQ(sources[2], json({{"file", "weather/may.csv"}}));
  EXPECT_THAT(site.read("site.json"),
              StartsWith(before.substr(0, before.rfind("]}}"))));  // The rest byte for byte.
}

TEST(WeatherAdd, KeepsHowTheFileIsToBeRead) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto log = folder.write("other.csv", "When;Temp\n03/06/2025 10:00;68\n03/06/2025 11:00;70\n");
  const Said said =
      site.run({"weather", "add", log.string(), "--json", "--stamp", "end", "--time-zone", "UTC", "--column",
                "time=When::%d/%m/%Y %H:%M", "--column", "air_temperature=Temp::degF"});
  expect_fits("weather-add", said);
  const json entry = json::parse(site.read("site.json"))["weather"]["sources"][2];
  EXPECT_EQ(entry["stamp"], "end");
  EXPECT_EQ(entry["columns"]["air_temperature"]["unit"], "degF");
  EXPECT_EQ(entry["columns"]["time"]["format"], "%d/%m/%Y %H:%M");
  EXPECT_EQ(json::parse(said.out)["files"][0]["from"], "2025-06-03T09:00:00Z");
}

TEST(WeatherAdd, TwiceIsTheSameAsOnce) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto log = folder.write("new.csv", testing::hourly_log(20, 2));
  EXPECT_EQ(site.run({"weather", "add", log.string()}).exit_code, 0);
  const std::string after = site.fingerprint();
  EXPECT_EQ(site.run({"weather", "add", log.string()}).exit_code, 0);
  EXPECT_EQ(site.fingerprint(), after);
}

TEST(WeatherAdd, ChangesNothingWhereOneOfSeveralFilesIsBad) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto good = folder.write("good.csv", testing::hourly_log(20, 2));
  const auto bad = folder.write("bad.csv", "time,air_temperature [lux]\n2025-06-01T00:00,3\n");
  const std::string before = site.fingerprint();
  const Said said = site.run({"weather", "add", good.string(), bad.string()});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr("bad.csv:1:"));
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(WeatherAdd, IsDoneInPartWhereOneNameIsTaken) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto taken = folder.write("station.csv", testing::hourly_log(20, 2));
  const auto good = folder.write("good.csv", testing::hourly_log(20, 2));
  const std::string before = site.read("weather/station.csv");
  const Said said = site.run({"weather", "add", taken.string(), good.string()});
  EXPECT_EQ(said.exit_code, 75);
  EXPECT_THAT(said.err, HasSubstr("station.csv"));
  EXPECT_EQ(site.read("weather/station.csv"), before);
  EXPECT_THAT(site.read("site.json"), HasSubstr("weather/good.csv"));
}

}  // namespace
}  // namespace graftcast
