#include "diary_values.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "ledger_columns.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr const char* no_cover = "none";

void check_spot(const Cell& cell, const Site& site) {
  if (site.spots.contains(std::string(cell.text()))) return;
  cell.fail(tr("the site has no spot {spot}", "spot"_a = shown(cell.text())),
            names_hint(cell.text(), spot_names(site)));
}

/// A cover or wrap to put on; what takes it off is an event of its own.
void check_put_on(const Cell& cell, Event event, std::vector<std::string> names) {
  std::erase(names, no_cover);
  if (std::ranges::find(names, cell.text()) != names.end()) return;
  cell.fail(tr("{event} {name} is not known", "event"_a = event_word(event), "name"_a = shown(cell.text())),
            names_hint(cell.text(), names));
}

void check_content(const Cell& cell, Event event, const Site& site, const KnownNames& known) {
  constexpr int greatest_count = 1'000'000'000;  // The row's own count is the limit that matters.
  switch (about(event).value) {
    case EventValue::none:
      cell.fail(tr("{event} takes no value, but {text} stands here", "event"_a = event_word(event),
                   "text"_a = shown(cell.text())),
                tr("write remarks under comment"));
    case EventValue::share:
      cell.number(0, 0.95, {});
      return;
    case EventValue::litres:
      cell.number(0, 1000, "litres");
      return;
    case EventValue::spot:
      check_spot(cell, site);
      return;
    case EventValue::cover:
      check_put_on(cell, event, known.covers);
      return;
    case EventValue::wrap:
      check_put_on(cell, event, known.wraps);
      return;
    case EventValue::count:
      cell.whole_number(0, greatest_count);
      return;
    case EventValue::line:
    case EventValue::child:
      cell.line();
      return;
  }
}

/// How a value that an event needs is asked for; empty where it needs none.
std::string required_value(EventValue value) {
  switch (value) {
    case EventValue::share:
      return tr("give the shade's share, 0 to 0.95");
    case EventValue::spot:
      return tr("give the spot moved to");
    case EventValue::line:
      return tr("give the id of the line to take back, or its time as it stands there");
    case EventValue::child:
      return tr("give the id of the new row");
    default:
      return {};
  }
}

}  // namespace

Event event_of(const Cell& cell) {
  require_content(cell);
  const std::string word = cell.line();
  if (const auto event = event_named(word)) return *event;
  cell.fail(tr("event {word} is not known", "word"_a = shown(word)), names_hint(word, event_words()));
}

void check_value(const std::optional<Cell>& cell, const Cell& event_cell, Event event, const Site& site,
                 const KnownNames& known) {
  const std::string required = required_value(about(event).value);
  if (!required.empty() && (!cell || cell->empty())) {
    (cell ? *cell : event_cell).fail(tr("{event} needs a value", "event"_a = event_word(event)), required);
  }
  if (cell && !cell->empty()) check_content(*cell, event, site, known);
}

}  // namespace graftcast
