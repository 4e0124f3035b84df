// The words of what is due, and the events made of it.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "report/calendar_report.hpp"
#include "report/cautions.hpp"
#include "report/figures.hpp"
#include "terminal_parts.hpp"
#include "text/stable_hash.hpp"

namespace graftcast {

namespace {

std::string title_of(const DueWork& work) {
  return printable(fmt::format("{}: {}{}", work.id, work.kind == DueKind::undo ? "undo: " : "", work.text));
}

std::string range_of(const DueWork& work, const Season& season) {
  const LocalDay today = season.clock.day_of(season.settings.as_of);
  const auto words = [&](const std::optional<LocalDay>& day) {
    return day ? day_words(*day, today) : std::string("later than the run reaches");
  };
  std::string text = fmt::format("Middle of the range: {}; eight in ten from {} to {}.",
                                 words(work.band.median), words(work.band.p10), words(work.band.p90));
  if (work.past_due) text += " The day has gone by and the diary does not say that it was done.";
  return text;
}

std::string risk_of_act(const DueWork& work) {
  if (!work.p) return {};
  std::string text = fmt::format("Risk of loss to weather as it is: {}", percent_words(*work.p));
  if (work.p_after) text += fmt::format("; with it: {}", percent_words(*work.p_after));
  return text + '.';
}

/// What a date of this kind is about, where the title alone does not say it.
std::string meaning_of(const DueWork& work) {
  switch (work.kind) {
    case DueKind::vent_bag:
      return "The scion should drink by then: open the bag a little for some days before it comes off, in "
             "the "
             "evening or under a cloudy sky.";
    case DueKind::slit_wrap:
      return "The union should hold by then: slit the wrap lengthwise on the side away from the bud, so that "
             "it "
             "does not strangle.";
    case DueKind::buds_expected:
      return "Growth before the bridge lives on stores: buds that move are no proof that it has taken.";
    case DueKind::check:
      return work.band.p90
                 ? "Nine in ten would have moved their buds by now. A date alone decides nothing: look."
                 : "";
    case DueKind::undo:
      return "Needed no longer from then on, as the outlook stands.";
    default:
      return {};
  }
}

void add_line(std::string& text, const std::string& line) {
  if (line.empty()) return;
  if (!text.empty()) text += '\n';
  text += line;
}

std::string description_of(const DueWork& work, const Season& season, const TerminalStyle& style) {
  std::string text = identity_words(work);
  add_line(text, risk_of_act(work));
  add_line(text, printable(work.why));
  add_line(text, meaning_of(work));
  if (work.band.median) add_line(text, range_of(work, season));
  for (const std::string& caution : due_cautions(work, season, style)) add_line(text, caution);
  add_line(text,
           fmt::format("As of {} on the site's clock.", season.clock.local_text(season.settings.as_of)));
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
    event.title = title_of(work);
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
