// The calendar as RFC 5545 has it: read back by libical, held against the form that the standard asks for.

#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <libical/ical.h>

#include "graftcast/error.hpp"
#include "report/calendar_report.hpp"
#include "sample_reports.hpp"

namespace graftcast {
namespace {

using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

constexpr const char* hostile =
    "a, b; c: \\ \"q\" <i>\u6885\u5e72 \U0001f333 u\u0308\u202eX\nBEGIN:VEVENT\r\nEND:VCALENDAR";

CalendarEvent act_event() {
  CalendarEvent event;
  event.uid = "0123456789abcdef.act.N1";
  event.kind = "act";
  event.graft = "N1";
  event.title = "N1: put paper over the bag";
  event.description = "Blue Lattice on pot 7\nRisk: 59 %";
  event.spot = "south-bench";
  event.from = testing::june(9, 16, 45);
  event.to = testing::june(9, 17);
  event.alarm = testing::june(9, 5);
  return event;
}

CalendarEvent day_event() {
  CalendarEvent event;
  event.uid = "0123456789abcdef.slit-wrap.N1";
  event.kind = "slit-wrap";
  event.graft = "N1";
  event.title = "N1: slit the wrap";
  event.day = testing::day_of_june(30);
  return event;
}

using Component = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

Component read_back(const std::string& text) {
  return {icalcomponent_new_from_string(text.c_str()), &icalcomponent_free};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find("\r\n", at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 2;
  }
  return lines;
}

/// RFC 5545, section 3.1: a line end and one blank are taken out again.
std::string unfolded(const std::string& text) {
  return std::regex_replace(text, std::regex("\r\n[ \t]"), "");
}

/// A character's later bytes without its first.
bool begins_within_a_character(const std::string& line) {
  const std::size_t at = line.starts_with(' ') ? 1 : 0;
  return line.size() > at && (static_cast<unsigned char>(line[at]) & 0xC0U) == 0x80U;
}

TEST(Calendar, HasTheLinesThatTheStandardAsksFor) {
  CalendarEvent event = act_event();
  event.title = hostile;
  for (int i = 0; i < 6; ++i) event.description += hostile;
  const std::string text = ical_text({event, day_event()}, testing::sample_basis());
  EXPECT_THAT(text, AllOf(StartsWith("BEGIN:VCALENDAR\r\n"), ::testing::EndsWith("END:VCALENDAR\r\n")));
  for (const std::string& line : lines_of(text)) {
    EXPECT_LE(line.size(), 75U) << line;  // Octets, RFC 5545, section 3.1.
    EXPECT_EQ(line.find_first_of("\r\n"), std::string::npos) << line;
    EXPECT_FALSE(begins_within_a_character(line)) << line;
  }
}

TEST(Calendar, PassesTheChecksOfLibical) {
  const Component calendar =
      read_back(ical_text({act_event(), day_event()}, testing::sample_basis("calendar")));
  ASSERT_NE(calendar, nullptr);
  EXPECT_TRUE(icalrestriction_check(calendar.get()));
  EXPECT_EQ(icalcomponent_count_errors(calendar.get()), 0);
  EXPECT_EQ(icalcomponent_count_components(calendar.get(), ICAL_VEVENT_COMPONENT), 2);
}

TEST(Calendar, GivesEveryTextBackAsItWas) {
  CalendarEvent event = act_event();
  event.title = event.description = event.spot = "a, b; c: \\ \"q\" \u6885\u5e72\nnext; line, \\n";
  const Component calendar = read_back(ical_text({event}, testing::sample_basis()));
  icalcomponent* read = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
  ASSERT_NE(read, nullptr);
  EXPECT_EQ(icalcomponent_get_uid(read), event.uid);
  EXPECT_EQ(icalcomponent_get_summary(read), event.title);
  EXPECT_EQ(icalcomponent_get_description(read), event.description);
  EXPECT_EQ(icalcomponent_get_location(read), event.spot);
  EXPECT_EQ(icaltime_as_timet(icalcomponent_get_dtstart(read)), event.from->time_since_epoch().count());
  EXPECT_EQ(icaltime_as_timet(icalcomponent_get_dtend(read)), event.to->time_since_epoch().count());
}

TEST(Calendar, EscapesNameAndCautionsOfTheSite) {
  ReportBasis basis = testing::sample_basis();
  basis.site = "North, South; \\ West\nBEGIN:VEVENT";
  basis.cautions = {"Mind, the; knife.", "And \\ the heat."};
  const std::string text = unfolded(ical_text({}, basis));
  EXPECT_THAT(text, HasSubstr("\r\nNAME:Grafts: North\\, South\\; \\\\ West?BEGIN:VEVENT\r\n"));
  EXPECT_THAT(text, HasSubstr("\r\nX-WR-CALNAME:Grafts: North  South  \\\\ West?BEGIN:VEVENT\r\n"));
  EXPECT_THAT(text, HasSubstr("\r\nDESCRIPTION:Mind\\, the\\; knife.\\nAnd \\\\ the heat.\r\n"));
  const Component calendar = read_back(text);
  EXPECT_EQ(icalcomponent_count_components(calendar.get(), ICAL_VEVENT_COMPONENT), 0);
}

TEST(Calendar, TellsOfAnActInTheCoolHourBeforeAndShowsADayAsADay) {
  const std::string text = unfolded(ical_text({act_event(), day_event()}, testing::sample_basis()));
  EXPECT_THAT(text, HasSubstr("DTSTART:20250609T164500Z\r\n"));
  EXPECT_THAT(text, HasSubstr("BEGIN:VALARM\r\nACTION:DISPLAY\r\n"));
  EXPECT_THAT(text, HasSubstr("TRIGGER;VALUE=DATE-TIME:20250609T050000Z\r\n"));
  EXPECT_THAT(text, HasSubstr("DTSTART;VALUE=DATE:20250630\r\nDTEND;VALUE=DATE:20250701\r\n"));
  EXPECT_EQ(text.find("BEGIN:VALARM"), text.rfind("BEGIN:VALARM"));
}

TEST(Calendar, OfALaterMorningSupersedes) {
  ReportBasis basis = testing::sample_basis();
  const auto sequence = [&] {
    const std::string text = ical_text({act_event()}, basis);
    const std::size_t at = text.find("SEQUENCE:") + 9;
    return std::stol(text.substr(at, text.find('\r', at) - at));
  };
  const long before = sequence();
  EXPECT_EQ(sequence(), before);
  EXPECT_THAT(ical_text({act_event()}, basis), HasSubstr("DTSTAMP:20250609T043000Z\r\n"));
  basis.as_of += std::chrono::minutes(1);
  EXPECT_EQ(sequence(), before + 1);
}

TEST(Calendar, TakesBackWhatIsNoLongerDue) {
  const ReportBasis basis = testing::sample_basis();
  const std::string mark = "0123456789abcdef";
  const std::string earlier = ical_text({act_event(), day_event()}, basis);
  const auto withdrawn = [&](const std::vector<CalendarEvent>& now, Instant as_of) {
    return withdrawn_events(earlier, "grafts.ics", mark, now, *basis.clock, as_of);
  };
  EXPECT_THAT(withdrawn({act_event(), day_event()}, basis.as_of), IsEmpty());
  const auto off = withdrawn({act_event()}, basis.as_of);
  ASSERT_EQ(off.size(), 1U);
  EXPECT_EQ(off[0].uid, day_event().uid);
  EXPECT_EQ(off[0].kind, "slit-wrap");
  EXPECT_EQ(off[0].graft, "N1");
  EXPECT_EQ(off[0].day, day_event().day);
  const std::string later = ical_text(off, basis);
  EXPECT_THAT(later, HasSubstr("STATUS:CANCELLED\r\n"));
  EXPECT_THAT(later, HasSubstr("UID:" + day_event().uid));
  // What has gone by is history, and stays in the calendars that have it.
  EXPECT_THAT(withdrawn({}, testing::june(30, 12)), ::testing::SizeIs(1));
  EXPECT_THAT(withdrawn({}, testing::june(9, 17)), ::testing::SizeIs(2));
  EXPECT_THAT(withdrawn({}, testing::june(9, 18)), ::testing::SizeIs(1));
  EXPECT_THAT(withdrawn({}, testing::june(30, 23)), IsEmpty());  // It is July on the site's clock.
}

TEST(Calendar, OfAnotherProgramOrSiteIsNotOverwritten) {
  const ReportBasis basis = testing::sample_basis();
  const auto read = [&](const std::string& text, const std::string& mark) {
    return withdrawn_events(text, "grafts.ics", mark, {}, *basis.clock, basis.as_of);
  };
  const std::string ours = ical_text({act_event()}, basis);
  EXPECT_THROW(read("", "0123456789abcdef"), DataError);
  EXPECT_THROW(read("id,date\r\n", "0123456789abcdef"), DataError);
  EXPECT_THROW(
      read(std::regex_replace(ours, std::regex("//graftcast//EN"), "//another//EN"), "0123456789abcdef"),
      DataError);
  EXPECT_THROW(read(ours, "fedcba9876543210"), DataError);
  EXPECT_NO_THROW(read(ours, "0123456789abcdef"));
}

TEST(Calendar, ListsWhatIsInIt) {
  CalendarEvent off = day_event();
  off.withdrawn = true;
  const std::string text = calendar_text({act_event(), off}, "grafts.ics", testing::sample_basis(), {});
  EXPECT_THAT(text, HasSubstr("2 events in grafts.ics"));
  EXPECT_THAT(text, HasSubstr("today 19:00       by then, N1: put paper over the bag"));
  EXPECT_THAT(text, HasSubstr("Mon 30 Jun        no longer: N1: slit the wrap"));
  EXPECT_THAT(calendar_text({}, "", testing::sample_basis(), {}), HasSubstr("0 events; --to FILE"));
}

}  // namespace
}  // namespace graftcast
