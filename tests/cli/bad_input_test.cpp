// Bad input to the whole program: its exit code, what it says, and that it changes no file.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <functional>

#include "cli/command_runner.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {
namespace {

using ::testing::HasSubstr;
namespace fs = std::filesystem;
using Spoil = std::function<void(const fs::path&)>;
using Arguments = std::vector<std::string>;

struct BadCase {
  std::string name;
  Spoil spoil;          // Done to the small site first.
  Arguments arguments;  // After --site FOLDER.
  int exit_code = 65;
  std::string fragment;  // Expected on standard error.
  std::string input = {};
};
void PrintTo(const BadCase& bad, std::ostream* stream) {
  *stream << bad.name;
}

std::string content_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}
void put(const fs::path& file, const std::string& content) {
  std::ofstream(file, std::ios::binary) << content;
}

Spoil nothing() {
  return [](const fs::path&) {};
}
/// Replaces `old` in `file`, which must be there.
Spoil replaced(const std::string& file, const std::string& old, const std::string& wrong) {
  return [=](const fs::path& site) {
    std::string text = content_of(site / file);
    const std::size_t at = text.find(old);
    ASSERT_NE(at, std::string::npos) << old;
    put(site / file, text.replace(at, old.size(), wrong));
  };
}
Spoil whole(const std::string& file, const std::string& content) {
  return [=](const fs::path& site) { put(site / file, content); };
}
Spoil appended(const std::string& file, const std::string& line) {
  return [=](const fs::path& site) { put(site / file, content_of(site / file) + line); };
}
Spoil made_folder(const std::string& file) {
  return [=](const fs::path& site) {
    fs::remove(site / file);
    fs::create_directory(site / file);
  };
}
Spoil removed(const std::string& file) {
  return [=](const fs::path& site) { fs::remove(site / file); };
}

const Arguments morning{"morning", "--at", small_site_morning};
const std::string log = "weather/log.csv";
const std::string first_hour = "2025-06-01T00:00Z,16.0,80,1.5,0,0";

BadCase site_json(std::string name, std::string old, std::string wrong, std::string fragment) {
  return {std::move(name), replaced("site.json", old, wrong), morning, 65, std::move(fragment)};
}
BadCase grafts(std::string name, std::string old, std::string wrong, std::string fragment) {
  return {std::move(name), replaced("grafts.csv", old, wrong), morning, 65, std::move(fragment)};
}
BadCase weather(std::string name, std::string old, std::string wrong, std::string fragment) {
  return {std::move(name), replaced(log, old, wrong), morning, 65, std::move(fragment)};
}

std::string utf16(const std::string& text) {
  std::string wide = "\xFF\xFE";
  for (const char c : text) wide += std::string{c, '\0'};
  return wide;
}

std::vector<BadCase> bad_cases() {
  return {
      site_json("LatitudeBeyondThePole", "41.0", "95", "latitude"),
      site_json("LongitudeBeyondTheDateLine", "0.5,", "190,", "longitude"),
      site_json("ElevationAboveEveryMountain", "\"elevation_m\": 90", "\"elevation_m\": 99999", "elevation"),
      site_json("LatitudeAsText", "41.0", "\"41\"", "latitude"),
      site_json("UnknownTimeZone", "\"UTC\"", "\"Europe/Lisbone\"", "Europe/Lisbon"),
      site_json("SunShareAboveOne", "\"sun\": 0.9", "\"sun\": 1.9", "sun"),
      site_json("MisspeltKey", "\"supplies\"", "\"suplies\"", "supplies"),
      site_json("KeyGivenTwice", "\"name\": \"Little Weir\"", "\"name\": \"A\", \"name\": \"B\"", "name"),
      site_json("NewerFormat", "\"format\": 1", "\"format\": 99", "format"),
      site_json("PathOutsideTheFolder", "weather/log.csv", "../log.csv", "log.csv"),
      site_json("CutInTheMiddle", "\"weather\": {\"sources\": [{\"file\": \"weather/log.csv\"}]}}",
                "\"weather\": {", "site.json:"),
      site_json("NumberTooLarge", "41.0", "1e400", "site.json:"),
      {"SiteEmpty", whole("site.json", ""), morning, 65, "site.json"},
      {"SiteIsAFolder", made_folder("site.json"), morning, 66, "site.json"},
      {"SiteAbsent", removed("site.json"), morning, 66, "site.json"},
      {"SiteInUtf16", whole("site.json", utf16("{\"format\": 1}")), morning, 65, "UTF-16"},
      grafts("DateThatDoesNotExist", "2025-06-02", "2025-02-30", "grafts.csv:2:"),
      grafts("DateInWords", "2025-06-02", "second of June", "grafted_on"),
      grafts("UnknownMethod", "cleft", "clefft", "cleft"),
      grafts("UnknownSpecies", "apple", "aple", "apple"),
      grafts("UnknownSpot", "apple,cleft,bench", "apple,cleft,bnech", "bench"),
      grafts("UnknownWrap", "film-bud-out", "flim-bud-out", "film-bud-out"),
      grafts("UnknownCover", "clear-bag", "clearbag", "clear-bag"),
      grafts("IdGivenTwice", "R2,", "R1,", "R1"),
      grafts("CountOfNothing", ",5,3", ",5,0", "count"),
      grafts("CountBelowZero", ",5,3", ",5,-3", "count"),
      grafts("PotNotANumber", ",5,3", ",NaN,3", "pot_litres"),
      grafts("PotBeyondNumbers", ",5,3", ",1e400,3", "pot_litres"),
      grafts("QuoteNeverClosed", "R2,", "\"R2,", "grafts.csv:"),
      grafts("FieldOfAMillionCharacters", "apple", std::string(1000000, 'x'), "grafts.csv:"),
      {"GraftsInUtf16", whole("grafts.csv", utf16("id,grafted_on\n")), morning, 65, "UTF-16"},
      {"GraftsEmpty", whole("grafts.csv", ""), morning, 65, "grafts.csv"},
      {"GraftsWithoutMethod", whole("grafts.csv", "id,grafted_on,species\nR1,2025-06-02,apple\n"), morning,
       65, "method"},
      {"GraftsAFolder", made_folder("grafts.csv"), morning, 66, "grafts.csv"},
      {"RowTooLong",
       appended("grafts.csv", "R4,2025-06-05,apple,cleft,bench,film,none,,1,,,,,,,,,,,,,,,,extra\n"), morning,
       65, "grafts.csv:5"},
      {"DiaryUnknownGraft", appended("diary.csv", "2025-06-06T08:00Z,R9,green,,\n"), morning, 65, "R9"},
      {"DiaryUnknownEvent", appended("diary.csv", "2025-06-06T08:00Z,R1,wattered,,\n"), morning, 65,
       "watered"},
      {"DiaryMoreDeadThanThereAre", appended("diary.csv", "2025-06-06T08:00Z,R1,dead,17,\n"), morning, 65,
       "diary.csv:3"},
      {"DiaryTimeThatDoesNotExist", appended("diary.csv", "2025-06-31T08:00Z,R1,green,,\n"), morning, 65,
       "diary.csv:3"},
      {"DiaryShadeBeyondOne", appended("diary.csv", "2025-06-06T08:00Z,R1,shade,7,\n"), morning, 65, "0.95"},
      weather("WeatherNotANumber", "2025-06-02T05:00Z,16.5", "2025-06-02T05:00Z,warm", "log.csv:31"),
      weather("WeatherInfinite", "2025-06-02T05:00Z,16.5", "2025-06-02T05:00Z,inf", "log.csv:31"),
      weather("WeatherBeyondNumbers", "2025-06-02T05:00Z,16.5", "2025-06-02T05:00Z,1e400", "log.csv:31"),
      weather("WeatherUnknownUnit", "[degC]", "[degR]", "log.csv:1"),
      weather("WeatherInLux", "[W m-2]", "[lux]", "lux"),
      weather("WeatherDateThatDoesNotExist", "2025-06-03T00:00Z", "2025-02-30T00:00Z", "log.csv:"),
      {"WeatherFileAbsent", removed(log), morning, 66, "log.csv"},
      {"WeatherFileAFolder", made_folder(log), morning, 66, "log.csv"},
      {"WeatherFileEmpty", whole(log, ""), morning, 65, "log.csv"},
      {"WeatherFileWithANulByte", appended(log, std::string("2025-06-11T00:00Z,1\0,2", 21)), morning, 65,
       "log.csv"},
      {"UnknownCommand", nothing(), {"mornign"}, 2, "morning"},
      {"UnknownOption", nothing(), {"morning", "--hroizon", "3"}, 2, "--horizon"},
      {"TimeThatIsNone", nothing(), {"morning", "--at", "yesterday"}, 2, "--at"},
      {"NoMembers", nothing(), {"morning", "--members", "0"}, 2, "--members"},
      {"SeedInWords", nothing(), {"morning", "--seed", "lucky"}, 2, "--seed"},
      {"NoteOnNobody", nothing(), {"note", "R9", "green"}, 65, "R9"},
      {"NoteOfNothingKnown", nothing(), {"note", "R1", "grene"}, 65, "green"},
      {"NotesFromStandardInputAllOrNone", nothing(), {"note"}, 65, "R77", "R1 green\nR77 green\n"},
      {"SplitMoreThanThereAre", nothing(), {"split", "R1", "9"}, 2, "R1"},
      {"GraftOfUnknownSpecies", nothing(), {"graft", "--species", "aple", "--method", "cleft"}, 65, "apple"},
      {"GraftWithAnIdInUse",
       nothing(),
       {"graft", "--id", "R1", "--species", "apple", "--method", "cleft"},
       65,
       "R1"},
      {"WeatherAddOfNoFile", nothing(), {"weather", "add", "nowhere.csv"}, 66, "nowhere.csv"},
      {"ModelThatIsNone", nothing(), {"models", "show", "aple"}, 2, "apple"},
  };
}

class BadInput : public ::testing::TestWithParam<BadCase> {};

TEST_P(BadInput, IsRefusedWithItsPlaceAndChangesNoFile) {
  const BadCase& bad = GetParam();
  const TemporaryFolder folder;
  write_small_site(folder.path());
  bad.spoil(folder.path());
  const auto before = files_below(folder.path());
  Arguments arguments{"--site", folder.path().string()};
  arguments.insert(arguments.end(), bad.arguments.begin(), bad.arguments.end());
  const CommandOutcome outcome = run_graftcast(arguments, bad.input);
  EXPECT_EQ(outcome.exit_code, bad.exit_code) << outcome.err.substr(0, 400);
  EXPECT_THAT(outcome.err, HasSubstr(bad.fragment)) << outcome.err.substr(0, 400);
  EXPECT_LT(outcome.err.size(), 2000U) << "a long field must be shortened";
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(files_below(folder.path()), before);
}

INSTANTIATE_TEST_SUITE_P(Cases, BadInput, ::testing::ValuesIn(bad_cases()),
                         [](const auto& info) { return info.param.name; });

TEST(OddButGoodInput, WindowsLineEndsAndAByteOrderMarkChangeNothing) {
  const TemporaryFolder plain, odd;
  write_small_site(plain.path());
  write_small_site(odd.path());
  for (const char* file : {"grafts.csv", "diary.csv", "weather/log.csv"}) {
    std::string text = "\xEF\xBB\xBF";
    for (const char c : content_of(odd.path() / file))
      text += c == '\n' ? std::string("\r\n") : std::string(1, c);
    put(odd.path() / file, text);
  }
  const auto of = [](const TemporaryFolder& site) {
    return run_graftcast({"--site", site.path().string(), "--json", "morning", "--at", small_site_morning});
  };
  EXPECT_EQ(of(plain).exit_code, 0);
  EXPECT_EQ(of(plain).out, of(odd).out);
}

TEST(OddButGoodInput, HumidityBeyondLimitsIsSetAsideAndSaid) {
  const TemporaryFolder folder;
  write_small_site(folder.path());
  replaced(log, "2025-06-02T05:00Z,16.5,70", "2025-06-02T05:00Z,16.5,130")(folder.path());
  const CommandOutcome outcome =
      run_graftcast({"--site", folder.path().string(), "morning", "--at", small_site_morning});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(outcome.err, HasSubstr("130"));
}

TEST(OddButGoodInput, NaNInALogIsAHoleAndNeverANumber) {
  // Spreadsheet libraries write NaN for an empty cell: it counts as one, is filled from its neighbours and
  // said.
  const TemporaryFolder folder;
  write_small_site(folder.path());
  replaced(log, "2025-06-02T05:00Z,16.5", "2025-06-02T05:00Z,NaN")(folder.path());
  const CommandOutcome outcome =
      run_graftcast({"--site", folder.path().string(), "--json", "morning", "--at", small_site_morning});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("2025-06-02T05:00:00Z"));
  EXPECT_THAT(outcome.out, HasSubstr("interpolation"));
}

TEST(ErrorsAsJson, NameKindFileLineAndHint) {
  const TemporaryFolder folder;
  write_small_site(folder.path());
  replaced("grafts.csv", "cleft", "clefft")(folder.path());
  const CommandOutcome outcome =
      run_graftcast({"--site", folder.path().string(), "--json", "morning", "--at", small_site_morning});
  EXPECT_EQ(outcome.exit_code, 65);
  for (const char* part : {"\"kind\"", "\"bad-data\"", "\"line\"", "\"hint\"", "\"message\""}) {
    EXPECT_THAT(outcome.err, HasSubstr(part));
  }
}

}  // namespace
}  // namespace graftcast::testing
