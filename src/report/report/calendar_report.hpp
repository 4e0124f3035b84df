#pragma once
// What is due as a calendar: RFC 5545 (iCalendar) for any calendar program, JSON, and a list for a terminal.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "ensemble/season.hpp"
#include "graftcast/due_work.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// One event. Either `day` (all of that day) or `from` and `to` (UTC) are given.
struct CalendarEvent {
  std::string uid;  ///< Of site, kind and graft alone, so that a later calendar updates an earlier one.
  std::string kind, graft, title, description, spot;
  std::optional<LocalDay> day;
  std::optional<Instant> from, to, alarm;
  DateBand band;
  bool withdrawn = false;  ///< Stood in the earlier calendar and is no longer due.
};

/// Mark of a site in its events' UIDs: 16 hexadecimal digits of name and position.
std::string site_mark(const Site& site);

/// The events of `works`, by time, then UID. Descriptions carry the range of a date, the risk, the reason and
/// the cautions that apply.
std::vector<CalendarEvent> calendar_events(const std::vector<DueWork>& works, const Season& season,
                                           const TerminalStyle& style);

/// Events of the earlier calendar `text` that are not among `events` and have not gone by at `as_of`: a
/// calendar program that knows them is to be told that they are off. Errors: DataError (`shown_name`) where
/// `text` is no calendar of this program, or is another site's.
std::vector<CalendarEvent> withdrawn_events(std::string_view text, const std::string& shown_name,
                                            const std::string& mark, const std::vector<CalendarEvent>& events,
                                            const Clock& clock, Instant as_of);

/// The calendar as RFC 5545 has it: lines of at most 75 octets that end in CR LF, times in UTC, days as
/// dates. DTSTAMP is `basis.as_of`, SEQUENCE its minutes since 1970: a calendar of a later morning
/// supersedes, and equal input gives equal bytes. The cautions are the calendar's DESCRIPTION (RFC 7986).
std::string ical_text(const std::vector<CalendarEvent>& events, const ReportBasis& basis);

/// `file`: where it was written to, or empty.
nlohmann::ordered_json calendar_json(const std::vector<CalendarEvent>& events, const std::string& file,
                                     const ReportBasis& basis);

/// How many events went into `file` (empty: how to write one), then each in a line.
std::string calendar_text(const std::vector<CalendarEvent>& events, const std::string& file,
                          const ReportBasis& basis, const TerminalStyle& style);

}  // namespace graftcast
