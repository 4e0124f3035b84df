// Several writers at once, a slow disk, a long diary.

#include <thread>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "writing_commands.hpp"

namespace graftcast {
namespace {

using testing::Fault;
using ::testing::HasSubstr;
using testing::Said;
using testing::SmallSite;
using testing::Traced;

std::size_t occurrences(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

TEST(Crowd, OfWritersLosesNoLine) {
  const SmallSite site;
  const std::string diary = site.read("diary.csv"), grafts = site.read("grafts.csv");
  constexpr int writers = 8, notes_each = 6;
  std::vector<std::thread> crowd;
  std::vector<std::string> troubles(writers);
  for (int writer = 0; writer < writers; ++writer)
    crowd.emplace_back([&, writer] {
      for (int number = 0; number < notes_each; ++number) {
        const Said noted =
            site.run({"note", "B1", "watered", "1", "--comment", fmt::format("mark {}-{};", writer, number)});
        if (noted.exit_code != 0) troubles[static_cast<std::size_t>(writer)] += noted.err;
      }
      const Said grafted = site.run({"graft", "--species", "apple", "--method", "cleft"});
      if (grafted.exit_code != 0) troubles[static_cast<std::size_t>(writer)] += grafted.err;
    });
  for (std::thread& writer : crowd) writer.join();
  EXPECT_THAT(troubles, ::testing::Each(::testing::IsEmpty()));
  const std::string diary_after = site.read("diary.csv"), grafts_after = site.read("grafts.csv");
  EXPECT_TRUE(testing::keeps_every_line(diary_after, diary));
  EXPECT_THAT(grafts_after, ::testing::StartsWith(grafts));
  for (int writer = 0; writer < writers; ++writer) {
    for (int number = 0; number < notes_each; ++number)
      EXPECT_EQ(occurrences(diary_after, fmt::format("mark {}-{};", writer, number)), 1U);
    // Each got an id of its own.
    EXPECT_EQ(occurrences(grafts_after, fmt::format("\nG{},", writer + 1)), 1U);
  }
  EXPECT_EQ(occurrences(diary_after, "\n"), occurrences(diary, "\n") + writers * notes_each);
}

TEST(SlowDisk, KeepsTheNextWriterWaitingAndLosesNothing) {
  if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  const SmallSite site;
  const std::string diary = site.read("diary.csv");
  std::thread other([&] {
    for (int number = 0; number < 5; ++number)
      EXPECT_EQ(
          site.run({"note", "A1", "watered", "--comment", fmt::format("meanwhile {};", number)}).exit_code,
          0);
  });
  const Traced slow = testing::run_traced(
      {"--site", site.text(), "--at", testing::small_morning, "note", "B1", "watered", "--comment", "slow;"},
      {},
      {.what = Fault::What::wait,
       .lasts = true,
       .pause = std::chrono::milliseconds(150),
       .counts = testing::changes_a_file});
  other.join();
  EXPECT_EQ(slow.said.exit_code, 0) << slow.said.err;
  const std::string after = site.read("diary.csv");
  EXPECT_TRUE(testing::keeps_every_line(after, diary));
  EXPECT_THAT(after, HasSubstr("slow;"));
  for (int number = 0; number < 5; ++number)
    EXPECT_THAT(after, HasSubstr(fmt::format("meanwhile {};", number)));
}

/// Five years of a nursery that notes much: `lines` lines on a thousand grafts.
void write_long_diary(const SmallSite& site, int lines) {
  constexpr int grafts = 1000;
  std::string ledger = "id,grafted_on,species,method,spot,count\n";
  for (int graft = 0; graft < grafts; ++graft)
    ledger += fmt::format("N{},2025-06-01,apple,cleft,bench,20\n", graft);
  std::string diary = "when,graft,event,value,comment\n";
  for (int line = 0; line < lines; ++line) {
    const std::string when =
        fmt::format("2025-06-{:02}T{:02}:{:02}", 2 + line * 8L / lines, line / 60 % 24, line % 60);
    if (line % 500 == 499)
      diary += fmt::format("{},N{},void,2025-06-02T00:{:02} watered,\n", when, line % 60, line % 60);
    else
      diary += fmt::format("{},N{},watered,1,by hand in the evening\n", when, line % grafts);
  }
  site.write("grafts.csv", ledger);
  site.write("diary.csv", diary);
}

TEST(LongDiary, OfTwoHundredThousandLinesIsReadAndAddedTo) {
  if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  const SmallSite site;
  write_long_diary(site, 200'000);
  const std::string before = site.read("diary.csv");
  const auto traced = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"--site", site.text(), "--at", testing::small_morning, "--members", "2"});
    return testing::run_traced(words);
  };
  const Traced noted = traced({"note", "N7", "watered", "1"});
  EXPECT_EQ(noted.said.exit_code, 0) << noted.said.err;
  EXPECT_LT(noted.most_memory_kb, 300 * 1024);
  const std::string after = site.read("diary.csv");
  EXPECT_TRUE(testing::keeps_every_line(after, before));
  EXPECT_THAT(testing::ids_hidden(after.substr(after.size() - 60)),
              ::testing::EndsWith("\n2025-06-11T06:30,N7,watered,1,,ID,,\n"));
  const Traced read = traced({"since", "--json", "N7"});
  EXPECT_EQ(read.said.exit_code, 0) << read.said.err;
  EXPECT_LT(read.most_memory_kb, 300 * 1024);
}

}  // namespace
}  // namespace graftcast
