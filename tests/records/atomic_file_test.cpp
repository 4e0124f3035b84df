#include "text/atomic_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <csignal>
#include <random>
#include <thread>

#include "ordinary_user.hpp"
#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using namespace testing;
namespace fs = std::filesystem;

std::size_t entries_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

TEST(ReplaceFile, MakesAndReplacesFilesAndLeavesNothingBeside) {
  const TemporaryFolder folder;
  replace_file(folder.path() / "a.csv", "one\n");
  EXPECT_EQ(folder.read("a.csv"), "one\n");
  replace_file(folder.path() / "a.csv", "");
  EXPECT_EQ(folder.read("a.csv"), "");
  replace_file(folder.path() / "a.csv", std::string(1'000'000, 'x'));
  EXPECT_EQ(folder.read("a.csv").size(), 1'000'000U);
  EXPECT_EQ(entries_in(folder.path()), 1U);
}

TEST(ReplaceFile, KeepsThePermissionsOfTheFile) {
  const TemporaryFolder folder;
  const auto file = folder.write("a.csv", "old\n");
  const auto wanted = fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read;
  fs::permissions(file, wanted);
  replace_file(file, "new\n");
  EXPECT_EQ(fs::status(file).permissions(), wanted);
}

TEST(ReplaceFile, GivesANewFileTheUsualPermissions) {
  const TemporaryFolder folder;
  const mode_t before = ::umask(022);
  replace_file(folder.path() / "a.csv", "new\n");
  ::umask(before);
  EXPECT_EQ(static_cast<unsigned>(fs::status(folder.path() / "a.csv").permissions()), 0644U);
}

TEST(ReplaceFile, RefusesSymbolicLinksAndFolders) {
  const TemporaryFolder folder;
  const auto real = folder.write("real.csv", "old\n");
  fs::create_symlink("real.csv", folder.path() / "link.csv");
  EXPECT_THAT(error_of([&] { replace_file(folder.path() / "link.csv", "new\n"); }),
              AllOf(HasSubstr("write-failed"), HasSubstr("link.csv: is a symbolic link")));
  EXPECT_EQ(folder.read("real.csv"), "old\n");
  EXPECT_THAT(error_of([&] { replace_file(folder.path(), "new\n"); }), HasSubstr("is not a plain file"));
}

TEST(ReplaceFile, SaysWhyAFileCannotBeWritten) {
  const TemporaryFolder folder;
  EXPECT_THAT(error_of([&] { replace_file(folder.path() / "none" / "a.csv", "x"); }),
              AllOf(HasSubstr("write-failed"), HasSubstr("No such file or directory")));
}

TEST(ReplaceFile, LeavesAReadOnlyFolderAsItIs) {
  const TemporaryFolder folder;
  const auto file = folder.write("a.csv", "old\n");
  fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec | fs::perms::group_read |
                                     fs::perms::group_exec | fs::perms::others_read | fs::perms::others_exec);
  const std::string error = as_ordinary_user([&] { return error_of([&] { replace_file(file, "new\n"); }); });
  EXPECT_THAT(error, AllOf(HasSubstr("write-failed"), HasSubstr("Permission denied")));
  EXPECT_EQ(folder.read("a.csv"), "old\n");
}

// A limit on the size of files stands for a full disk.
TEST(ReplaceFile, KeepsTheOldFileAndRemovesTheTemporaryOneWhenTheDiskIsFull) {
  const TemporaryFolder folder;
  const auto file = folder.write("a.csv", "old\n");
  rlimit before{};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto old_handler = std::signal(SIGXFSZ, SIG_IGN);
  rlimit small = before;
  small.rlim_cur = 1000;
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
  const std::string error = error_of([&] { replace_file(file, std::string(5000, 'x')); });
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
  std::signal(SIGXFSZ, old_handler);
  EXPECT_THAT(error, AllOf(HasSubstr("write-failed"), HasSubstr("File too large"), HasSubstr("make room")));
  EXPECT_EQ(folder.read("a.csv"), "old\n");
  EXPECT_EQ(entries_in(folder.path()), 1U);
}

TEST(ReplaceFile, IsNotHinderedByWhatACrashLeftBehind) {
  const TemporaryFolder folder;
  folder.write(".a.csv." + std::to_string(::getpid()) + "-0", "half");
  replace_file(folder.path() / "a.csv", "new\n");
  EXPECT_EQ(folder.read("a.csv"), "new\n");
}

// Killing the writer at arbitrary moments must leave the whole of one content or the other.
TEST(ReplaceFile, LeavesTheOldOrTheNewContentWhenTheWriterIsKilled) {
  const TemporaryFolder folder;
  const std::string first(200'000, 'a'), second(300'000, 'b');
  const auto file = folder.write("a.csv", first);
  std::mt19937 random(5);
  for (int round = 0; round < 20; ++round) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      for (bool turn = false;; turn = !turn) replace_file(file, turn ? first : second);
    }
    std::this_thread::sleep_for(std::chrono::microseconds(random() % 20'000));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    const std::string content = folder.read("a.csv");
    ASSERT_TRUE(content == first || content == second)
        << "round " << round << ", " << content.size() << " bytes";
  }
}

TEST(MakeFolder, MakesFoldersAndThoseAboveAndMayBeRepeated) {
  const TemporaryFolder folder;
  make_folder(folder.path() / "a" / "b");
  make_folder(folder.path() / "a" / "b");
  EXPECT_TRUE(fs::is_directory(folder.path() / "a" / "b"));
}

TEST(MakeFolder, SaysWhenAFileIsInTheWay) {
  const TemporaryFolder folder;
  folder.write("a", "");
  EXPECT_THAT(error_of([&] { make_folder(folder.path() / "a"); }), HasSubstr("write-failed"));
  EXPECT_THAT(error_of([&] { make_folder(folder.path() / "a" / "b"); }), HasSubstr("write-failed"));
}

/// The number of a process that has ended.
pid_t ended_process() {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(0);
  ::waitpid(child, nullptr, 0);
  return child;
}

TEST(ReplaceFile, ClearsAwayWhatKilledWritersOfThatFileLeft) {
  const TemporaryFolder folder;
  const std::string ended = std::to_string(ended_process()), alive = std::to_string(::getppid());
  for (const std::string& name : {".a.csv." + ended + "-0", ".a.csv." + ended + "-12"})
    folder.write(name, "half");
  const std::vector<std::string> others{".a.csv." + alive + "-0", ".b.csv." + ended + "-0", ".a.csv.bak",
                                        ".a.csv." + ended, ".a.csv." + ended + "-x"};
  for (const std::string& name : others) folder.write(name, "of others");
  replace_file(folder.path() / "a.csv", "new\n");
  EXPECT_EQ(entries_in(folder.path()), 1 + others.size());
  for (const std::string& name : others) EXPECT_EQ(folder.read(name), "of others") << name;
}

TEST(CopyFile, MakesAWholeCopyAndNeverWritesOverAnything) {
  const TemporaryFolder folder;
  const std::string content(300'000, 'x');
  const auto file = folder.write("log.csv", content);
  copy_file_durably(file, folder.path() / "copy.csv");
  EXPECT_EQ(folder.read("copy.csv"), content);
  folder.write("taken.csv", "old\n");
  EXPECT_THAT(error_of([&] { copy_file_durably(file, folder.path() / "taken.csv"); }),
              AllOf(HasSubstr("write-failed"), HasSubstr("File exists")));
  EXPECT_EQ(folder.read("taken.csv"), "old\n");
  fs::create_symlink("nowhere", folder.path() / "link.csv");
  EXPECT_THAT(error_of([&] { copy_file_durably(file, folder.path() / "link.csv"); }),
              HasSubstr("File exists"));
  EXPECT_THAT(error_of([&] { copy_file_durably(folder.path() / "none", folder.path() / "b"); }),
              HasSubstr("cannot-open"));
  EXPECT_EQ(entries_in(folder.path()), 4U);
}

// What earlier versions left under the name of a finished log is another name of it: nothing may be cut
// short.
TEST(CopyFile, DoesNotWriteIntoALinkOfTheSameContent) {
  const TemporaryFolder folder;
  const auto old = folder.write("renamed.csv", "precious\n");
  fs::create_hard_link(old, folder.path() / "log.csv.unfinished");
  copy_file_durably(folder.write("new.csv", "new\n"), folder.path() / "log.csv");
  EXPECT_EQ(folder.read("renamed.csv"), "precious\n");
}

TEST(RemoveFile, SaysWhetherItWasThere) {
  const TemporaryFolder folder;
  const auto file = folder.write("a.csv", "old\n");
  EXPECT_TRUE(remove_file(file));
  EXPECT_FALSE(remove_file(file));
  const auto beneath_a_file = folder.write("b.csv", "b\n") / "c";
  EXPECT_THAT(error_of([&] { remove_file(beneath_a_file); }), HasSubstr("write-failed"));
}

TEST(RequireInside, FollowsLinksAndNamesTheOneThatLeadsOut) {
  const TemporaryFolder site, other;
  fs::create_directories(site.path() / "weather" / "real");
  fs::create_directory_symlink(other.path(), site.path() / "out");
  fs::create_directory_symlink("real", site.path() / "weather" / "in");
  for (const char* const name : {"", "weather", "weather/in", "weather/none/yet", "none"})
    EXPECT_EQ(error_of([&] { require_inside(site.path(), site.path() / name); }), "no error") << name;
  for (const char* const name : {"out", "out/cache", "..", "weather/../../x"})
    EXPECT_THAT(error_of([&] { require_inside(site.path(), site.path() / name); }),
                AllOf(HasSubstr("write-failed"), HasSubstr("leads out of the site folder")))
        << name;
}

}  // namespace
}  // namespace graftcast
