// `page` over the whole program.

#include <array>
#include <cstdio>
#include <fstream>
#include <memory>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "html_check.hpp"
#include "json_schema.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using testing::HtmlCheck;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;

std::string between(const std::string& text, const std::string& from, const std::string& to) {
  const std::size_t begin = text.find(from) + from.size();
  return text.substr(begin, text.find(to, begin) - begin);
}

/// The SHA-256 of a file as coreutils and basenc have it, an implementation other than the build's.
std::string base64_sha256(const std::filesystem::path& file) {
  const std::string command =
      fmt::format("sha256sum '{}' | cut -c 1-64 | tr a-f A-F | basenc --base16 -d | base64", file.string());
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(::popen(command.c_str(), "r"), ::pclose);
  std::array<char, 128> line{};
  if (!pipe || std::fgets(line.data(), line.size(), pipe.get()) == nullptr) return {};
  std::string hash(line.data());
  hash.erase(hash.find_last_not_of('\n') + 1);
  return hash;
}

TEST(PageCommand, WritesOneWholePageToStandardOutput) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  const Said said = site.run({"page"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(HtmlCheck(said.out).complaints(), IsEmpty());
  // A card and three charts a graft, a card and a chart a way of grafting.
  EXPECT_EQ(HtmlCheck(said.out).count("article"), 4U + 4U);
  EXPECT_EQ(HtmlCheck(said.out).count("svg"), 12U + 4U);
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(PageCommand, LeavesOutTheWeeksAheadWhereAsked) {
  const SmallSite site;
  EXPECT_THAT(site.run({"page"}).out, HasSubstr("New grafts in the weeks ahead"));
  const std::string html = site.run({"page", "--no-weeks"}).out;
  EXPECT_THAT(html, Not(HasSubstr("New grafts in the weeks ahead")));
  EXPECT_EQ(HtmlCheck(html).count("article"), 4U);
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
}

TEST(PageCommand, HasTheCautionsOfWhatItTellsToDo) {
  const SmallSite site;
  const json answer = json::parse(site.run({"page", "--json"}).out);
  const std::string html = answer.at("html").get<std::string>();
  const std::string cautions = answer.at("cautions").dump();
  for (const char* about : {"Heat for people", "knife", "Disinfect", "Local regulations", "budwood"}) {
    EXPECT_THAT(html, HasSubstr(about));
    EXPECT_THAT(cautions, HasSubstr(about));
  }
}

TEST(PageCommand, AllowsItsOwnStyleAndScriptAndNoOther) {
  const SmallSite site;
  const std::string html = site.run({"page"}).out;
  for (const char* element : {"style", "script"}) {
    const std::string content = between(html, fmt::format("<{}>", element), fmt::format("</{}>", element));
    const std::string hash = base64_sha256(site.write("part", content));
    ASSERT_EQ(hash.size(), 44U);
    EXPECT_THAT(html, HasSubstr(fmt::format("{}-src 'sha256-{}'", element, hash)));
  }
  EXPECT_THAT(html, Not(HasSubstr("unsafe")));
}

TEST(PageCommand, WritesTheSameIntoAFile) {
  const SmallSite site;
  const std::string file = (site.path() / "morning.html").string();
  site.write("morning.html", "old");
  const Said said = site.run({"page", "--to", file});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("4 rows"));
  EXPECT_EQ(site.read("morning.html"), site.run({"page"}).out);
}

TEST(PageCommand, LeavesWhatItCannotReplace) {
  const SmallSite site;
  const Said folder = site.run({"page", "--to", site.path().string()});
  EXPECT_EQ(folder.exit_code, 74) << folder.err;
  EXPECT_EQ(folder.out, "");
  std::filesystem::create_symlink(site.write("kept.txt", "kept"), site.path() / "link.html");
  EXPECT_EQ(site.run({"page", "--to", (site.path() / "link.html").string()}).exit_code, 74);
  EXPECT_EQ(site.read("kept.txt"), "kept");
}

TEST(PageCommand, AnswersInJsonAsItsSchemaSays) {
  const SmallSite site;
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-page.schema.json");
  const json schema = json::parse(stream);
  for (const bool to_file : {false, true}) {
    std::vector<std::string> arguments{"page", "--json"};
    if (to_file) arguments.insert(arguments.end(), {"--to", (site.path() / "p.html").string()});
    const json answer = json::parse(site.run(arguments).out);
    EXPECT_THAT(testing::SchemaCheck(schema).complaints(answer), IsEmpty());
    EXPECT_EQ(answer.at("html").is_null(), to_file);
    EXPECT_EQ(answer.at("grafts"), 4);
  }
}

TEST(PageCommand, ShowsHostileNamesOfTheLedgerAsText) {
  const SmallSite site;
  site.replace("grafts.csv", "Millrace", "<script>alert(1)</script>&\u202E'quoted'");
  site.replace("grafts.csv", "Two Crop", std::string(300, 'W'));
  const std::string html = site.run({"page"}).out;
  const HtmlCheck check(html);
  EXPECT_THAT(check.complaints(), IsEmpty());
  EXPECT_EQ(check.count("script"), 1U);
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt;&amp;"));
}

TEST(PageCommand, MakesNotesThatNoteReads) {
  const SmallSite site;
  const std::string html = site.run({"page"}).out;
  std::string notes;
  for (std::size_t at = html.find("value=\"C1 "); at != std::string::npos;
       at = html.find("value=\"C1 ", at + 1)) {
    const std::string note = between(html.substr(at), "value=\"", "\"");
    if (note != "C1 taken") notes += "2025-06-11 06:00 " + note + '\n';  // It was noted dead before.
  }
  ASSERT_THAT(notes, HasSubstr("C1 green"));
  const Said said = site.run({"note"}, {.input = notes});
  EXPECT_EQ(said.exit_code, 0) << said.err << notes;
  EXPECT_THAT(site.read("diary.csv"), HasSubstr("C1,wrap-slit"));
}

TEST(PageCommand, HasTheMorningsListAndPlan) {
  const SmallSite site;
  const json morning = json::parse(site.run({"morning", "--json"}).out);
  const std::string html = site.run({"page"}).out;
  std::size_t last = 0;
  for (const json& graft : morning.at("grafts")) {
    if (graft.at("urgency") == "leave") continue;
    const std::size_t at =
        html.find(fmt::format("aria-label=\"{} done\"", graft.at("id").get<std::string>()));
    ASSERT_NE(at, std::string::npos);
    EXPECT_GT(at, last);
    last = at;
  }
}

TEST(PageCommand, ExplainsLossesWhereAsked) {
  const SmallSite site;
  ASSERT_EQ(site.run({"note", "C1", "dead"}).exit_code, 0);
  EXPECT_THAT(site.run({"page"}).out, Not(HasSubstr("Lost in the season")));
  const std::string html = site.run({"page", "--losses"}).out;
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
  EXPECT_THAT(html, HasSubstr("Lost in the season 2024/25, and why"));
  EXPECT_THAT(html, HasSubstr("2 of 2 lost by"));
}

TEST(PageCommand, OfASiteWithoutOpenGraftsSaysSo) {
  const SmallSite site;
  const Said said = site.run({"page", "--at", "2025-06-01T06:00"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("No graft is open"));
}

}  // namespace
}  // namespace graftcast
