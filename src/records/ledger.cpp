#include "records/ledger.hpp"

#include <algorithm>
#include <unordered_map>

#include "ledger_columns.hpp"
#include "record_files.hpp"
#include "table_header.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

const std::vector<std::string> required_of_grafts{"id", "grafted_on", "species", "method"};

// The known columns of one file: where each stands and how it is read.
struct PlacedColumn {
  std::size_t index;
  const GraftColumn* column;
};

std::vector<PlacedColumn> placed_columns(const TableHeader& header) {
  std::vector<PlacedColumn> placed;
  for (const GraftColumn& column : graft_column_readers()) {
    if (const auto index = header.index_of(column.name)) placed.push_back({*index, &column});
  }
  // In the order of the file, so that the first bad field of a row is the one reported.
  std::sort(placed.begin(), placed.end(), [](const auto& a, const auto& b) { return a.index < b.index; });
  return placed;
}

GraftRow row_of(const DelimitedRows& rows, const TableHeader& header, const std::vector<PlacedColumn>& placed,
                const LedgerSetting& setting) {
  header.check_width(rows);
  GraftRow row;
  row.line = rows.line();
  for (const auto& [index, column] : placed) column->read(Cell(rows, index, column->name), setting, row);
  for (std::size_t k = 0; k < header.columns().size(); ++k) {
    const std::string& name = header.columns()[k];
    if (!header.is_known(k) && !name.empty()) row.other.emplace(name, rows.fields()[k].text);
  }
  return row;
}

// Ids already read, with their place in `rows`.
using RowsById = std::unordered_map<std::string, std::size_t>;

void check_duplicate(const Cell& cell, const GraftRow& row, const Ledger& ledger, const RowsById& by_id) {
  const auto found = by_id.find(row.id);
  if (found == by_id.end()) return;
  cell.fail(tr("the id {id} is already used on line {line}", "id"_a = shown(row.id),
               "line"_a = ledger.rows[found->second].line),
            tr("give every row an id of its own"));
}

// A row together with the place of its `replaces`, which may name a row further down.
struct Replacement {
  std::size_t row;
  Position position;
};

[[noreturn]] void throw_unknown_replaced(const Ledger& ledger, const Replacement& replacement) {
  std::vector<std::string> ids;
  for (const GraftRow& row : ledger.rows) ids.push_back(row.id);
  const std::string& wrong = ledger.rows[replacement.row].replaces;
  const std::string near = nearest_hint(wrong, ids);
  throw DataError(replacement.position,
                  tr("replaces {id}, which is not in the ledger", "id"_a = shown(wrong)),
                  near.empty() ? tr("give the id of an earlier graft") : near);
}

// The order (day, line) falls along a chain of replacements, so no chain comes back to where it began.
void check_replacement(const Ledger& ledger, const RowsById& by_id, const Replacement& replacement) {
  const GraftRow& row = ledger.rows[replacement.row];
  const auto found = by_id.find(row.replaces);
  if (found == by_id.end()) throw_unknown_replaced(ledger, replacement);
  const GraftRow& old = ledger.rows[found->second];
  const bool is_earlier =
      old.grafted_on < row.grafted_on || (old.grafted_on == row.grafted_on && old.line < row.line);
  if (is_earlier) return;
  throw DataError(
      replacement.position,
      tr("replaces {id}, which was grafted on {grafted_on}, not before {own_date}", "id"_a = shown(old.id),
         "grafted_on"_a = day_text(old.grafted_on), "own_date"_a = day_text(row.grafted_on)),
      tr("a graft can replace only an earlier one"));
}

}  // namespace

const GraftRow* Ledger::find(std::string_view id) const {
  const auto found =
      std::find_if(rows.begin(), rows.end(), [&](const GraftRow& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

const std::vector<std::string>& graft_columns() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> result;
    for (const GraftColumn& column : graft_column_readers()) result.emplace_back(column.name);
    return result;
  }();
  return names;
}

Ledger ledger_from_text(std::string_view text, const std::string& shown_name, const Site& site,
                        const Clock& clock, const KnownNames& known) {
  DelimitedRows rows = DelimitedRows::from_memory(text, ',', shown_name);
  const TableHeader header(rows, graft_columns(), required_of_grafts);
  const auto placed = placed_columns(header);
  const std::size_t id_index = *header.index_of("id");
  Ledger ledger{header.columns(), {}, header.warnings()};
  RowsById by_id;
  std::vector<Replacement> replacements;
  while (rows.next()) {
    GraftRow row = row_of(rows, header, placed, {site, clock, known});
    check_duplicate(Cell(rows, id_index, "id"), row, ledger, by_id);
    by_id.emplace(row.id, ledger.rows.size());
    if (!row.replaces.empty())
      replacements.push_back({ledger.rows.size(), rows.position(*header.index_of("replaces"))});
    ledger.rows.push_back(std::move(row));
  }
  for (const Replacement& replacement : replacements) check_replacement(ledger, by_id, replacement);
  return ledger;
}

Instant when_grafted(const GraftRow& row, const Clock& clock) {
  return row.grafted_at.value_or(clock.noon_of(row.grafted_on));
}

Ledger read_ledger(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                   const KnownNames& known) {
  const std::filesystem::path file = folder / grafts_file;
  return ledger_from_text(read_text_file(file), file.string(), site, clock, known);
}

}  // namespace graftcast
