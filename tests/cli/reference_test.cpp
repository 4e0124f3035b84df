// What teaches the program: examples that run, manual pages without a fault, completion in three shells, and
// the nearest name beside a wrong one.

#include <algorithm>
#include <sstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "commands.hpp"
#include "completions.hpp"
#include "global_options.hpp"
#include "parameters/models.hpp"
#include "reference_pages.hpp"
#include "run_shell.hpp"
#include "small_site.hpp"
#include "version.hpp"

namespace graftcast {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::run_shell;
using testing::Said;
using testing::SmallSite;
using testing::TemporaryFolder;

class ExamplesOf : public ::testing::TestWithParam<std::string> {};

TEST_P(ExamplesOf, RunOnTheSampleSite) {
  const TemporaryFolder folder;
  const std::filesystem::path site = folder.path() / "site";
  std::filesystem::copy(GRAFTCAST_SOURCE_DIR "/sample_weather/site", site,
                        std::filesystem::copy_options::recursive);
  const auto commands = cli::all_commands();
  const auto command = std::ranges::find(commands, GetParam(), &cli::CommandSpec::name);
  ASSERT_NE(command, commands.end());
  EXPECT_EQ(command->examples.size(), 2U);
  for (const cli::Example& example : command->examples) {
    const Said said = run_shell("PATH='" + std::filesystem::path(GRAFTCAST_PROGRAM).parent_path().string() +
                                    "':$PATH; export PATH; " + example.command,
                                site);
    EXPECT_EQ(said.exit_code, 0) << example.command << '\n' << said.err;
    EXPECT_TRUE(!said.out.empty() || example.command.find('>') != std::string::npos) << example.command;
  }
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const cli::CommandSpec& command : cli::all_commands()) names.push_back(command.name);
  return names;
}

INSTANTIATE_TEST_SUITE_P(Help, ExamplesOf, ::testing::ValuesIn(command_names()), [](const auto& given) {
  std::string name = given.param;
  std::ranges::replace(name, ' ', '_');
  return name;
});

/// Manual pages and completions in a folder of their own.
class Reference : public ::testing::Test {
 protected:
  std::vector<cli::OptionSpec> globals() { return cli::global_option_specs(options_); }

  cli::GlobalOptions options_;
  const std::vector<cli::CommandSpec> commands_ = cli::all_commands();
  const TemporaryFolder folder_;
};

bool is_installed(const std::string& program) {
  return run_shell("command -v " + program).exit_code == 0;
}

TEST_F(Reference, OfEveryCommandIsAManualPageWithoutAFault) {
  const auto pages = cli::manual_pages(commands_, globals(), "graftcast 1.2.3", "2025-06-09");
  EXPECT_EQ(pages.size(), commands_.size() + 1);
  for (const auto& [name, page] : pages) {
    folder_.write(name, page);
    EXPECT_THAT(page, HasSubstr(" 1 2025-06-09 \"graftcast 1.2.3\"")) << name;
  }
  for (const cli::CommandSpec& command : commands_) {
    std::string name = "graftcast-" + command.name + ".1";
    std::ranges::replace(name, ' ', '-');
    ASSERT_TRUE(pages.contains(name)) << name;
    for (const cli::OptionSpec& option : command.options) {
      std::string escaped;
      for (const char letter : option.name) escaped += letter == '-' ? "\\-" : std::string(1, letter);
      EXPECT_THAT(pages.at(name), HasSubstr("\\fB" + escaped + "\\fR"));
    }
  }
  if (!is_installed("mandoc")) GTEST_SKIP() << "no mandoc here";
  const Said lint = run_shell("mandoc -T lint -W warning *.1", folder_.path());
  EXPECT_EQ(lint.exit_code, 0);
  EXPECT_THAT(lint.out, IsEmpty());
  const Said shown = run_shell("mandoc -T utf8 graftcast-note.1 | col -b", folder_.path());
  EXPECT_THAT(shown.out, HasSubstr("printf 'A1 green 36\\nC1 watered 1\\n' | graftcast note"));
}

/// Commands under EXAMPLES of a manual page, as a reader sees them.
std::vector<std::string> examples_in(const std::string& page) {
  std::vector<std::string> commands;
  std::istringstream stream(page.substr(page.find(".SH EXAMPLES")));
  for (std::string line; std::getline(stream, line);) {
    if (line.starts_with(".SH") && line != ".SH EXAMPLES") break;
    if (!line.starts_with("\\fB") || !line.ends_with("\\fR")) continue;
    line = line.substr(3, line.size() - 6);
    for (std::size_t at = 0; (at = line.find('\\', at)) != std::string::npos; ++at)
      line.replace(at, 2, line[at + 1] == 'e' ? "\\" : line.substr(at + 1, 1));
    commands.push_back(line);
  }
  return commands;
}

TEST_F(Reference, ShowsInTheManualTheExamplesThatRun) {
  const auto pages = cli::manual_pages(commands_, globals(), "graftcast 1.2.3", "2025-06-09");
  for (const cli::CommandSpec& command : commands_) {
    std::string name = "graftcast-" + command.name + ".1";
    std::ranges::replace(name, ' ', '-');
    std::vector<std::string> tried;
    for (const cli::Example& example : command.examples) tried.push_back(example.command);
    EXPECT_EQ(examples_in(pages.at(name)), tried) << name;
  }
}

// Those of the help as a whole, run beside a copy of the sample site under their own name for it.
TEST(Help, HasExamplesThatRun) {
  const TemporaryFolder folder;
  for (const char* const name : {".", "nursery"}) {
    std::filesystem::copy(GRAFTCAST_SOURCE_DIR "/sample_weather/site", folder.path() / name,
                          std::filesystem::copy_options::recursive);
  }
  std::istringstream help(testing::run({"--help"}).out);
  int examples = 0;
  for (std::string line; std::getline(help, line);) {
    if (!line.starts_with("  graftcast ")) continue;
    const std::string program = std::filesystem::path(GRAFTCAST_PROGRAM).parent_path().string();
    const Said said = run_shell("PATH='" + program + "':$PATH; export PATH; " + line, folder.path());
    EXPECT_EQ(said.exit_code, 0) << line << '\n' << said.err;
    ++examples;
  }
  EXPECT_EQ(examples, 2);
}

TEST_F(Reference, IsOfTheDayOfItsSource) {
  EXPECT_TRUE(parse_day(cli::program_date()).has_value()) << cli::program_date();
}

constexpr const char* hostile_id = "A$(touch${IFS}pwned)`touch${IFS}pwned`'";

/// A shell and how it is asked what it offers for the last of `words`.
struct Shell {
  std::string name;
  std::string file;
  /// The words are put for @words@, one quoted for each; their number less one for @last@.
  std::string script;
};

class Completion : public Reference, public ::testing::WithParamInterface<Shell> {
 protected:
  void SetUp() override {
    if (!is_installed(GetParam().name)) GTEST_SKIP() << "no " << GetParam().name << " here";
    folder_.write("bash", cli::bash_completion(commands_, globals()));
    folder_.write("zsh/_graftcast", cli::zsh_completion(commands_, globals()));
    folder_.write("fish", cli::fish_completion(commands_, globals()));
    site_.replace("grafts.csv", "B1,", std::string(hostile_id) + ",");
  }

  /// What is offered for the last of `words`, within the site's folder.
  std::vector<std::string> offered(const std::vector<std::string>& words) const {
    std::string script = GetParam().script;
    const auto put = [&](const std::string& place, const std::string& text) {
      script.replace(script.find(place), place.size(), text);
    };
    std::string quoted;
    for (const std::string& word : words) quoted += (quoted.empty() ? "" : " ") + ("'" + word + "'");
    put("@file@", (folder_.path() / GetParam().file).string());
    if (script.find("@words@") != std::string::npos) put("@words@", quoted);
    if (script.find("@last@") != std::string::npos) put("@last@", std::to_string(words.size() - 1));
    if (script.find("@line@") != std::string::npos) put("@line@", fmt::format("{}", fmt::join(words, " ")));
    folder_.write("ask", script);
    const Said said =
        run_shell(fmt::format("{} '{}'", starter(), (folder_.path() / "ask").string()), site_.path());
    EXPECT_THAT(said.err, IsEmpty());
    std::vector<std::string> lines;
    std::istringstream stream(said.out);
    for (std::string line; std::getline(stream, line);) lines.push_back(line.substr(0, line.find('\t')));
    EXPECT_FALSE(std::filesystem::exists(site_.path() / "pwned"));
    return lines;
  }

  std::string starter() const {
    if (GetParam().name == "bash") return "bash --norc --noprofile";
    return GetParam().name == "zsh" ? "zsh -f" : "HOME=/nonexistent fish --no-config";
  }

  SmallSite site_;
};

TEST_P(Completion, OffersCommands) {
  for (const cli::CommandSpec& command : commands_) {
    const std::size_t blank = command.name.find(' ');
    EXPECT_THAT(offered({"graftcast", command.name.substr(0, 2)}), Contains(command.name.substr(0, blank)));
    if (blank == std::string::npos) continue;
    EXPECT_THAT(offered({"graftcast", command.name.substr(0, blank), ""}),
                Contains(command.name.substr(blank + 1)));
  }
  EXPECT_THAT(offered({"graftcast", "--site", "elsewhere", "mor"}), Contains("morning"));
}

TEST_P(Completion, OffersTheOptionsOfTheCommandAndThoseOfAll) {
  EXPECT_THAT(offered({"graftcast", "when", "--se"}), AllOf(Contains("--season"), Contains("--seed")));
  EXPECT_THAT(offered({"graftcast", "weather", "show", "--qu"}), Contains("--quality"));
  EXPECT_THAT(offered({"graftcast", "morning", "--qu"}), Not(Contains("--quality")));
}

TEST_P(Completion, OffersTheIdsOfGraftsAsTheyAre) {
  for (const char* command : {"since", "why", "note", "split", "labels"}) {
    const auto ids = offered({"graftcast", command, ""});
    EXPECT_THAT(ids, AllOf(Contains("A1"), Contains("C1"), Contains("D1"))) << command;
    EXPECT_THAT(ids, Not(Contains("id")));
  }
  EXPECT_THAT(offered({"graftcast", "since", "A"}), Contains(::testing::HasSubstr("touch")));
  EXPECT_THAT(offered({"graftcast", "morning", ""}), Not(Contains("A1")));
}

TEST_P(Completion, TakesGraftsFromTheSiteThatIsNamed) {
  site_.write("other/grafts.csv", "\"id\",grafted_on\r\nZ9,2025-06-01\r\n");
  const auto ids = offered({"graftcast", "--site", "other", "since", ""});
  EXPECT_THAT(ids, Contains("Z9"));
  EXPECT_THAT(ids, Not(Contains("A1")));
}

INSTANTIATE_TEST_SUITE_P(
    Shells, Completion,
    ::testing::Values(Shell{"bash", "bash",
                            "source '@file@'\nCOMP_WORDS=(@words@)\nCOMP_CWORD=@last@\n_graftcast\n"
                            "if ((${#COMPREPLY[@]})); then printf '%s\\n' \"${COMPREPLY[@]}\"; fi\n"},
                      // What the completion system would do with the choices is to filter them.
                      Shell{
                          "zsh", "zsh/_graftcast",
                          "compadd() {\n  local -a all\n  if [[ $1 == -a ]]; then all=(${(P)2}); else shift; "
                          "all=($@); fi\n  print -rl -- ${(M)all:#${(b)words[CURRENT]}*}\n}\n_files() { }\n"
                          "complete_it() {\n  local -a words=(@words@)\n  local CURRENT=${#words}\n"
                          "  source '@file@'\n}\ncomplete_it | grep .\n"},
                      Shell{"fish", "fish", "source '@file@'\ncomplete -C '@line@'\n"}),
    [](const auto& given) { return given.param.name; });

TEST(NearestName, IsOfferedBesideAWrongOne) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  struct Slip {
    std::vector<std::string> words;
    std::string meant;
  };
  const std::vector<Slip> slips{
      {{"mornig"}, "morning"},
      {{"weather", "shw"}, "show"},
      {{"morning", "--horizn", "3"}, "--horizon"},
      {{"calendar", "--too", "x.ics"}, "--to"},
      {{"since", "A2"}, "A1"},
      {{"why", "B2"}, "B1"},
      {{"labels", "D2"}, "D1"},
      {{"note", "C2", "watered"}, "C1"},
      {{"note", "C1", "watred"}, "watered"},
      {{"split", "A3", "2"}, "A1"},
      {{"graft", "--species", "aple", "--method", "cleft"}, "apple"},
      {{"graft", "--species", "apple", "--method", "clefft"}, "cleft"},
      {{"graft", "--species", "apple", "--method", "cleft", "--cover", "clear-bagg"}, "clear-bag"},
      {{"graft", "--species", "apple", "--method", "cleft", "--spot", "bensh"}, "bench"},
      {{"graft", "--species", "apple", "--method", "cleft", "--wrap", "fim"}, "film"},
      {{"when", "--species", "citrs", "--method", "chip"}, "citrus"},
      {{"when", "--species", "citrus", "--method", "chp"}, "chip"},
      {{"when", "--species", "citrus", "--method", "chip", "--cover", "clear-bg"}, "clear-bag"},
      {{"when", "--species", "citrus", "--method", "chip", "--spot", "bensh"}, "bench"},
      {{"models", "show", "avocadoo"}, "avocado"},
  };
  for (const Slip& slip : slips) {
    const Said said = site.run(slip.words);
    EXPECT_THAT(said.exit_code, ::testing::AnyOf(2, 65)) << slip.meant;
    EXPECT_THAT(said.out, IsEmpty());
    EXPECT_THAT(said.err, HasSubstr("did you mean " + slip.meant));
  }
  // Services are asked as of now, whatever the moment of the other answers.
  EXPECT_THAT(testing::run({"--site", site.text(), "weather", "fetch", "--dry-run", "met-norwey"}).err,
              HasSubstr("did you mean met-norway"));
  EXPECT_EQ(site.fingerprint(), before);
}

}  // namespace
}  // namespace graftcast
