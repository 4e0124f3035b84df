#include "records/diary.hpp"

#include <algorithm>

#include "cell.hpp"
#include "diary_lines.hpp"
#include "ledger_columns.hpp"
#include "record_files.hpp"
#include "records/folder_lock.hpp"
#include "table_header.hpp"
#include "table_text.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

const std::vector<std::string> required_of_diary{"when", "graft", "event"};

// What the cells of a diary are checked against, and where its columns stand.
struct DiaryReading {
  const Site& site;
  const Clock& clock;
  const LedgerIndex& index;
  const TableHeader& header;
};

std::optional<Cell> cell_of(const DelimitedRows& rows, const DiaryReading& reading, std::string_view column) {
  const auto index = reading.header.index_of(column);
  if (!index) return std::nullopt;
  return Cell(rows, *index, column);
}

DiaryPlace place_of(const Cell& cell) {
  return {cell.position().line, cell.position().column};
}

void read_when(const Cell& cell, const Clock& clock, ParsedDiaryLine& parsed) {
  require_content(cell);
  const RecordTime time = time_of(cell, clock);
  // A day alone stands for its noon, which is never far off.
  parsed.line.when = time.instant.value_or(clock.noon_of(time.day));
  parsed.line.stamp = cell.text();
  parsed.when_place = place_of(cell);
}

void read_graft(const Cell& cell, const DiaryReading& reading, ParsedDiaryLine& parsed) {
  require_content(cell);
  parsed.line.graft = cell.line();
  parsed.graft_place = place_of(cell);
  const auto selector = parse_selector(parsed.line.graft);
  if (!selector) {
    cell.fail(tr("graft {graft} is not a range of ids", "graft"_a = shown(parsed.line.graft)),
              tr("write a range as R3-14..20, the lower number first"));
  }
  const LedgerIndex::Fault fault = reading.index.fault_of(*selector, reading.site);
  if (!fault.message.empty()) cell.fail(fault.message, fault.hint);
  parsed.selector = *selector;
}

void read_event(const Cell& cell, ParsedDiaryLine& parsed) {
  require_content(cell);
  parsed.line.event = cell.line();
  parsed.event = find_diary_event(parsed.line.event);
  if (parsed.event != nullptr) return;
  std::vector<std::string> names;
  for (const DiaryEvent& event : diary_events()) names.emplace_back(event.name);
  cell.fail(tr("event {event} is not known", "event"_a = shown(parsed.line.event)),
            names_hint(parsed.line.event, names));
}

void check_spot(const Cell& cell, const Site& site) {
  if (site.spots.contains(std::string(cell.text()))) return;
  cell.fail(tr("the site has no spot {spot}", "spot"_a = shown(cell.text())),
            names_hint(cell.text(), spot_names(site)));
}

void check_value(const Cell& cell, const Site& site, const ParsedDiaryLine& parsed) {
  constexpr int greatest_count = 1'000'000'000;  // The row's own count is the limit that matters.
  const auto& [name, value, seen, of_stock] = *parsed.event;
  if (cell.empty()) return;
  switch (value) {
    case EventValue::none:
      cell.fail(tr("{event} takes no value, but {text} stands here", "event"_a = name,
                   "text"_a = shown(cell.text())),
                tr("write remarks under comment"));
    case EventValue::share:
      cell.number(0, 0.95, {});
      return;
    case EventValue::litres:
      cell.number(0, 1000, tr_later("litres"));
      return;
    case EventValue::spot:
      check_spot(cell, site);
      return;
    case EventValue::count:
      cell.whole_number(0, greatest_count);
      return;
    case EventValue::stamp:
    case EventValue::child:
      cell.line();
      return;
  }
}

/// How a value that an event needs is asked for; null where it needs none.
const char* required_value(EventValue value) {
  switch (value) {
    case EventValue::share:
      return tr_later("give the shade's share, 0 to 0.95");
    case EventValue::spot:
      return tr_later("give the spot moved to");
    case EventValue::stamp:
      return tr_later("give the time of the line to take back, as it stands there");
    case EventValue::child:
      return tr_later("give the id of the new row");
    default:
      return nullptr;
  }
}

void read_value(const std::optional<Cell>& cell, const Cell& event_cell, const Site& site,
                ParsedDiaryLine& parsed) {
  const char* required = required_value(parsed.event->value);
  if (required != nullptr && (!cell || cell->empty())) {
    (cell ? *cell : event_cell)
        .fail(tr("{event} needs a value", "event"_a = parsed.event->name), std::string(translated(required)));
  }
  if (!cell) return;
  check_value(*cell, site, parsed);
  parsed.line.value = cell->text();
  parsed.value_place = place_of(*cell);
}

ParsedDiaryLine parse_row(const DelimitedRows& rows, const DiaryReading& reading) {
  reading.header.check_width(rows);
  ParsedDiaryLine parsed;
  parsed.line.line = rows.line();
  read_when(*cell_of(rows, reading, "when"), reading.clock, parsed);
  read_graft(*cell_of(rows, reading, "graft"), reading, parsed);
  const Cell event_cell = *cell_of(rows, reading, "event");
  read_event(event_cell, parsed);
  read_value(cell_of(rows, reading, "value"), event_cell, reading.site, parsed);
  if (const auto comment = cell_of(rows, reading, "comment")) parsed.line.comment = comment->words();
  return parsed;
}

}  // namespace

const std::vector<std::string>& diary_columns() {
  static const std::vector<std::string> names{"when", "graft", "event", "value", "comment"};
  return names;
}

std::optional<double> DiaryLine::number() const {
  return parse_number(value);
}

std::vector<DiaryLine> diary_from_text(std::string_view text, const std::string& shown_name, const Site& site,
                                       const Clock& clock, const Ledger& ledger) {
  DelimitedRows rows = DelimitedRows::from_memory(text, ',', shown_name);
  const TableHeader header(rows, diary_columns(), required_of_diary);
  const LedgerIndex index(ledger);
  std::vector<ParsedDiaryLine> lines;
  while (rows.next()) lines.push_back(parse_row(rows, {site, clock, index, header}));
  return expand_diary(std::move(lines), shown_name, clock, index);
}

std::vector<DiaryLine> read_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                  const Ledger& ledger) {
  const std::filesystem::path file = folder / diary_file;
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return {};
  return diary_from_text(read_text_file(file), file.string(), site, clock, ledger);
}

std::vector<DiaryLine> lines_for(const std::vector<DiaryLine>& diary, std::string_view id) {
  std::vector<DiaryLine> lines;
  std::copy_if(diary.begin(), diary.end(), std::back_inserter(lines), [&](const DiaryLine& line) {
    return std::find(line.grafts.begin(), line.grafts.end(), id) != line.grafts.end();
  });
  return lines;
}

Outcome outcome_of(const GraftRow& row, const std::vector<DiaryLine>& lines, Instant until) {
  int taken = 0, dead = 0;
  for (const DiaryLine& line : lines) {
    if (line.when > until) break;
    const auto number = line.number();
    if (line.event == "taken") {
      taken = number ? std::min(row.count, taken + static_cast<int>(*number)) : row.count - dead;
      dead = std::min(dead, row.count - taken);
    } else if (line.event == "dead") {
      dead = number ? std::min(row.count, dead + static_cast<int>(*number)) : row.count;
      taken = std::min(taken, row.count - dead);
    }
  }
  return {taken, dead, row.count - taken - dead};
}

}  // namespace graftcast
