// How the program behaves towards terminals, pipes and scripts.

#include <algorithm>
#include <cstdio>
#include <iterator>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "report/text_layout.hpp"
#include "run_shell.hpp"
#include "small_site.hpp"
#include "weather/loopback_server.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::run;
using testing::Said;
using testing::SmallSite;
using ::testing::StartsWith;

void expect_width(const std::string& text, std::size_t width) {
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) EXPECT_LE(display_width(line), width) << line;
}

TEST(Help, IsShortOrLongOnStandardOutput) {
  const Said brief = run({"-h"});
  const Said full = run({"--help"});
  EXPECT_EQ(brief.exit_code, 0);
  EXPECT_EQ(full.exit_code, 0);
  EXPECT_THAT(brief.err, IsEmpty());
  EXPECT_LT(brief.out.size(), full.out.size());
  EXPECT_THAT(full.out, HasSubstr("Exit codes"));
  EXPECT_THAT(brief.out, Not(HasSubstr("--seed")));
}

TEST(Help, OfEveryCommandBeginsWithTwoExamplesAndKeepsItsWidth) {
  for (const cli::CommandSpec& command : cli::all_commands()) {
    EXPECT_EQ(command.examples.size(), 2U) << command.name;
    std::istringstream words(command.name);
    std::vector<std::string> arguments(std::istream_iterator<std::string>(words), {});
    for (const char* flag : {"-h", "--help"}) {
      std::vector<std::string> asked = arguments;
      asked.emplace_back(flag);
      const Said said = run(asked);
      EXPECT_EQ(said.exit_code, 0);
      expect_width(said.out, 130);  // Examples are not broken, so that they can be copied.
      EXPECT_LT(said.out.find("Examples"), said.out.find("\n  -")) << command.name;  // Before any option.
      for (const cli::OptionSpec& option : command.options) {
        EXPECT_THAT(said.out, HasSubstr(option.name));
        const std::size_t longest_line = std::string_view(flag) == "-h" ? 80U : 1000U;
        EXPECT_LT(option.help.size() + 24, longest_line) << option.name;
      }
    }
  }
}

TEST(Help, OfAGroupListsItsCommands) {
  const Said said = run({"weather"});
  EXPECT_EQ(said.exit_code, 2);
  EXPECT_THAT(said.out, IsEmpty());
  EXPECT_THAT(said.err, HasSubstr("weather add"));
  EXPECT_THAT(said.err, Not(HasSubstr("split")));
}

TEST(NoCommand, IsWrongUsageAndShowsTheShortHelp) {
  const Said said = run({});
  EXPECT_EQ(said.exit_code, 2);
  EXPECT_THAT(said.out, IsEmpty());
  EXPECT_THAT(said.err, HasSubstr("morning"));
}

TEST(Version, NamesProgramBuildAndModels) {
  const Said said = run({"--version"});
  EXPECT_EQ(said.exit_code, 0);
  EXPECT_THAT(said.out, StartsWith("graftcast 0."));
  EXPECT_THAT(said.out, HasSubstr("build"));
  EXPECT_THAT(said.out, HasSubstr("species"));
}

TEST(Colour, IsUsedOnlyWhereItIsWanted) {
  const SmallSite site;
  const auto has_colour = [&](std::vector<std::string> words,
                              std::map<std::string, std::string> environment) {
    words.emplace_back("models");
    return site.run(words, {.environment = std::move(environment)}).out.find('\x1b') != std::string::npos;
  };
  EXPECT_FALSE(has_colour({}, {}));  // Standard output is a file here.
  EXPECT_TRUE(has_colour({"--color", "always"}, {}));
  EXPECT_TRUE(
      has_colour({"--color=always"}, {{"NO_COLOR", "1"}}));  // What is asked for outweighs the environment.
  EXPECT_FALSE(has_colour({"--color", "never"}, {}));
}

TEST(Characters, AreAsciiUnlessTheLocaleIsUtf8) {
  const SmallSite site;
  const auto is_ascii = [](const std::string& text) {
    return std::ranges::all_of(text, [](char letter) { return static_cast<unsigned char>(letter) < 0x80; });
  };
  EXPECT_FALSE(is_ascii(site.run({"morning"}).out));
  EXPECT_TRUE(is_ascii(site.run({"morning"}, {.environment = {{"LC_ALL", "C"}}}).out));
  EXPECT_TRUE(is_ascii(site.run({"morning", "--ascii"}).out));
  // Nothing of the program's own is lost with it.
  for (const char* command : {"morning", "since", "spots"})
    EXPECT_THAT(site.run({command, "--ascii"}).out, Not(HasSubstr("?"))) << command;
}

TEST(Width, IsKept) {
  const SmallSite site;
  for (const char* width : {"40", "80", "132"}) {
    expect_width(site.run({"morning", "--width", width}).out, std::stoul(width));
    expect_width(site.run({"since", "--days", "--width", width}).out, std::stoul(width));
    expect_width(site.run({"weather", "show", "--width", width}).out, std::stoul(width));
    expect_width(site.run({"why", "B1", "--days", "--teach", "--width", width}).out, std::stoul(width));
  }
  expect_width(site.run({"morning"}).out, 80);
}

TEST(Width, IsKeptWithNamesOfWideCombiningAndPictureCharacters) {
  const SmallSite site;
  site.replace("grafts.csv", "Millrace", "\u6885\u5e72\u306e\u6728 \U0001f333");
  site.replace("grafts.csv", "Red Pith", "Gru\u0308ner Pfu\u0308rsich \u0e01\u0e33\u0e40\u0e19\u0e34\u0e14");
  site.replace("grafts.csv", "row A", "\u5317\u306e\u7551");
  site.replace("grafts.csv", "D1,", "\u685c1,");
  for (const std::string width : {"60", "80", "140"})
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"morning"},
          {"since"},
          {"why", "B1"},
          {"spots"},
          {"learn", "--try"},
          {"calendar", "--to", (site.path() / (width + ".ics")).string()}}) {
      std::vector<std::string> asked = words;
      asked.insert(asked.end(), {"--width", width});
      const Said said = site.run(asked);
      EXPECT_EQ(said.exit_code, 0) << said.err;
      expect_width(said.out, std::stoul(width));
    }
  EXPECT_THAT(site.run({"since", "\u685c1"}).out, HasSubstr("\u685c1: "));
}

TEST(Progress, IsShownOnATerminalOnlyWhileWorkTakesLong) {
  // The answer comes in two pieces, longer apart than the half second after which something is shown.
  const testing::PlayedAnswer slow{{"HTTP/1.1 500 Sorry\r\nContent-Length: 2\r\n", "\r\nno"},
                                   std::chrono::milliseconds(800)};
  const testing::LoopbackServer server(std::vector<testing::PlayedAnswer>{slow});
  const SmallSite site;
  site.replace(
      "site.json", "\"sources\": [",
      "\"sources\": [{\"service\": \"url\", \"contact\": \"grower@example.org\", \"as\": \"forecast\", "
      "\"base_url\": \"" +
          server.url("/x.csv") + "\"}, ");
  const std::string command = "'" GRAFTCAST_PROGRAM "' --site '" + site.text() + "' weather fetch";
  const Said piped = testing::run_shell(command);
  EXPECT_THAT(piped.err, Not(HasSubstr("asking url")));
  std::filesystem::remove_all(site.path() / "weather" / "cache");  // So that it may be asked again.
  const Said shown = testing::run_shell("script -qec \"" + command + " >out\" /dev/null", site.path());
  EXPECT_THAT(shown.out, HasSubstr("\rgraftcast: asking url, "));
  EXPECT_THAT(shown.out, HasSubstr("\r\x1b[K"));  // Wiped before the answer.
  EXPECT_THAT(site.read("out"), Not(HasSubstr("asking url")));
}

TEST(Units, OfTextAreTheAskedOnes) {
  const SmallSite site;
  const std::string text = site.run({"weather", "show", "--units", "us"}).out;
  EXPECT_THAT(text, HasSubstr("\u00b0F"));
  EXPECT_THAT(text, HasSubstr("mph"));
  EXPECT_EQ(site.run({"weather", "show", "--units", "us", "--json"}).out,
            site.run({"weather", "show", "--json"}).out);
}

TEST(StandardOutput, ThatIsFullIsAWriteError) {
  const Said said = run({"models"}, {.output = "/dev/full"});
  EXPECT_EQ(said.exit_code, 74);
  EXPECT_THAT(said.err, HasSubstr("standard output"));
}

TEST(StandardOutput, ThatNobodyReadsEndsQuietly) {
  // The shell's own pipe: `true` ends at once, and the list of models is larger than a pipe holds.
  FILE* shell =
      ::popen("{ { '" GRAFTCAST_PROGRAM "' models --json 2>&4; echo \"code $?\" >&4; } | true; } 4>&1", "r");
  ASSERT_NE(shell, nullptr);
  std::string heard;
  for (int letter = 0; (letter = std::fgetc(shell)) != EOF;) heard.push_back(static_cast<char>(letter));
  ::pclose(shell);
  EXPECT_EQ(heard, "code 0\n");
}

TEST(Errors, UnderJsonAreOneObjectOnStandardError) {
  const SmallSite site;
  site.replace("grafts.csv", "whip-and-tongue", "whip-and-tung");
  const Said said = site.run({"morning", "--json"});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.out, IsEmpty());
  const auto error = nlohmann::json::parse(said.err);
  EXPECT_EQ(error["schema"], "graftcast/1");
  EXPECT_EQ(error["error"]["kind"], "bad-data");
  EXPECT_EQ(error["error"]["line"], 5);
}

}  // namespace
}  // namespace graftcast
