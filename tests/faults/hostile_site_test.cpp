// A site folder that somebody prepared: links that lead out of it, pipes, names that are paths or escapes,
// files beyond all measure.

#include <chrono>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

#include "writing_commands.hpp"

namespace graftcast {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::LoopbackServer;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;
using testing::TemporaryFolder;
using testing::Traced;

constexpr long most_memory_kb = 300 * 1024;

// ---- Links ----

/// What lies outside the site, and must stay as it is.
struct Outside {
  TemporaryFolder folder;
  testing::Tree before;

  Outside() {
    folder.write("diary.csv", "when,graft,event,value,comment\n");
    folder.write("grafts.csv", "id,grafted_on,species,method\nA1,2025-06-03,apple,cleft\n");
    folder.write("cache/past/2025-06-10T223712Z.http.gz", "precious");
    folder.write("cache/state.json", "{}");
    folder.write("page.html", "precious");
    folder.write("learned.json", R"({"format": 1, "fitted_at": "2025-06-01T00:00:00Z", "outcomes": 40,
                                     "species": {}, "methods": {}})");
    before = testing::tree_of(folder.path());
  }
  void expect_untouched() const { EXPECT_EQ(testing::tree_of(folder.path()), before); }
  fs::path operator/(const std::string& name) const { return folder.path() / name; }
};

void link_in(const SmallSite& site, const std::string& name, const fs::path& target) {
  fs::remove_all(site.path() / name);
  fs::create_directories((site.path() / name).parent_path());
  fs::create_symlink(target, site.path() / name);
}

TEST(LinkedSite, RecordsThatAreLinksAreNotWritten) {
  for (const auto& [name, words] : std::vector<std::pair<std::string, std::vector<std::string>>>{
           {"diary.csv", {"note", "A1", "watered"}},
           {"grafts.csv", {"graft", "--species", "apple", "--method", "cleft"}},
           {"diary.csv", {"split", "A1", "2"}}}) {
    const Outside outside;
    const SmallSite site;
    link_in(site, name, outside / name);
    const std::string before = site.read("grafts.csv");
    const Said said = site.run(words);
    EXPECT_EQ(said.exit_code, 74) << name << said.err;
    EXPECT_THAT(said.err, HasSubstr(name + ": is a symbolic link"));
    outside.expect_untouched();
    EXPECT_EQ(site.read("grafts.csv"), before);
  }
}

TEST(LinkedSite, ALinkToNowhereIsNotFollowedEither) {
  const Outside outside;
  const SmallSite site;
  link_in(site, "diary.csv", outside / "new.csv");
  EXPECT_EQ(site.run({"note", "A1", "watered"}).exit_code, 74);
  outside.expect_untouched();
}

TEST(LinkedSite, FoldersThatLeadOutAreNotWrittenInto) {
  const LoopbackServer server({testing::whole(200, testing::played_forecast())});
  for (const std::string name : {"weather", "weather/cache", "weather/cache/open-meteo-archive",
                                 "weather/cache/open-meteo-archive/past"}) {
    const Outside outside;
    const SmallSite site;
    const std::string entry = R"({"service": "open-meteo-archive", "contact": "grower@example.org"})";
    site.write("site.json",
               R"({"format": 1, "latitude": 40.9, "longitude": 0.4, "elevation_m": 110,
                   "time_zone": "Europe/Madrid", "spots": {"bench": {}, "shed": {}},
                   "weather": {"sources": [)" +
                   entry + "]}}");
    link_in(site, name, name.ends_with("past") ? outside / "cache/past" : outside / "cache");
    const Said fetched = testing::run({"--site", site.text(), "weather", "fetch"});
    EXPECT_EQ(fetched.exit_code, 74) << name << fetched.err;
    EXPECT_THAT(fetched.err, HasSubstr("leads out of the site folder")) << name;
    outside.expect_untouched();
  }
  EXPECT_THAT(server.seen(), IsEmpty());
}

TEST(LinkedSite, ALogIsNotCopiedThroughALink) {
  const Outside outside;
  const TemporaryFolder logs;
  const auto log = logs.write("more.csv", testing::hourly_log(11, 1));
  const SmallSite site;
  link_in(site, "weather/more.csv", outside / "more.csv");
  const Said said = site.run({"weather", "add", log.string()});
  EXPECT_EQ(said.exit_code, 74) << said.err;
  outside.expect_untouched();

  const SmallSite other;
  link_in(other, "weather", outside / "cache");
  other.replace("site.json", R"("sources": [
   {"file": "weather/station.csv"},
   {"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"}])",
                R"("sources": [])");
  const Said through = other.run({"weather", "add", log.string()});
  EXPECT_EQ(through.exit_code, 74) << through.err;
  EXPECT_THAT(through.err, HasSubstr("leads out of the site folder"));
  outside.expect_untouched();
}

TEST(LinkedSite, WhatWasLearnedIsForgottenHereAndNotThere) {
  const Outside outside;
  const SmallSite site;
  link_in(site, "learned.json", outside / "learned.json");
  EXPECT_EQ(site.run({"learn", "--forget"}).exit_code, 0);
  EXPECT_FALSE(fs::exists(fs::symlink_status(site.path() / "learned.json")));
  outside.expect_untouched();
}

TEST(LinkedSite, APageIsNotWrittenThroughALink) {
  const Outside outside;
  const SmallSite site;
  link_in(site, "page.html", outside / "page.html");
  EXPECT_EQ(site.run({"page", "--to", (site.path() / "page.html").string()}).exit_code, 74);
  outside.expect_untouched();
}

/// Temporary files carry the number of the process, which may be guessed.
TEST(LinkedSite, ALinkInPlaceOfATemporaryFileIsNotFollowed) {
  const Outside outside;
  const SmallSite site;
  constexpr int ahead = 2000;
  for (int number = ::getpid(); number < ::getpid() + ahead; ++number)
    fs::create_symlink(outside / "page.html", site.path() / fmt::format(".diary.csv.{}-0", number));
  EXPECT_EQ(site.run({"note", "A1", "watered"}).exit_code, 0);
  EXPECT_THAT(site.read("diary.csv"), HasSubstr("A1,watered"));
  outside.expect_untouched();
}

TEST(LinkedSite, MayItselfBeReachedThroughALink) {
  const SmallSite site;
  const TemporaryFolder folder;
  fs::create_symlink(site.path(), folder.path() / "mine");
  const std::string there = (folder.path() / "mine").string();
  EXPECT_EQ(
      testing::run({"--site", there, "--at", testing::small_morning, "note", "A1", "watered"}).exit_code, 0);
  EXPECT_EQ(testing::run({"--site", there, "--at", testing::small_morning, "since"}).exit_code, 0);
  EXPECT_THAT(site.read("diary.csv"), HasSubstr("A1,watered"));
}

// ---- What is no file ----

TEST(OddSite, APipeOrAnEndlessDeviceInPlaceOfAFileIsSaidAtOnce) {
  for (const std::string name : {"site.json", "grafts.csv", "diary.csv", "wood.csv", "weather/station.csv",
                                 "learned.json", "models/mine.json"}) {
    for (const bool is_pipe : {true, false}) {
      const SmallSite site;
      fs::create_directories((site.path() / name).parent_path());
      fs::remove(site.path() / name);
      if (is_pipe)
        ASSERT_EQ(::mkfifo((site.path() / name).c_str(), 0600), 0);
      else
        fs::create_symlink("/dev/zero", site.path() / name);
      const Said said = site.run({"since"});
      EXPECT_THAT(said.exit_code, AnyOf(65, 66)) << name << said.err;
      EXPECT_THAT(said.err, AnyOf(HasSubstr("not a plain file"), HasSubstr("outside the site folder")))
          << name;
    }
  }
}

// ---- Names ----

const std::vector<std::string>& odd_names() {
  static const std::vector<std::string> names{"../../evil",
                                              "/etc/passwd",
                                              "a/../../b",
                                              "-rf",
                                              "..",
                                              ".",
                                              "$(reboot)",
                                              "`reboot`",
                                              "a\tb",
                                              "a\nb",
                                              "\x1b[2J",
                                              "\x1b]0;owned\x07",
                                              "\xC2\x9B"
                                              "2J",
                                              "\xE2\x80\xAE"
                                              "txt.exe",
                                              "<script>alert(1)</script>",
                                              "=cmd()",
                                              "\xFF\xFE",
                                              std::string(70, 'x'),
                                              "CON",
                                              "%s%n",
                                              "{}"};
  return names;
}

/// The answer shows no control character but line ends, also not those of two bytes.
void expect_harmless(const Said& said, const std::string& what) {
  for (const std::string& text : {said.out, said.err}) {
    for (const char letter : text)
      EXPECT_FALSE((static_cast<unsigned char>(letter) < 0x20 && letter != '\n') || letter == 0x7F) << what;
    EXPECT_THAT(text, Not(HasSubstr("\xC2\x9B"))) << what;
    EXPECT_THAT(text, Not(HasSubstr("\xE2\x80\xAE"))) << what;
  }
  EXPECT_THAT(said.exit_code, AnyOf(0, 2, 65)) << what << said.err;
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::recursive_directory_iterator(folder), fs::recursive_directory_iterator()));
}

TEST(OddNames, OfGraftsStayWithinTheSiteAndOffTheTerminal) {
  for (const std::string& name : odd_names()) {
    const SmallSite site;
    const std::size_t files = files_in(site.path());
    const auto plain = [&](std::vector<std::string> words) {
      return site.run(std::move(words), {{}, {{"NO_COLOR", "1"}}, {}, {}});
    };
    const Said made = plain({"graft", "--id=" + name, "--species", "apple", "--method", "cleft", "--scion",
                             name, "--stock", name, "--comment", name, "--on", "2025-06-05", "--count", "4"});
    expect_harmless(made, name);
    expect_harmless(plain({"note", name, "watered"}), name);
    expect_harmless(plain({"note", "stock:" + name, "watered"}), name);
    expect_harmless(plain({"split", "--", name, "2"}), name);
    for (const char* const command : {"morning", "since", "page", "calendar", "labels"}) {
      const Said said = plain({command});
      EXPECT_EQ(said.exit_code, 0) << said.err;
      if (std::string_view(command) == "morning" || std::string_view(command) == "since")
        expect_harmless(said, name + " by " + command);
      EXPECT_THAT(said.out, Not(HasSubstr("\x1b"))) << name;
      const bool is_page = said.out.starts_with("<!");
      EXPECT_FALSE(is_page && said.out.find("<script>alert") != std::string::npos) << name;
    }
    EXPECT_EQ(files_in(site.path()), files) << name;
  }
}

TEST(OddNames, WrittenIntoTheLedgerByHandAreRefusedWithTheirPlaceOrShownHarmless) {
  for (const std::string& name : odd_names()) {
    const SmallSite site;
    const std::string quoted = name.find_first_of("\n\t") == std::string::npos ? name : '"' + name + '"';
    site.write("grafts.csv",
               "id,grafted_on,scion,species,method\n" + quoted + ",2025-06-03," + quoted + ",apple,cleft\n");
    expect_harmless(site.run({"since"}, {{}, {{"NO_COLOR", "1"}}, {}, {}}), name);
  }
}

TEST(OddNames, OfLogsAreRefusedBeforeAnythingIsCopied) {
  for (const std::string name : {"\xFF.csv", "a\nb.csv", "\x1b[2J.csv"}) {
    const TemporaryFolder logs;
    const SmallSite site;
    const std::string before = site.fingerprint();
    const Said said = site.run({"weather", "add", logs.write(name, testing::hourly_log(11, 1)).string()});
    EXPECT_EQ(said.exit_code, 2) << said.err;
    expect_harmless(said, name);
    EXPECT_EQ(site.fingerprint(), before);
  }
}

TEST(OddNames, OfServicesAndAddressesMakeNoFolderElsewhere) {
  for (const std::string& name : {std::string("../../../evil"), std::string("met-norway/../.."),
                                  std::string("/tmp/evil"), std::string("..")}) {
    const SmallSite site;
    const fs::path above = site.path().parent_path();
    site.replace("site.json",
                 R"({"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"})",
                 json{{"service", name}, {"contact", "grower@example.org"}}.dump());
    const Said said = testing::run({"--site", site.text(), "weather", "fetch"});
    EXPECT_EQ(said.exit_code, 65) << said.err;
    EXPECT_FALSE(fs::exists(above / "evil"));
    EXPECT_FALSE(fs::exists("/tmp/evil"));
  }
  const LoopbackServer server({testing::whole(200, testing::played_forecast())});
  const SmallSite site;
  site.replace("site.json",
               R"({"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"})",
               json{{"service", "open-meteo"},
                    {"contact", "grower@example.org"},
                    {"base_url", server.url("/../../../../evil/%2e%2e/..")}}
                   .dump());
  EXPECT_EQ(testing::run({"--site", site.text(), "weather", "fetch"}).exit_code, 0);
  for (const auto& entry : fs::directory_iterator(site.path() / "weather" / "cache"))
    EXPECT_THAT(entry.path().filename().string(), ::testing::StartsWith("open-meteo-"));
}

// ---- Beyond all measure ----

std::string site_with_spots(int count) {
  std::string text = R"({"format": 1, "latitude": 40.9, "longitude": 0.4, "elevation_m": 110,
    "time_zone": "Europe/Madrid", "weather": {"sources": [{"file": "weather/station.csv"}]},
    "spots": {"bench": {}, "shed": {})";
  for (int spot = 0; spot < count; ++spot) text += fmt::format(",\"s{}\": {{\"sun\": 0.5}}", spot);
  return text + "}}";
}

TEST(GreatSite, OfAMillionSpotsIsRefusedWithoutFillingTheMemory) {
  if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  const SmallSite site;
  site.write("site.json", site_with_spots(1'000'000));
  const std::string before = site.read("site.json");
  const Traced traced = testing::run_traced({"--site", site.text(), "spots"});
  EXPECT_EQ(traced.said.exit_code, 65);
  EXPECT_THAT(traced.said.err, HasSubstr("site.json: the file holds more values than fit in memory"));
  EXPECT_LT(traced.most_memory_kb, most_memory_kb);
  EXPECT_EQ(site.read("site.json"), before);
}

TEST(GreatSite, OfAHundredThousandSpotsIsUsed) {
  if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  const SmallSite site;
  site.write("site.json", site_with_spots(100'000));
  for (const std::vector<std::string>& words : {std::vector<std::string>{"note", "A1", "moved", "s99999"},
                                                {"morning"},
                                                {"note", "A1", "moved", "none"}}) {
    std::vector<std::string> all{"--site", site.text(), "--at", testing::small_morning, "--members", "2"};
    all.insert(all.end(), words.begin(), words.end());
    const Traced traced = testing::run_traced(all);
    EXPECT_EQ(traced.said.exit_code, words.back() == "none" ? 65 : 0) << traced.said.err;
    EXPECT_LT(traced.most_memory_kb, most_memory_kb);
    EXPECT_LT(traced.said.err.size(), 2000U);
  }
}

TEST(GreatSite, WithACellOfManyMegabytesOrALineWithoutEndIsRefused) {
  if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  for (const std::string& row :
       {"A1,2025-06-03,apple,cleft," + std::string(50'000'000, 'x'),
        "A1,2025-06-03,apple,cleft,\"" + std::string(50'000'000, '\n'), std::string(50'000'000, ',')}) {
    const SmallSite site;
    site.write("grafts.csv", "id,grafted_on,species,method,comment\n" + row);
    const Traced traced =
        testing::run_traced({"--site", site.text(), "--at", testing::small_morning, "since"});
    EXPECT_EQ(traced.said.exit_code, 65) << traced.said.err.substr(0, 300);
    EXPECT_LT(traced.most_memory_kb, most_memory_kb);
    EXPECT_LT(traced.said.err.size(), 2000U);
  }
}

}  // namespace
}  // namespace graftcast
