#include "records/folder_lock.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

#include "records/diary.hpp"
#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using namespace testing;

// A process that holds the lock until it is stopped.
class Holder {
 public:
  explicit Holder(const std::filesystem::path& folder) {
    int ready[2];
    if (::pipe(ready) != 0) return;
    process_ = ::fork();
    if (process_ == 0) {
      const FolderLock lock(folder);
      const ssize_t ignored = ::write(ready[1], "x", 1);
      for (;;) ::pause();
      ::_exit(static_cast<int>(ignored));
    }
    char letter = 0;
    is_holding_ = ::read(ready[0], &letter, 1) == 1;
    ::close(ready[0]);
    ::close(ready[1]);
  }
  ~Holder() { stop(); }
  Holder(const Holder&) = delete;
  Holder& operator=(const Holder&) = delete;

  bool is_holding() const { return is_holding_; }
  pid_t process() const { return process_; }
  void stop() {
    if (process_ <= 0) return;
    ::kill(process_, SIGKILL);
    ::waitpid(process_, nullptr, 0);
    process_ = 0;
  }

 private:
  pid_t process_ = 0;
  bool is_holding_ = false;
};

TEST(FolderLock, CanBeTakenAgainAfterItIsGivenUp) {
  const TemporaryFolder folder;
  { const FolderLock lock(folder.path(), std::chrono::milliseconds(0)); }
  EXPECT_NO_THROW(FolderLock(folder.path(), std::chrono::milliseconds(0)));
}

TEST(FolderLock, LeavesNoFileBehind) {
  const TemporaryFolder folder;
  const FolderLock lock(folder.path());
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(FolderLock, SaysWhichProcessHoldsItWhenTheWaitIsOver) {
  const TemporaryFolder folder;
  const Holder holder(folder.path());
  ASSERT_TRUE(holder.is_holding());
  const std::string error = error_of([&] { FolderLock(folder.path(), std::chrono::milliseconds(50)); });
  EXPECT_THAT(error,
              AllOf(HasSubstr("write-failed"), HasSubstr("is in use by"), HasSubstr("nothing was written")));
  if (std::filesystem::exists("/proc/locks")) {
    EXPECT_THAT(error, HasSubstr(std::to_string(holder.process())));
  }
}

TEST(FolderLock, IsFreeWhenItsHolderWasKilled) {
  const TemporaryFolder folder;
  Holder holder(folder.path());
  ASSERT_TRUE(holder.is_holding());
  holder.stop();
  EXPECT_NO_THROW(FolderLock(folder.path(), std::chrono::milliseconds(1000)));
}

TEST(FolderLock, NeedsAFolder) {
  const TemporaryFolder folder;
  EXPECT_THAT(error_of([&] { FolderLock(folder.path() / "none"); }), HasSubstr("cannot-open"));
  EXPECT_THAT(error_of([&] { FolderLock(folder.write("a.csv", "")); }), HasSubstr("cannot-open"));
}

TEST(FolderLock, KeepsEveryLineOfTwoWritersAtOnce) {
  const SampleFolder folder;
  constexpr int each = 15;
  const auto add_lines = [&](const char* graft) {
    for (int k = 0; k < each; ++k) {
      append_diary(folder.path(), parsed_site(), sample_clock(), sample_names(),
                   {{"2025-05-01", graft, Event::watered, "1"}});
    }
  };
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    add_lines("R3-15");
    ::_exit(0);
  }
  add_lines("R3-16");
  int status = -1;
  ::waitpid(child, &status, 0);
  EXPECT_EQ(status, 0);
  const auto diary = diary_of(folder.read("diary.csv"), ledger_of(sample_grafts));
  EXPECT_EQ(diary.size(), 2U + 2U * each);
}

}  // namespace
}  // namespace graftcast
