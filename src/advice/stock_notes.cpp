#include "advice/stock_notes.hpp"

#include <algorithm>

namespace graftcast {

namespace {

struct StockLine {
  std::string species;
  const DiaryLine* line;
};

/// The lines on the bark and the sap of all stocks, in order of time.
std::vector<StockLine> stock_lines(const std::vector<GraftRecord>& grafts, Instant as_of) {
  std::vector<StockLine> lines;
  for (const GraftRecord& graft : grafts) {
    const std::string& species =
        graft.row.stock_species.empty() ? graft.row.species : graft.row.stock_species;
    for (const DiaryLine& line : graft.lines) {
      const bool seen_on_stock = about(line.event).of_stock && about(line.event).group == EventGroup::seen;
      if (seen_on_stock && line.when <= as_of) lines.push_back({species, &line});
    }
  }
  std::ranges::stable_sort(lines, {}, [](const StockLine& line) { return line.line->when; });
  return lines;
}

double note_days(Event event, const WhenConstants& limits) {
  if (event == Event::slips) return limits.slips_note_days;
  return event == Event::bleeding ? limits.bleeding_note_days : limits.flushing_note_days;
}

}  // namespace

StockNotes stock_notes(const std::vector<GraftRecord>& grafts, Instant as_of, const Clock& clock,
                       const Models& models) {
  StockNotes notes;
  for (const auto& [species, line] : stock_lines(grafts, as_of)) {
    const double age_days = std::chrono::duration<double, std::ratio<86400>>(as_of - line->when).count();
    if (age_days > note_days(line->event, models.when)) continue;
    const bool seen = line->number().value_or(1) > 0;
    if (line->event == Event::bleeding) {
      notes.bleeding.erase(species);
      if (seen) notes.bleeding.emplace(species, clock.day_of(line->when));
    } else if (line->event == Event::slips || seen) {
      notes.slips[species] = seen;
    }
  }
  return notes;
}

}  // namespace graftcast
