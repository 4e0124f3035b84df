// What the loader of models says of a wrong file: where, what, and what would be right.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "graftcast/error.hpp"
#include "parameters/models.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;
using testing::TemporaryFolder;

const std::filesystem::path published = GRAFTCAST_SOURCE_DIR "/models";

// The message with the folder cut from the front, and the exit code in front of that.
std::string fault_of(std::string_view text) {
  const TemporaryFolder folder;
  folder.write("own.json", text);
  try {
    load_models(published, folder.path());
  } catch (const Error& error) {
    std::string message = error.what();
    const std::string prefix = folder.path().string() + "/";
    if (message.starts_with(prefix)) message.erase(0, prefix.size());
    return std::to_string(error.exit_code()) + " " + message;
  }
  return "no error";
}

// A file with one entry of `section` on its second line, which `body` fills.
std::string entry(const std::string& section, const std::string& body) {
  return "{\"format\": 1, \"" + section + "\": [\n{" + body + "}]}\n";
}

// An override of one number of apple.
std::string apple_days(const std::string& number) {
  return entry("species", R"("name": "apple", "numbers": {"bridge_days": )" + number + "}");
}

// A cold table of one row.
std::string cold_table(const std::string& from, const std::string& t10, const std::string& t90) {
  const std::string rest = R"("unit": "degC", "low": -40, "high": 0, "source": "own orchard", "grade": "B"})";
  return entry("cold_tables", R"("name": "apple", "rows": [{"stage": "any", "bud_stage_from": )" + from +
                                  R"(, "t10_c": {"value": )" + t10 + ", " + rest + R"(, "t90_c": )" + t90 +
                                  ", " + rest + "}]");
}

struct Case {
  const char* what;
  std::string text;  ///< `@` stands where the fault is to be found, and is taken out before reading.
  const char* message;
};

std::vector<Case> wrong_files() {
  return {
      {"an empty file", "@", "not valid JSON"},
      {"a cut-off file", "{\"format\": 1, \"species\": [@", "not valid JSON"},
      {"a list instead of an object", "@[]", "the file is a list; use an object in { }"},
      {"a file without a format", "@{\"species\": []}", "has no \"format\""},
      {"a newer format", "{\"format\": @2}", "format 2 is newer than this program knows"},
      {"an impossible format", "{\"format\": @0}", "format is 0; use 1"},
      {"an unknown section", "{\"format\": 1, \"specie\": @[]}", "did you mean species"},
      {"a section that is no list", "{\"format\": 1, \"species\": @{}}",
       "species is an object; use a list in [ ]"},
      {"an entry that is no object", "{\"format\": 1, \"species\": [@3]}",
       "is a number; use an object in { }"},
      {"an entry without a name", "{\"format\": 1, \"species\": [@{\"title\": \"x\"}]}", "has no \"name\""},
      {"a name with a blank", entry("species", R"("name": @"my apple")"),
       "use small letters, digits and hyphens"},
      {"an unknown key of an entry", entry("species", R"("name": "apple", "number": @{})"),
       "did you mean numbers"},
      {"an unknown number", entry("species", R"("name": "apple", "numbers": {"bridge_day": @{}})"),
       "did you mean bridge_days"},
      {"an unknown word", entry("species", R"("name": "apple", "words": {"grows": @"up"})"),
       "did you mean growth"},
      {"a word that is no choice", entry("species", R"("name": "apple", "words": {"bleeds": @"often"})"),
       "bleeds is 'often'; known: yes, no"},
      {"a word that is a number", entry("species", R"("name": "apple", "words": {"bleeds": @1})"),
       "bleeds is a number; use a text in quotes"},
      {"a number without its braces", apple_days("@12"), "bridge_days is a number; use an object in { }"},
      {"a value in quotes", apple_days(R"({"value": @"12"})"),
       "value is a text; use a number without quotes"},
      {"a value that is nothing", apple_days(R"({"value": @null})"),
       "value is null; use a number without quotes"},
      {"a value beyond its range", apple_days(R"({"value": @40})"), "bridge_days is 40, outside its range"},
      {"low above high", apple_days(R"({"low": @20, "high": 8})"), "low 20 is above high 8"},
      {"another unit", apple_days(R"({"value": 12, "unit": @"h"})"), "unit of bridge_days is 'h'; use 'd'"},
      {"a grade D", apple_days(R"({"value": 12, "grade": @"D"})"), "grade is 'D'; use A, B or C"},
      {"a blank source", apple_days(R"({"value": 12, "source": @"  "})"), "source is empty"},
      {"an unknown spread", apple_days(R"({"spread": @"flat"})"), "use normal, lognormal or none"},
      {"a spread without its sd", apple_days(R"({"spread": "normal", "sd": @0})"), "use an sd above zero"},
      {"a negative sd", apple_days(R"({"sd": @-0.2})"), "use an sd above zero"},
      {"a range that touches zero", apple_days(R"({"low": @0})"), "use a low above zero"},
      {"a range beyond the unit", apple_days(R"({"high": @4000})"), "use a range within 0 to 400 d"},
      {"an unknown part of a number", apple_days(R"({"valeu": @12})"), "did you mean value"},
      {"a value too large for a number", apple_days(R"({"value": 1e40@0})"), "not valid JSON"},
      {"a key given twice", apple_days(R"({"value": 12, @"value": 13})"), "given twice"},
      {"an entry given twice", entry("species", R"("name": "apple"}, {"name": @"apple")"),
       "species has 'apple' twice"},
      {"an optimum below the lower limit",
       entry("species",
             R"(@"name": "apple", "numbers": {"callus_optimum_c": {"value": 6, "low": 4, "high": 9}})"),
       "callus_optimum_c at least 6 above callus_lower_c"},
      {"vessels before the bridge",
       entry("species", R"(@"name": "apple", "numbers": {"bridge_days": {"value": 19}})"),
       "vascular_days at least 0.5 above"},
      {"a second season without its end",
       entry("species", R"(@"name": "mango", "numbers": {"second_window_start_doy_north": {"value": 200,
             "unit": "day of year", "low": 190, "high": 210, "source": "own notes", "grade": "C"}})"),
       "has only one of second_window_start_doy_north and second_window_end_doy_north"},
      {"a new species that is not like another", entry("species", R"(@"name": "crab", "title": "Crab")"),
       "lacks the word \"scion_state\""},
      {"a new species without numbers",
       entry("species",
             R"(@"name": "crab", "title": "Crab", "words": {"scion_state": "dormant", "growth": "deciduous",
             "bleeds": "no", "cold_table": "apple", "climate": "temperate", "quarantine": ""})"),
       "lacks the number \"callus_lower_c\" [degC]"},
      {"a species like none", entry("species", R"("name": "crab", "like": @"appel")"), "did you mean apple"},
      {"a known species that is like another", entry("species", R"("name": "pear", "like": @"apple")"),
       "'pear' is there already"},
      {"an unknown cold table", entry("species", R"("name": "apple", "words": {"cold_table": @"appel"})"),
       "cold_table names no 'appel'; did you mean apple"},
      {"an unknown usual wrap", entry("methods", R"("name": "cleft", "words": {"usual_wrap": @"filn"})"),
       "did you mean film"},
      {"an unknown usual cover",
       entry("methods", R"("name": "cleft", "words": {"usual_cover": @"clear-bog"})"),
       "did you mean clear-bag"},
      {"an unknown group of constants", entry("shared", R"("name": @"climat")"), "did you mean climate"},
      {"limits of the drying day in the wrong order",
       entry("hazards",
             R"(@"name": "drying-day", "numbers": {"fresh_share_per_day": {"value": 0.3, "high": 0.4}})"),
       "callusing_share_per_day at least 0 above fresh_share_per_day"},
      {"a cold table that begins late", cold_table("@0.5", "-10", R"({"value": -20)"), "0 in the first row"},
      {"a cold table upside down", cold_table("0", "-20", R"(@{"value": -10)"), "t90_c colder than t10_c"},
      {"a cold table without rows", entry("cold_tables", R"("name": "apple", "rows": @[])"), "has no rows"},
  };
}

struct Marked {
  std::string text, place;
};

// The text without its `@`, and the place where that stood.
Marked unmarked(std::string text) {
  const auto at = text.find('@');
  // The brace of an entry is where its position is, one letter before its first key.
  const bool entry_start =
      at != std::string::npos && at > 0 && text[at - 1] == '{' && text.substr(at + 1, 6) == "\"name\"";
  text.erase(at, 1);
  const auto fault = entry_start ? at - 1 : at;
  const auto line_start = fault == 0 ? std::string::npos : text.rfind('\n', fault - 1);
  const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(fault), '\n');
  const auto column = line_start == std::string::npos ? fault + 1 : fault - line_start;
  return {text, "own.json:" + std::to_string(line) + ":" + std::to_string(column) + ":"};
}

TEST(WrongModelFiles, AreRefusedWithPlaceAndRemedy) {
  for (const auto& wrong : wrong_files()) {
    const auto marked = unmarked(wrong.text);
    const auto fault = fault_of(marked.text);
    EXPECT_THAT(fault, StartsWith("65 " + marked.place)) << wrong.what;
    EXPECT_THAT(fault, HasSubstr(wrong.message)) << wrong.what;
  }
}

TEST(WrongModelFiles, AreRefusedWhenThePublishedFolderIsNotThere) {
  const TemporaryFolder folder;
  EXPECT_THROW(load_models(folder.path() / "absent"), OpenError);
}

TEST(WrongModelFiles, AreRefusedWhenAPublishedFileIsMissing) {
  const TemporaryFolder folder;
  for (const auto* name : {"species.json", "methods.json", "covers.json", "union.json"})
    std::filesystem::copy_file(published / name, folder.path() / name);
  try {
    load_models(folder.path());
    FAIL() << "no error";
  } catch (const DataError& error) {
    EXPECT_THAT(error.what(), HasSubstr("hazards has no entry 'heat-day'; use a complete folder of models"));
  }
}

TEST(WrongModelFiles, AreRefusedWhenAFolderBearsTheNameOfAFile) {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder.path() / "own.json");
  EXPECT_THROW(load_models(published, folder.path()), OpenError);
}

TEST(WrongModelFiles, AreRefusedWhenTwoFilesOfAFolderGiveTheSameEntry) {
  const TemporaryFolder folder;
  folder.write("a.json", entry("species", R"("name": "apple")"));
  folder.write("b.json", entry("species", R"("name": "apple")"));
  try {
    load_models(published, folder.path());
    FAIL() << "no error";
  } catch (const DataError& error) {
    EXPECT_THAT(error.what(), HasSubstr("b.json:2:10: species has 'apple' twice"));
  }
}

}  // namespace
}  // namespace graftcast
