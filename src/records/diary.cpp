#include "records/diary.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "cell.hpp"
#include "diary_lines.hpp"
#include "diary_values.hpp"
#include "ledger_columns.hpp"
#include "line_ids.hpp"
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
  const KnownNames& known;
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

std::string photo_of(const Cell& cell) {
  std::string name = cell.line();
  if (name.find_first_of("/\\") == std::string::npos) return name;
  cell.fail(tr("photo {name} is not a file's name", "name"_a = shown(name)),
            tr("give the name without its folder"));
}

/// The columns that came later, which an old diary lacks.
void read_later_columns(const DelimitedRows& rows, const DiaryReading& reading, ParsedDiaryLine& parsed) {
  if (const auto by = cell_of(rows, reading, "by")) parsed.line.by = by->line();
  if (const auto photo = cell_of(rows, reading, "photo")) parsed.line.photo = photo_of(*photo);
  const auto id = cell_of(rows, reading, "id");
  if (!id || id->empty()) return;
  parsed.line.id = id_of(*id);
  parsed.id_place = place_of(*id);
}

ParsedDiaryLine parse_row(const DelimitedRows& rows, const DiaryReading& reading) {
  reading.header.check_width(rows);
  ParsedDiaryLine parsed;
  parsed.line.line = rows.line();
  read_when(*cell_of(rows, reading, "when"), reading.clock, parsed);
  read_graft(*cell_of(rows, reading, "graft"), reading, parsed);
  const Cell event_cell = *cell_of(rows, reading, "event");
  parsed.line.event = event_of(event_cell);
  const auto value = cell_of(rows, reading, "value");
  check_value(value, event_cell, parsed.line.event, reading.site, reading.known);
  if (value) {
    parsed.line.value = value->text();
    parsed.value_place = place_of(*value);
  }
  if (const auto comment = cell_of(rows, reading, "comment")) parsed.line.comment = comment->words();
  read_later_columns(rows, reading, parsed);
  const DiaryLine& line = parsed.line;
  parsed.cells = cells_key({line.stamp, line.graft, event_cell.text(), line.value, line.comment});
  return parsed;
}

/// Where each id stands.
class IdsTaken {
 public:
  explicit IdsTaken(const std::string& name) : name_(name) {}

  void add(const ParsedDiaryLine& parsed) {
    const auto [first, is_new] = lines_.emplace(parsed.line.id, parsed.line.line);
    if (is_new) return;
    throw DataError(
        {name_, parsed.id_place.line, parsed.id_place.column},
        tr("the id {id} stands in line {line} too", "id"_a = shown(parsed.line.id), "line"_a = first->second),
        tr("take out one of the lines if they are the same, else empty the cell"));
  }

 private:
  const std::string& name_;
  std::unordered_map<std::string_view, std::size_t> lines_;
};

/// Gives each line without an id one made from its cells, and sees that none stands twice.
void complete_ids(std::vector<ParsedDiaryLine>& lines, const std::string& name) {
  LineIds ids;
  IdsTaken taken(name);
  for (ParsedDiaryLine& parsed : lines) {
    std::string id = ids.next(parsed.cells);
    if (parsed.line.id.empty()) {
      parsed.line.id = std::move(id);
      parsed.id_place = {parsed.line.line, 0};
    }
    taken.add(parsed);
  }
}

/// What was taken may die later, and what was dead be found alive: the last line counts.
void count_outcome(const DiaryLine& line, int count, Outcome& so_far) {
  auto& [taken, dead, removed, open] = so_far;
  const auto number = line.number();
  const int noted = number ? static_cast<int>(std::min<double>(*number, count)) : 0;
  if (line.event == Event::taken) {
    taken = number ? std::min(count, taken + noted) : count - dead - removed;
    dead = std::min(dead, count - taken);
  } else if (line.event == Event::dead) {
    dead = number ? std::min(count, dead + noted) : count - removed;
    taken = std::min(taken, count - dead);
  } else {
    removed += number ? std::min(open, noted) : open;
  }
  removed = std::min(removed, count - taken - dead);
  open = count - taken - dead - removed;
}

}  // namespace

const std::vector<std::string>& diary_columns() {
  static const std::vector<std::string> names{"when",    "graft", "event", "value",
                                              "comment", "id",    "by",    "photo"};
  return names;
}

std::optional<double> DiaryLine::number() const {
  return parse_number(value);
}

ExpandedDiary expanded_diary(std::string_view text, const std::string& shown_name, const Site& site,
                             const Clock& clock, const KnownNames& known, const Ledger& ledger) {
  DelimitedRows rows = DelimitedRows::from_memory(text, ',', shown_name);
  const TableHeader header(rows, diary_columns(), required_of_diary);
  const LedgerIndex index(ledger);
  std::vector<ParsedDiaryLine> lines;
  while (rows.next()) lines.push_back(parse_row(rows, {site, clock, known, index, header}));
  complete_ids(lines, shown_name);
  return expand_diary(std::move(lines), shown_name, clock, index);
}

std::vector<DiaryLine> diary_from_text(std::string_view text, const std::string& shown_name, const Site& site,
                                       const Clock& clock, const KnownNames& known, const Ledger& ledger) {
  return expanded_diary(text, shown_name, site, clock, known, ledger).lines;
}

std::vector<DiaryLine> read_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                  const KnownNames& known, const Ledger& ledger) {
  const std::filesystem::path file = folder / diary_file;
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return {};
  return diary_from_text(read_text_file(file), file.string(), site, clock, known, ledger);
}

const DiaryLine* last_standing(std::span<const DiaryLine> lines, std::initializer_list<Event> events) {
  const DiaryLine* last = nullptr;
  for (const DiaryLine& line : lines) {
    if (std::ranges::find(events, line.event) != events.end())
      last = &line;
    else if (last != nullptr && about(last->event).undone_by == line.event)
      last = nullptr;
  }
  return last;
}

std::vector<DiaryLine> lines_for(const std::vector<DiaryLine>& diary, std::string_view id) {
  std::vector<DiaryLine> lines;
  std::copy_if(diary.begin(), diary.end(), std::back_inserter(lines), [&](const DiaryLine& line) {
    return std::find(line.grafts.begin(), line.grafts.end(), id) != line.grafts.end();
  });
  return lines;
}

Outcome outcome_of(const GraftRow& row, const std::vector<DiaryLine>& lines, Instant until) {
  Outcome so_far{0, 0, 0, row.count};
  for (const DiaryLine& line : lines) {
    if (line.when > until) break;
    if (about(line.event).is_outcome) count_outcome(line, row.count, so_far);
  }
  return so_far;
}

}  // namespace graftcast
