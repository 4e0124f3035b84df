// kill -9 at the system calls of every command that writes. Sampled at the calls that change files and at
// some others; at all of them with GRAFTCAST_ALL_FAULTS in the environment.

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "writing_commands.hpp"

namespace graftcast {
namespace {

using testing::Fault;
using ::testing::IsEmpty;
using testing::Stage;
using testing::SystemCall;
using testing::Traced;
using testing::Tree;
using testing::WritingCommand;

bool tries_all() {
  return std::getenv("GRAFTCAST_ALL_FAULTS") != nullptr;
}

/// At which calls to kill: between two changes of files nothing on the disk differs.
std::vector<std::size_t> chosen_calls(const std::vector<SystemCall>& calls) {
  constexpr std::size_t step = 601, most_changes = 6;
  const auto changes = static_cast<std::size_t>(std::ranges::count_if(calls, testing::changes_a_file));
  const std::size_t change_step = changes / most_changes + 1;
  std::vector<std::size_t> chosen;
  for (std::size_t k = 0, change = 0; k < calls.size(); ++k) {
    const bool is_chosen_change = calls[k].is_change && change++ % change_step == 0;
    if (tries_all() || is_chosen_change || k % step == step - 1 || k + 1 == calls.size()) chosen.push_back(k);
  }
  return chosen;
}

/// The same for two trees that differ only in the numbers of processes.
Tree without_leftovers(const Stage& stage, Tree tree) {
  std::string last;
  for (const std::string& path : stage.leftovers(tree)) {
    last += '|' + tree.at(path);
    tree.erase(path);
  }
  tree["leftovers"] = last;
  return tree;
}

/// After the kill every command reads the site, and the same command again does what it was to do.
void expect_goes_on(const Stage& stage, const Tree& broken_off) {
  const testing::Said read = stage.run({"since", "--json"});
  EXPECT_EQ(read.exit_code, 0) << read.err;
  const Traced again = stage.play();
  const bool was_done_before = stage.is_done(broken_off) && again.said.exit_code == 2;
  EXPECT_TRUE(again.said.exit_code == 0 || was_done_before) << again.said.exit_code << again.said.err;
  const Tree tree = stage.tree();
  if (again.said.exit_code == 0) {
    EXPECT_THAT(stage.leftovers(tree), IsEmpty());
  }
  for (const auto& [path, content] : broken_off) {
    if (path == "site/diary.csv") {
      EXPECT_TRUE(testing::keeps_every_line(tree.at(path), content)) << path;
    }
  }
  for (const auto& [path, content] : stage.after()) {
    if (!path.ends_with("past/") && path.find("past/") != std::string::npos) continue;
    EXPECT_TRUE(tree.contains(path)) << path;
  }
}

class Killed : public ::testing::TestWithParam<std::size_t> {
 protected:
  const WritingCommand& command() const { return testing::writing_commands()[GetParam()]; }
};

TEST_P(Killed, AtASystemCallLosesNothingAndLeavesNothingOnceRepeated) {
  if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  const Stage stage(command());
  const std::vector<SystemCall> calls = stage.play().calls;
  std::set<Tree> seen;
  std::size_t kills = 0;
  for (const std::size_t at : chosen_calls(calls)) {
    stage.set_back();
    const Traced traced = stage.play({.what = Fault::What::kill, .at = at});
    if (!traced.was_killed) continue;  // Threads make it differ by a few calls from run to run.
    ++kills;
    const Tree tree = stage.tree();
    ASSERT_THAT(stage.damage(tree), IsEmpty()) << "killed at call " << at << " of " << calls.size();
    if (!seen.insert(without_leftovers(stage, tree)).second) continue;
    SCOPED_TRACE("killed at call " + std::to_string(at) + " on " + traced.calls.back().path);
    expect_goes_on(stage, tree);
    if (HasFailure()) return;
  }
  EXPECT_GT(kills, 3U);
  EXPECT_GT(seen.size(), 1U);
  if (tries_all())
    std::printf("| %s | %zu calls | %zu kills | %zu states on disk | 0 lost |\n", command().name.c_str(),
                calls.size(), kills, seen.size());
}

std::string test_name(const ::testing::TestParamInfo<std::size_t>& number) {
  std::string name;
  bool begins = true;
  for (const char letter : testing::writing_commands()[number.param].name) {
    const bool is_letter = std::isalnum(static_cast<unsigned char>(letter)) != 0;
    if (is_letter) name += begins ? static_cast<char>(std::toupper(letter)) : letter;
    begins = !is_letter;
  }
  return name;
}

INSTANTIATE_TEST_SUITE_P(Commands, Killed,
                         ::testing::Range(std::size_t{0}, testing::writing_commands().size()), test_name);

}  // namespace
}  // namespace graftcast
