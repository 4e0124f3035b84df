#include "diary_values.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "ledger_columns.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

constexpr const char* no_cover = "none";

void check_spot(const Cell& cell, const Site& site) {
  if (site.spots.contains(std::string(cell.text()))) return;
  cell.fail(fmt::format("the site has no spot {}", shown(cell.text())),
            names_hint(cell.text(), spot_names(site)));
}

/// A cover or wrap to put on; what takes it off is an event of its own.
void check_put_on(const Cell& cell, Event event, std::vector<std::string> names) {
  std::erase(names, no_cover);
  if (std::ranges::find(names, cell.text()) != names.end()) return;
  cell.fail(fmt::format("{} {} is not known", event_word(event), shown(cell.text())),
            names_hint(cell.text(), names));
}

void check_content(const Cell& cell, Event event, const Site& site, const KnownNames& known) {
  constexpr int greatest_count = 1'000'000'000;  // The row's own count is the limit that matters.
  switch (about(event).value) {
    case EventValue::none:
      cell.fail(fmt::format("{} takes no value, but {} stands here", event_word(event), shown(cell.text())),
                "write remarks under comment");
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

const char* required_value(EventValue value) {
  switch (value) {
    case EventValue::share:
      return "the shade's share, 0 to 0.95";
    case EventValue::spot:
      return "the spot moved to";
    case EventValue::line:
      return "the id of the line to take back, or its time as it stands there";
    case EventValue::child:
      return "the id of the new row";
    default:
      return nullptr;
  }
}

}  // namespace

Event event_of(const Cell& cell) {
  require_content(cell);
  const std::string word = cell.line();
  if (const auto event = event_named(word)) return *event;
  cell.fail(fmt::format("event {} is not known", shown(word)), names_hint(word, event_words()));
}

void check_value(const std::optional<Cell>& cell, const Cell& event_cell, Event event, const Site& site,
                 const KnownNames& known) {
  const char* required = required_value(about(event).value);
  if (required != nullptr && (!cell || cell->empty())) {
    (cell ? *cell : event_cell)
        .fail(fmt::format("{} needs a value", event_word(event)), std::string("give ") + required);
  }
  if (cell && !cell->empty()) check_content(*cell, event, site, known);
}

}  // namespace graftcast
