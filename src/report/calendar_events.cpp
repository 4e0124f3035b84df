// The events made of what is due.

#include <algorithm>

#include <fmt/format.h>

#include "report/calendar_report.hpp"
#include "report/cautions.hpp"
#include "terminal_parts.hpp"
#include "text/stable_hash.hpp"
#include "text/tr.hpp"
#include "words/due_words.hpp"

namespace graftcast {

namespace {

void add_line(std::string& text, const std::string& line) {
  if (line.empty()) return;
  if (!text.empty()) text += '\n';
  text += line;
}

std::string description_of(const DueWork& work, const Season& season, const TerminalStyle& style) {
  const LocalDay today = season.clock.day_of(season.settings.as_of);
  std::string text = identity_words(work);
  add_line(text, due_risk_words(work));
  add_line(text, printable(due_reason_words(work, style.units)));
  add_line(text, due_meaning_words(work));
  if (work.band.median) add_line(text, due_range_words(work, today));
  for (const std::string& caution : due_cautions(work, season, style)) add_line(text, caution);
  add_line(text, tr("As of {moment} on the site's clock.",
                    "moment"_a = season.clock.local_text(season.settings.as_of)));
  return text;
}

Instant beginning_of(const CalendarEvent& event, const Clock& clock) {
  return event.day ? clock.begin_of(*event.day) : *event.from;
}

}  // namespace

std::string site_mark(const Site& site) {
  return fmt::format("{:016x}",
                     stable_hash(fmt::format("{}|{:.4f}|{:.4f}", site.name, site.location.latitude_deg,
                                             site.location.longitude_deg)));
}

std::vector<CalendarEvent> calendar_events(const std::vector<DueWork>& works, const Season& season,
                                           const TerminalStyle& style) {
  std::vector<CalendarEvent> events;
  for (const DueWork& work : works) {
    CalendarEvent event;
    event.kind = due_kind_name(work.kind);
    event.graft = work.id;
    event.uid = fmt::format("{}.{}.{}", site_mark(season.site), event.kind, work.id);
    event.title = printable(due_title_words(work));
    event.description = description_of(work, season, style);
    event.spot = printable(work.spot);
    event.day = work.day;
    event.from = work.from;
    event.to = work.to;
    event.alarm = work.alarm;
    event.band = work.band;
    events.push_back(std::move(event));
  }
  std::ranges::stable_sort(events, {}, [&](const CalendarEvent& event) {
    return std::pair(beginning_of(event, season.clock), event.uid);
  });
  return events;
}

}  // namespace graftcast
