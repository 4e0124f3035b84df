#include "records/wood.hpp"

#include <algorithm>
#include <array>

#include "cell.hpp"
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

const std::vector<std::string> required_of_wood{"id", "cut_on", "stored"};
const std::vector<std::string> stores{"fridge", "shed", "water", "none"};

struct Setting {
  const Clock& clock;
  const KnownNames& known;
};

struct Column {
  const char* name;
  void (*read)(const Cell& cell, const Setting& setting, WoodRow& row);
};

void read_cut_on(const Cell& cell, const Setting& setting, WoodRow& row) {
  require_content(cell);
  row.cut_on = time_of(cell, setting.clock).day;
}

void read_stored(const Cell& cell, const Setting&, WoodRow& row) {
  require_content(cell);
  row.stored = cell.word_of(stores);
}

constexpr std::array readers{
    Column{"id", [](const Cell& cell, const Setting&, WoodRow& row) { row.id = id_of(cell); }},
    Column{"scion", [](const Cell& cell, const Setting&, WoodRow& row) { row.scion = cell.line(); }},
    Column{"species", [](const Cell& cell, const Setting& setting,
                         WoodRow& row) { row.species = cell.word_of(setting.known.species); }},
    Column{"cut_on", read_cut_on},
    Column{"stored", read_stored},
    Column{"wrap", [](const Cell& cell, const Setting& setting,
                      WoodRow& row) { row.wrap = cell.word_of(setting.known.wraps); }},
    Column{"count", [](const Cell& cell, const Setting&,
                       WoodRow& row) { row.count = cell.whole_number(0, 1'000'000); }},
    Column{"comment", [](const Cell& cell, const Setting&, WoodRow& row) { row.comment = cell.words(); }},
};

WoodRow row_of(const DelimitedRows& rows, const TableHeader& header, const Setting& setting) {
  header.check_width(rows);
  WoodRow row;
  row.line = rows.line();
  for (const Column& column : readers) {
    if (const auto index = header.index_of(column.name))
      column.read(Cell(rows, *index, column.name), setting, row);
  }
  for (std::size_t k = 0; k < header.columns().size(); ++k) {
    const std::string& name = header.columns()[k];
    if (!header.is_known(k) && !name.empty()) row.other.emplace(name, rows.fields()[k].text);
  }
  return row;
}

void check_duplicate(const Cell& cell, const WoodRow& row, const std::vector<WoodRow>& earlier) {
  for (const WoodRow& other : earlier) {
    if (other.id != row.id) continue;
    cell.fail(tr("the id {id} is already used on line {line}", "id"_a = shown(row.id), "line"_a = other.line),
              tr("give every row an id of its own"));
  }
}

[[noreturn]] void throw_wood_error(const GraftRow& graft, const std::string& ledger_name,
                                   const std::string& message, const std::string& hint) {
  throw DataError({ledger_name, graft.line, 0}, message, hint);
}

}  // namespace

const std::vector<std::string>& wood_columns() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> result;
    for (const Column& column : readers) result.emplace_back(column.name);
    return result;
  }();
  return names;
}

std::vector<WoodRow> wood_from_text(std::string_view text, const std::string& shown_name, const Clock& clock,
                                    const KnownNames& known) {
  DelimitedRows rows = DelimitedRows::from_memory(text, ',', shown_name);
  const TableHeader header(rows, wood_columns(), required_of_wood);
  std::vector<WoodRow> wood;
  while (rows.next()) {
    WoodRow row = row_of(rows, header, {clock, known});
    check_duplicate(Cell(rows, *header.index_of("id"), "id"), row, wood);
    wood.push_back(std::move(row));
  }
  return wood;
}

std::vector<WoodRow> read_wood(const std::filesystem::path& folder, const Clock& clock,
                               const KnownNames& known) {
  const std::filesystem::path file = folder / wood_file;
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return {};
  return wood_from_text(read_text_file(file), file.string(), clock, known);
}

WoodRow add_wood(const std::filesystem::path& folder, const Clock& clock, const KnownNames& known,
                 const WoodCells& wood) {
  const FolderLock lock(folder);
  const std::filesystem::path file = folder / wood_file;
  TableText table = TableText::open(file, wood_columns());
  wood_from_text(table.text(), file.string(), clock, known);
  const std::size_t lines_before = table.line_count();
  require_columns(table, wood, wood_columns());
  table.append(wood);
  try {
    WoodRow row = wood_from_text(table.text(), file.string(), clock, known).back();
    replace_file(file, table.text());
    return row;
  } catch (const DataError& error) {
    throw_error_of_added(error, lines_before);
  }
}

const WoodRow* wood_of(const GraftRow& graft, const std::vector<WoodRow>& wood) {
  const auto found =
      std::find_if(wood.begin(), wood.end(), [&](const WoodRow& row) { return row.id == graft.scion; });
  return found == wood.end() ? nullptr : &*found;
}

void tell_of_wood(std::vector<GraftRow>& grafts, const std::vector<WoodRow>& wood) {
  for (GraftRow& graft : grafts) {
    if (const WoodRow* row = wood_of(graft, wood))
      graft.wood = StoredWood{row->cut_on, row->stored, row->wrap};
  }
}

void check_wood(const std::vector<WoodRow>& wood, const Ledger& ledger, const std::string& ledger_name) {
  for (const GraftRow& graft : ledger.rows) {
    const WoodRow* row = wood_of(graft, wood);
    if (row == nullptr) continue;
    if (row->cut_on > graft.grafted_on) {
      throw_wood_error(graft, ledger_name,
                       tr("{id} was grafted on {grafted_on} from the wood {wood}, which was cut on {cut_on}",
                          "id"_a = graft.id, "grafted_on"_a = day_text(graft.grafted_on), "wood"_a = row->id,
                          "cut_on"_a = day_text(row->cut_on)),
                       tr("check both dates"));
    }
    if (!row->species.empty() && row->species != graft.species) {
      throw_wood_error(
          graft, ledger_name,
          tr("{id} is {species}, but its wood {wood} is {species_of_wood}", "id"_a = graft.id,
             "species"_a = graft.species, "wood"_a = row->id, "species_of_wood"_a = row->species),
          tr("check the species of both"));
    }
  }
}

}  // namespace graftcast
