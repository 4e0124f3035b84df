// System calls that fail: a full disk, a broken one, one that may only be read.

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include <sys/wait.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "writing_commands.hpp"

namespace graftcast {
namespace {

using ::testing::AnyOf;
using testing::Fault;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::Stage;
using testing::SystemCall;
using testing::Traced;
using testing::Tree;

bool tries_all() {
  return std::getenv("GRAFTCAST_ALL_FAULTS") != nullptr;
}

/// Something went wrong and was said, by the codes of the manual: 66 to open, 69 a service, 74 to write, 75
/// in part.
void expect_said(const Said& said) {
  EXPECT_THAT(said.exit_code, AnyOf(66, 69, 74, 75)) << said.err;
  EXPECT_THAT(said.err, Not(::testing::HasSubstr("internal fault")));
}

/// Success is said only where it is one, and nothing is damaged either way.
void expect_sound(const Stage& stage, const Traced& traced) {
  const Tree tree = stage.tree();
  EXPECT_THAT(stage.damage(tree), IsEmpty());
  if (traced.said.exit_code == 0)
    EXPECT_TRUE(stage.is_done(tree)) << traced.said.out;
  else
    expect_said(traced.said);
  // Where standard error is what cannot be written, only the exit code is left.
  const bool is_told = traced.calls.back().path.ends_with("/err") || !traced.said.err.empty();
  EXPECT_TRUE(traced.said.exit_code == 0 || traced.said.exit_code == 75 || is_told);
}

class Failing : public ::testing::TestWithParam<std::size_t> {
 protected:
  void SetUp() override {
    if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  }
  /// One call of those counted fails, or all from it on: `most` of them are tried, or each.
  void try_out(const Stage& stage, Fault fault, std::size_t calls, std::size_t most) {
    for (std::size_t at = 0; at < calls; at += tries_all() ? 1 : calls / most + 1) {
      fault.at = at;
      stage.set_back();
      const Traced traced = stage.play(fault);
      ++tried_;
      if (traced.calls.size() <= at) continue;
      SCOPED_TRACE(std::string(std::strerror(fault.error)) + " at call " + std::to_string(at) + ", number " +
                   std::to_string(traced.calls[at].number) + " on " + traced.calls[at].path);
      expect_sound(stage, traced);
      if (HasFailure()) return;
    }
  }
  void tell(const char* what) const {
    if (tries_all())
      std::printf("| %s | %s | %zu times | 0 lost |\n", testing::writing_commands()[GetParam()].name.c_str(),
                  what, tried_);
  }
  std::size_t tried_ = 0;
};

TEST_P(Failing, AChangeOfAFileIsSaidAndDamagesNothing) {
  const Stage stage(testing::writing_commands()[GetParam()]);
  Fault fault{.what = Fault::What::fail, .counts = testing::changes_a_file};
  const std::size_t calls = stage.play({.counts = testing::changes_a_file}).calls.size();
  for (const int error : {ENOSPC, EIO, EROFS, EACCES}) {
    fault.error = error;
    try_out(stage, fault, calls, error == ENOSPC ? 6 : 2);
  }
  tell("ENOSPC, EIO, EROFS, EACCES of one call that changes a file");
}

TEST_P(Failing, ADiskThatIsFullFromSomeMomentOnIsSaidAndDamagesNothing) {
  const Stage stage(testing::writing_commands()[GetParam()]);
  const std::string folder = stage.path().string();
  const auto is_change_there = [&](const SystemCall& call) {
    return call.is_change && call.path.starts_with(folder);
  };
  // What is removed or renamed takes no room.
  const auto takes_room = [&](const SystemCall& call) {
    return is_change_there(call) && !testing::frees_room(call);
  };
  Fault fault{.what = Fault::What::fail, .lasts = true, .error = ENOSPC, .counts = takes_room};
  const std::size_t calls = stage.play({.counts = takes_room}).calls.size();
  try_out(stage, fault, calls, 3);
  fault.error = EROFS;
  fault.counts = is_change_there;
  try_out(stage, fault, 1, 1);
  tell("a disk full from one call on, or never to be written");
}

TEST_P(Failing, AFileOfTheSiteThatCannotBeReadIsSaid) {
  const Stage stage(testing::writing_commands()[GetParam()]);
  const std::string folder = stage.path().string();
  const auto reads = [&](const SystemCall& call) {
    return call.is_file && !call.is_change && call.path.starts_with(folder);
  };
  Fault fault{.what = Fault::What::fail, .error = EIO, .counts = reads};
  const std::size_t calls = stage.play({.counts = reads}).calls.size();
  try_out(stage, fault, calls, 4);
  tell("EIO of one call that reads or looks at a file of the site");
}

TEST(FailingStreams, StandardErrorThatCannotBeWrittenLeavesTheExitCode) {
  const testing::SmallSite site;
  const std::string site_words =
      "'" GRAFTCAST_PROGRAM "' --site '" + site.text() + "' --at 2025-06-11T06:30 ";
  const auto code = [&](const std::string& words) {
    return WEXITSTATUS(std::system((site_words + words + " 2>/dev/full >/dev/null").c_str()));
  };
  EXPECT_EQ(code("note A1 watered"), 0);
  EXPECT_EQ(code("note Z9 watered"), 65);
  EXPECT_EQ(code("--json note Z9 watered"), 65);
  EXPECT_EQ(code("since"), 0);
  EXPECT_EQ(code("nonsense"), 2);
}

std::string test_name(const ::testing::TestParamInfo<std::size_t>& number) {
  return "Command" + std::to_string(number.param);
}

INSTANTIATE_TEST_SUITE_P(Commands, Failing,
                         ::testing::Range(std::size_t{0}, testing::writing_commands().size()), test_name);

}  // namespace
}  // namespace graftcast
