// `calendar` over the whole program, read by a second parser.

#include <fstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "report/terminal_style.hpp"
#include "run_shell.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;
using ::testing::StartsWith;

constexpr const char* hostile = "Two, Crop; \\ \u6885\u5e72 \U0001f333 <i>q</i> BEGIN:VALARM";

class CalendarCommand : public ::testing::Test {
 protected:
  std::string file(const std::string& name) const { return (site_.path() / name).string(); }

  void write(const std::string& name, const std::string& moment) const {
    const Said said = site_.run({"calendar", "--to", file(name), "--at", moment});
    ASSERT_EQ(said.exit_code, 0) << said.err;
  }

  /// What python3-icalendar finds in these files; null where it is not installed.
  json read(const std::vector<std::string>& names) const {
    std::string command = "/usr/bin/python3 '" GRAFTCAST_SOURCE_DIR "/tests/cli/read_calendar.py'";
    for (const std::string& name : names) command += fmt::format(" '{}'", file(name));
    const Said said = testing::run_shell(command);
    if (said.exit_code == 77) return nullptr;
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_THAT(said.err, IsEmpty());
    return json::parse(said.out, nullptr, false);
  }

  SmallSite site_;
};

json by_uid(const json& calendar) {
  json found;
  for (const json& event : calendar.at("events")) {
    EXPECT_FALSE(found.contains(event.at("UID").get<std::string>())) << "twice " << event.at("UID");
    found[event.at("UID").get<std::string>()] = event;
  }
  return found;
}

TEST_F(CalendarCommand, IsReadByASecondParserAndUpdatesOnReimport) {
  site_.replace("grafts.csv", "Two Crop", fmt::format("\"{}\"", hostile));
  write("first.ics", "2025-06-10T06:30");
  write("next.ics", "2025-06-11T06:30");
  const json read_ones = read({"first.ics", "next.ics"});
  if (read_ones.is_null()) GTEST_SKIP() << "no python3-icalendar here";
  for (const json& calendar : read_ones) {
    EXPECT_EQ(calendar.at("complaints"), json::array());
    EXPECT_EQ(calendar.at("name"), "Grafts: Test orchard (invented)");
    EXPECT_THAT(calendar.at("cautions").get<std::string>(), HasSubstr("Local regulations"));
  }
  EXPECT_THAT(read_ones.dump(), HasSubstr("Two, Crop; \\\\ \u6885\u5e72 \U0001f333 <i>q</i> BEGIN:VALARM"));
  const json first = by_uid(read_ones[0]), next = by_uid(read_ones[1]);
  int same = 0;
  for (const auto& [uid, event] : next.items()) {
    if (!first.contains(uid)) continue;
    ++same;
    EXPECT_GT(event.at("SEQUENCE"), first.at(uid).at("SEQUENCE"));
    EXPECT_GT(event.at("DTSTAMP"), first.at(uid).at("DTSTAMP"));
  }
  EXPECT_GE(same, 8);  // Four grafts: wraps to slit, buds, checks.
}

TEST_F(CalendarCommand, SaysTheSameInBothParsersAndInJson) {
  write("grafts.ics", "2025-06-11T06:30");
  const json read_ones = read({"grafts.ics"});
  if (read_ones.is_null()) GTEST_SKIP() << "no python3-icalendar here";
  const json events = json::parse(site_.run({"calendar", "--json"}).out).at("events");
  ASSERT_EQ(read_ones[0].at("events").size(), events.size());
  int acts = 0;
  for (std::size_t i = 0; i < events.size(); ++i) {
    const json& ours = events[i];
    const json& theirs = read_ones[0].at("events")[i];
    EXPECT_EQ(theirs.at("UID"), ours.at("uid"));
    EXPECT_EQ(theirs.at("SUMMARY"), ours.at("title"));
    EXPECT_EQ(theirs.at("DESCRIPTION"), with_unit_signs(ours.at("description")));
    EXPECT_EQ(theirs.at("DTSTART"), ours.at(ours.at("day").is_null() ? "from" : "day"));
    EXPECT_EQ(theirs.at("alarms"), ours.at("alarm").is_null() ? json::array() : json{ours.at("alarm")});
    acts += ours.at("kind") == "act" ? 1 : 0;
    if (ours.at("kind") == "act") {
      EXPECT_FALSE(ours.at("alarm").is_null());
      EXPECT_LE(ours.at("alarm"), ours.at("from"));
      EXPECT_LT(ours.at("from"), ours.at("to"));
    }
  }
  EXPECT_GT(acts, 0);
}

TEST_F(CalendarCommand, HoldsToItsSchema) {
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-calendar.schema.json");
  const json rules = json::parse(stream);
  const testing::SchemaCheck check(rules);
  const json answer = json::parse(site_.run({"calendar", "--json"}).out);
  EXPECT_THAT(check.complaints(answer), IsEmpty());
  EXPECT_FALSE(answer.at("events").empty());
  EXPECT_TRUE(answer.at("file").is_null());
  const json written = json::parse(site_.run({"calendar", "--json", "--to", file("grafts.ics")}).out);
  EXPECT_EQ(written.at("file"), file("grafts.ics"));
  site_.write("grafts.csv", "id,grafted_on,species,method\n");
  site_.write("diary.csv", "when,graft,event,value,comment\n");
  EXPECT_THAT(check.complaints(json::parse(site_.run({"calendar", "--json"}).out)), IsEmpty());
}

TEST_F(CalendarCommand, GivesTheSameBytesForTheSameMorning) {
  const std::string once = site_.run({"calendar", "--threads", "1"}).out;
  EXPECT_THAT(once, StartsWith("BEGIN:VCALENDAR\r\n"));
  EXPECT_EQ(site_.run({"calendar", "--threads", "2"}).out, once);
}

TEST_F(CalendarCommand, TakesBackWhatIsDone) {
  write("grafts.ics", "2025-06-11T06:30");
  EXPECT_THAT(site_.read("grafts.ics"), AllOf(HasSubstr("slit-wrap.A1"), Not(HasSubstr("CANCELLED"))));
  ASSERT_EQ(site_.run({"note", "A1", "wrap-slit", "--at", "2025-06-11T07:00"}).exit_code, 0);
  const Said said =
      site_.run({"calendar", "--to", file("grafts.ics"), "--at", "2025-06-11T08:00", "--width", "200"});
  EXPECT_THAT(said.out, HasSubstr("no longer: A1: slit the wrap"));
  const std::string text = site_.read("grafts.ics");
  const std::size_t begin = text.rfind("BEGIN:VEVENT", text.find("slit-wrap.A1"));
  EXPECT_THAT(text.substr(begin, text.find("END:VEVENT", begin) - begin), HasSubstr("STATUS:CANCELLED"));
}

TEST_F(CalendarCommand, LeavesAFileThatIsNotItsOwnAsItIs) {
  for (const char* content : {"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\nEND:VCALENDAR\r\n",
                              "id,grafted_on\nA1,2025-06-01\n", ""}) {
    site_.write("own.ics", content);
    const Said said = site_.run({"calendar", "--to", file("own.ics")});
    EXPECT_EQ(said.exit_code, 65);
    EXPECT_THAT(said.err, HasSubstr("not overwritten"));
    EXPECT_EQ(site_.read("own.ics"), content);
  }
  EXPECT_EQ(site_.run({"calendar", "--to", file("no/such/folder.ics")}).exit_code, 74);
}

TEST_F(CalendarCommand, CarriesCautionsWhereTheyApply) {
  const json answer = json::parse(site_.run({"calendar", "--json"}).out);
  EXPECT_THAT(answer.at("cautions").dump(), HasSubstr("Heat for people"));
  bool hot_act = false;
  for (const json& event : answer.at("events")) {
    const auto description = event.at("description").get<std::string>();
    if (event.at("kind") == "slit-wrap" || event.at("kind") == "check") {
      EXPECT_THAT(description, AllOf(HasSubstr("Keep the knife sharp"), HasSubstr("Disinfect tools")));
    }
    if (event.at("kind") == "act" && description.find("Heat for people that day") != std::string::npos) {
      hot_act = true;
      EXPECT_THAT(description, AllOf(HasSubstr("in the shade"), HasSubstr("At this hour:")));
    }
  }
  EXPECT_TRUE(hot_act);
}

}  // namespace
}  // namespace graftcast
