// What went into a calendar, for a terminal.

#include <algorithm>

#include "report/calendar_report.hpp"
#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::size_t when_column = 18;

std::string when_of(const CalendarEvent& event, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  if (event.day == today) return tr("today");
  if (event.day == today + std::chrono::days(1)) return tr("tomorrow");
  if (event.day) return day_words(*event.day, today);
  return moment_words(*basis.clock, event.kind == "act" ? *event.to : *event.from, basis.as_of);
}

std::string event_words(const CalendarEvent& event) {
  if (event.withdrawn) return tr("no longer: {event}", "event"_a = event.title);
  return event.kind == "act" ? tr("by then, {event}", "event"_a = event.title) : event.title;
}

std::string event_lines(const CalendarEvent& event, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  std::string lead = when_of(event, basis);
  for (const std::string& line :
       wrapped(printable(event_words(event)), std::max(style.width, least_width) - when_column)) {
    text += padded_right(lead, when_column) + line + '\n';
    lead.clear();
  }
  return text;
}

std::string file_words(std::size_t events, const std::string& file) {
  const auto count = static_cast<long>(events);
  if (file.empty())
    return trn("{n} event; --to FILE, or a pipe, gives them to a calendar program.",
               "{n} events; --to FILE, or a pipe, gives them to a calendar program.", count, "n"_a = count);
  return trn("{n} event in {file}; import it again after a later morning, and the dates move with it.",
             "{n} events in {file}; import it again after a later morning, and the dates move with it.",
             count, "n"_a = count, "file"_a = printable(file));
}

}  // namespace

std::string calendar_text(const std::vector<CalendarEvent>& events, const std::string& file,
                          const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style);
  text += labelled(style, Tone::quiet, trc("label", "file"), file_words(events.size(), file)) + '\n';
  for (const CalendarEvent& event : events) text += event_lines(event, basis, style);
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
