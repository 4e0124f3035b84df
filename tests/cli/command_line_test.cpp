#include "command_line.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"

namespace graftcast::cli {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// A made-up program: `cut [--deep] WORD...`, `log add FILE`, `log show`, and the option `--at TIME` for all.
class CommandLine : public ::testing::Test {
 protected:
  CommandLine() {
    const auto keep = [this](std::string name) {
      return [this, name](const std::string& text) { taken.push_back(name + '=' + text); };
    };
    options.push_back({"--at", "-a", "TIME", "when", "", "General", keep("at")});
    options.push_back({"--json", "", "", "as JSON", "", "General", keep("json")});
    CommandSpec cut{"cut", "cut it", "", {}, {}, {}, {}};
    cut.options = {{"--deep", "", "", "deeply", "", "Of this command", keep("deep")},
                   {"--by", "", "MM", "how much", "", "Of this command", keep("by")}};
    cut.words = {{"WORD", "what", false, true, keep("word")}};
    CommandSpec add{"log add", "add", "", {}, {}, {}, {}};
    add.words = {{"FILE", "which", true, false, keep("file")}};
    commands = {cut, add, {"log show", "show", "", {}, {}, {}, {}}};
  }

  Request parse(const std::vector<std::string>& arguments) {
    taken.clear();
    return parse_command_line(arguments, commands, options);
  }

  std::string complaint(const std::vector<std::string>& arguments) {
    try {
      parse(arguments);
    } catch (const UsageError& error) {
      return error.what();
    }
    return "no complaint";
  }

  std::vector<OptionSpec> options;
  std::vector<CommandSpec> commands;
  std::vector<std::string> taken;
};

TEST_F(CommandLine, TakesOptionsBeforeAndAfterTheCommand) {
  EXPECT_EQ(parse({"--at", "6", "cut", "--deep", "--json"}).command->name, "cut");
  EXPECT_THAT(taken, ElementsAre("at=6", "json=", "deep="));
  parse({"cut", "a", "--by=-3", "b", "-a", "7"});
  EXPECT_THAT(taken, ElementsAre("at=7", "by=-3", "word=a", "word=b"));
}

TEST_F(CommandLine, FindsCommandsOfTwoWords) {
  EXPECT_EQ(parse({"log", "add", "x.csv"}).command->name, "log add");
  EXPECT_EQ(parse({"log", "show"}).command->name, "log show");
  const Request group = parse({"log"});
  EXPECT_EQ(group.what, Request::What::nothing);
  EXPECT_EQ(group.group, "log");
}

TEST_F(CommandLine, TakesNamesOfCommandsAsWords) {
  EXPECT_EQ(parse({"cut", "log", "show", "cut"}).command->name, "cut");
  EXPECT_THAT(taken, ElementsAre("word=log", "word=show", "word=cut"));
}

TEST_F(CommandLine, TakesWhatBeginsWithADashAfterTwoDashes) {
  parse({"cut", "--", "--deep", "-"});
  EXPECT_THAT(taken, ElementsAre("word=--deep", "word=-"));
}

TEST_F(CommandLine, LetsHelpGoBeforeWhatLacks) {
  EXPECT_EQ(parse({"log", "add", "-h"}).what, Request::What::short_help);
  EXPECT_EQ(parse({"log", "add", "--help"}).command->name, "log add");
  EXPECT_EQ(parse({"--version"}).what, Request::What::version);
  EXPECT_EQ(parse({}).what, Request::What::nothing);
}

TEST_F(CommandLine, OffersTheNearestNames) {
  EXPECT_THAT(complaint({"cutt"}), HasSubstr("there is no command \"cutt\"; did you mean cut"));
  EXPECT_THAT(complaint({"log", "shwo"}), HasSubstr("did you mean show"));
  EXPECT_THAT(complaint({"cut", "--depe"}), HasSubstr("there is no option \"--depe\"; did you mean --deep"));
  EXPECT_THAT(complaint({"cut", "--jsn=1"}), HasSubstr("did you mean --json"));
}

TEST_F(CommandLine, TakesNoAbbreviations) {
  EXPECT_THAT(complaint({"cut", "--dee"}), HasSubstr("there is no option"));
}

TEST_F(CommandLine, ComplainsOfWhatLacksOrIsTooMuch) {
  EXPECT_THAT(complaint({"log", "add"}), HasSubstr("'log add' lacks FILE"));
  EXPECT_THAT(complaint({"log", "add", "a", "b"}), HasSubstr("does not take the word \"b\""));
  EXPECT_THAT(complaint({"log", "show", "b"}), HasSubstr("does not take the word \"b\""));
  EXPECT_THAT(complaint({"cut", "--by"}), HasSubstr("--by"));
  EXPECT_THAT(complaint({"cut", "--json=yes"}), ::testing::Not("no complaint"));
}

}  // namespace
}  // namespace graftcast::cli
