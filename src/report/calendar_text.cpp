// What went into a calendar, for a terminal.

#include <algorithm>

#include <fmt/format.h>

#include "report/calendar_report.hpp"
#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"

namespace graftcast {

namespace {

constexpr std::size_t when_column = 18;

std::string when_of(const CalendarEvent& event, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  if (event.day == today) return "today";
  if (event.day == today + std::chrono::days(1)) return "tomorrow";
  if (event.day) return day_words(*event.day, today);
  return moment_words(*basis.clock, event.kind == "act" ? *event.to : *event.from, basis.as_of);
}

std::string event_lines(const CalendarEvent& event, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  std::string lead = when_of(event, basis);
  const std::string words = event.withdrawn       ? "no longer: " + event.title
                            : event.kind == "act" ? "by then, " + event.title
                                                  : event.title;
  for (const std::string& line :
       wrapped(printable(words), std::max(style.width, least_width) - when_column)) {
    text += padded_right(lead, when_column) + line + '\n';
    lead.clear();
  }
  return text;
}

std::string file_words(std::size_t count, const std::string& file) {
  if (file.empty()) {
    return fmt::format("{}; --to FILE, or a pipe, gives them to a calendar program.",
                       counted(count, "event"));
  }
  return fmt::format("{} in {}; import it again after a later morning, and the dates move with it.",
                     counted(count, "event"), printable(file));
}

}  // namespace

std::string calendar_text(const std::vector<CalendarEvent>& events, const std::string& file,
                          const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style);
  text += labelled(style, Tone::quiet, "file", file_words(events.size(), file)) + '\n';
  for (const CalendarEvent& event : events) text += event_lines(event, basis, style);
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
