// Every sentence that a person reads comes out of the catalogue: in a made-up language that puts each in
// brackets, no letter stands outside them, save the owner's data and the words of input.

#include <algorithm>
#include <fstream>
#include <functional>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bracket_finder.hpp"
#include "commands.hpp"
#include "graftcast/event.hpp"
#include "parameters/models.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::Said;
using testing::SmallSite;
using testing::words_outside_brackets;

TEST(BracketFinder, FindsWhatStandsOutside) {
  EXPECT_THAT(words_outside_brackets("⟦all⟧ but ⟦this⟧ word.", {}), ElementsAre("but", "word"));
  EXPECT_THAT(words_outside_brackets("⟦the outer ⟦inner⟧ still⟧ after", {}), ElementsAre("after"));
  EXPECT_THAT(words_outside_brackets("⟦over a\n line⟧\nend", {}), ElementsAre("end"));
  EXPECT_THAT(words_outside_brackets("⟦a⟧grün", {}), ElementsAre("grün"));
}

TEST(BracketFinder, LetsDataAndWordsOfInputStand) {
  EXPECT_THAT(words_outside_brackets("graftcast: site.json:3:7: A1 --horizon DAYS 2025-06-09T06:30Z 12.5 km",
                                     {"graftcast", "km"}),
              IsEmpty());
  EXPECT_THAT(words_outside_brackets("graftcast", {}), ElementsAre("graftcast"));
}

TEST(BracketFinder, TellsBracketsThatDoNotMatch) {
  EXPECT_THAT(words_outside_brackets("⟦open", {}), ElementsAre("⟦"));
  EXPECT_THAT(words_outside_brackets("closed⟧", {"closed"}), ElementsAre("⟧"));
}

void add_words(std::set<std::string>& words, const std::string& text) {
  for (std::string& word : testing::words_in(text)) words.insert(std::move(word));
}

/// A table's cells, all but the comment, which is the last.
void add_cells(std::set<std::string>& words, const std::filesystem::path& table) {
  std::ifstream stream(table);
  for (std::string line; std::getline(stream, line);)
    add_words(words, line.substr(0, std::min(line.find('"'), line.rfind(','))));
}

/// What may stand outside: the program and its commands, the owner's names, those of the models and of
/// services, units.
const std::set<std::string>& known_words() {
  static const std::set<std::string> known = [] {
    std::set<std::string> words{"graftcast"};
    add_words(words, "degC degF mm cm m km h min d s kPa kB K");
    for (const cli::CommandSpec& command : cli::all_commands()) add_words(words, command.name);
    for (const std::string& word : event_words()) words.insert(word);
    const KnownNames names = load_models(published_models_folder()).known_names();
    for (const auto* list : {&names.species, &names.methods, &names.wraps, &names.covers})
      words.insert(list->begin(), list->end());
    for (const char* table : {"grafts.csv", "wood.csv"})
      add_cells(words, std::filesystem::path(GRAFTCAST_SOURCE_DIR "/sample_weather/site") / table);
    add_words(words,
              "field south-bench east-wall lath-house packing-room callusing-box Dry Ford nursery invented");
    add_words(words, "met-norway nws open-meteo open-meteo-ensemble open-meteo-archive");
    return words;
  }();
  return known;
}

testing::Surroundings in_brackets(const std::filesystem::path& folder = {}) {
  return {.environment = {{"GRAFTCAST_LANGUAGES", GRAFTCAST_PSEUDO_LANGUAGES}}, .folder = folder};
}

std::vector<std::string> spoken(std::vector<std::string> words) {
  words.insert(words.begin(), {"--language", "brackets"});
  return words;
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const cli::CommandSpec& command : cli::all_commands()) names.push_back(command.name);
  return names;
}

std::vector<std::string> words_of(const std::string& line) {
  std::istringstream stream(line);
  return {std::istream_iterator<std::string>(stream), {}};
}

std::string as_test_name(std::string text) {
  std::ranges::replace_if(
      text, [](unsigned char c) { return std::isalnum(c) == 0; }, '_');
  return text;
}

class HelpInBrackets : public ::testing::TestWithParam<std::string> {};

TEST_P(HelpInBrackets, HasNoLetterOutside) {
  std::set<std::string> known = known_words();
  // Examples are lines of the shell, and what an option takes is a word of input.
  for (const cli::CommandSpec& command : cli::all_commands()) {
    for (const cli::Example& example : command.examples) add_words(known, example.command);
    for (const cli::OptionSpec& option : command.options) add_words(known, option.value);
  }
  for (const char* option : {"-h", "--help"}) {
    std::vector<std::string> words = words_of(GetParam());
    words.emplace_back(option);
    const Said said = testing::run(spoken(words), in_brackets());
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_THAT(said.out, HasSubstr("⟦"));
    EXPECT_THAT(words_outside_brackets(said.out + said.err, known), IsEmpty()) << said.out;
  }
}

std::vector<std::string> pages_of_help() {
  std::vector<std::string> pages = command_names();
  pages.insert(pages.end(), {"", "weather"});
  return pages;
}

INSTANTIATE_TEST_SUITE_P(Of, HelpInBrackets, ::testing::ValuesIn(pages_of_help()),
                         [](const auto& given) { return "page_" + as_test_name(given.param); });

struct Mistake {
  std::string name;
  std::vector<std::string> words;
  std::function<void(const SmallSite&)> spoil = [](const SmallSite&) {};
  std::string input = {};
};

void PrintTo(const Mistake& mistake, std::ostream* stream) {
  *stream << mistake.name;
}

auto replaced(std::string file, std::string from, std::string to) {
  return [=](const SmallSite& site) { site.replace(file, from, to); };
}

const std::vector<Mistake>& mistakes() {
  static const std::vector<Mistake> all{
      {"unknown_command", {"mornig"}},
      {"unknown_option", {"morning", "--horizn", "3"}},
      {"word_too_many", {"morning", "quickly"}},
      {"word_missing", {"split", "A1"}},
      {"value_missing", {"morning", "--horizon"}},
      {"value_not_a_number", {"morning", "--horizon", "soon"}},
      {"unknown_unit_system", {"morning", "--units", "roman"}},
      {"wrong_day", {"weather", "show", "--from", "tomorrow"}},
      {"wrong_time", {"morning", "--at", "noon"}},
      {"unknown_graft", {"since", "Z9"}},
      {"unknown_model", {"models", "show", "unicorn"}},
      {"no_site",
       {"morning"},
       [](const SmallSite& site) { std::filesystem::remove(site.path() / "site.json"); }},
      {"latitude", {"morning"}, replaced("site.json", "40.9", "95")},
      {"text_for_number", {"morning"}, replaced("site.json", "0.4", "\"0.4\"")},
      {"unknown_zone", {"morning"}, replaced("site.json", "Europe/Madrid", "Europe/Madird")},
      {"unknown_key", {"morning"}, replaced("site.json", "elevation_m", "elevaton_m")},
      {"source_outside", {"morning"}, replaced("site.json", "weather/station.csv", "../station.csv")},
      {"no_such_day", {"morning"}, replaced("grafts.csv", "2025-06-08", "2025-02-30")},
      {"unknown_species", {"morning"}, replaced("grafts.csv", "apple", "aple")},
      {"column_missing", {"morning"}, replaced("grafts.csv", "grafted_on", "made_on")},
      {"log_missing",
       {"morning"},
       [](const SmallSite& site) { std::filesystem::remove(site.path() / "weather/station.csv"); }},
      {"note_unknown_event", {"note", "A1", "watred"}},
      {"note_unknown_graft", {"note", "Z9", "watered"}},
      {"note_without_event", {"note", "A1"}},
      {"notes_too_many_taken", {"note"}, [](const SmallSite&) {}, "A1 taken 4000\n"},
      {"new_without_place", {"new", "elsewhere"}},
      {"split_too_many", {"split", "A1", "4000"}},
      {"add_nothing", {"weather", "add", "none.csv"}},
      {"file_of_no_headers",
       {"weather", "add", "notes.csv"},
       [](const SmallSite& site) { site.write("notes.csv", "a,b\n1,2\n"); }},
      {"fetch_without_service", {"weather", "fetch"}},
      {"unknown_service", {"weather", "fetch", "--dry-run", "met-norwey"}},
      {"labels_size", {"labels", "--size", "wide"}},
  };
  return all;
}

class MistakeInBrackets : public ::testing::TestWithParam<Mistake> {};

TEST_P(MistakeInBrackets, IsToldWithNoLetterOutside) {
  const SmallSite site;
  GetParam().spoil(site);
  testing::Surroundings surroundings = in_brackets(site.path());
  surroundings.input = GetParam().input;
  const Said said = testing::run(spoken(GetParam().words), surroundings);
  EXPECT_NE(said.exit_code, 0);
  EXPECT_THAT(said.err, HasSubstr("⟦"));
  EXPECT_THAT(words_outside_brackets(said.err, known_words()), IsEmpty()) << said.err;
}

INSTANTIATE_TEST_SUITE_P(Of, MistakeInBrackets, ::testing::ValuesIn(mistakes()),
                         [](const auto& given) { return given.param.name; });

/// A line of the shell, run in a copy of the sample site, and what may stand in its answer besides.
struct Line {
  std::string words, besides = {};
};

void PrintTo(const Line& line, std::ostream* stream) {
  *stream << line.words;
}

const std::vector<Line> lines{
    {"--version", "fmt"},
    {"note C2 watered --at 2025-06-09T06:30"},
    {"split C1 4 --at 2025-06-09T06:30"},
    {"new roof --latitude -34.9 --longitude 138.6 --elevation 48 --time-zone Australia/Adelaide", "roof"},
    // The command that adds it, and the entry in site.json, with the file's own headers.
    {"weather add loggers/gate_export.csv --propose",
     "file columns column unit time When Temp Rain Hum Wind inch in mph"},
    {"weather fetch --dry-run nws open-meteo met-norway", "User-Agent Accept https precipitation"},
    {"models check"},
};

class LineInBrackets : public ::testing::TestWithParam<Line> {};

TEST_P(LineInBrackets, IsAnsweredWithNoLetterOutside) {
  const testing::TemporaryFolder folder;
  const std::filesystem::path site = folder.path() / "site";
  std::filesystem::copy(GRAFTCAST_SOURCE_DIR "/sample_weather/site", site,
                        std::filesystem::copy_options::recursive);
  std::vector<std::string> words = words_of(GetParam().words);
  words.insert(words.begin(), {"--members", "8"});
  const Said said = testing::run(spoken(words), in_brackets(site));
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("⟦"));
  std::set<std::string> known = known_words();
  add_words(known, GetParam().besides);
  EXPECT_THAT(words_outside_brackets(said.out + said.err, known), IsEmpty()) << said.out << said.err;
}

INSTANTIATE_TEST_SUITE_P(Of, LineInBrackets, ::testing::ValuesIn(lines),
                         [](const auto& given) { return as_test_name(given.param.words); });

TEST(JsonInAnyLanguage, IsEnglish) {
  const SmallSite site;
  const Said english = site.run({"morning", "--json"});
  std::vector<std::string> words = spoken({"morning", "--json"});
  const Said said = site.run(words, in_brackets());
  EXPECT_EQ(said.out, english.out);
  const Said mistake = testing::run(spoken({"mornig", "--json"}), in_brackets());
  EXPECT_EQ(mistake.err, testing::run({"mornig", "--json"}).err);
  EXPECT_THAT(mistake.err, HasSubstr("there is no command"));
}

TEST(Language, OfTheEnvironmentIsSpokenToo) {
  testing::Surroundings surroundings = in_brackets();
  surroundings.environment["LC_ALL"] = "";
  surroundings.environment["LC_CTYPE"] = "C.UTF-8";
  surroundings.environment["LC_MESSAGES"] = "brackets.UTF-8";
  EXPECT_THAT(testing::run({"-h"}, surroundings).out, HasSubstr("⟦"));
  EXPECT_THAT(testing::run({"-h", "--language", "en"}, surroundings).out, ::testing::Not(HasSubstr("⟦")));
  surroundings.environment["LC_MESSAGES"] = "xx.UTF-8";
  const Said unknown = testing::run({"-h"}, surroundings);
  EXPECT_EQ(unknown.exit_code, 0);
  EXPECT_THAT(unknown.err, IsEmpty());
}

TEST(Language, ThatIsNotThereIsAnErrorWithThoseThatAre) {
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"morning", "--language", "xx"}, {"--language=xx", "--help"}}) {
    const Said said = testing::run(words, in_brackets());
    EXPECT_EQ(said.exit_code, 2);
    EXPECT_THAT(said.out, IsEmpty());
    EXPECT_THAT(said.err, HasSubstr("there is no language \"xx\"; give one of: en, brackets"));
  }
}

}  // namespace
}  // namespace graftcast
