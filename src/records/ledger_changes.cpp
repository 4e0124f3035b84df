// Adding rows to grafts.csv.

#include <algorithm>

#include <fmt/format.h>

#include "record_files.hpp"
#include "records/folder_lock.hpp"
#include "records/ledger.hpp"
#include "table_text.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

// The number n of an id `Gn`, or 0.
int number_of(std::string_view id) {
  if (!id.starts_with('G')) return 0;
  const auto number = parse_number(id.substr(1));
  return number && *number >= 1 && *number < 1e8 ? static_cast<int>(*number) : 0;
}

std::vector<GraftCells> with_ids(std::vector<GraftCells> grafts, const Ledger& ledger) {
  int last = 0;
  for (const GraftRow& row : ledger.rows) last = std::max(last, number_of(row.id));
  for (const GraftCells& graft : grafts) {
    if (const auto id = graft.find("id"); id != graft.end()) last = std::max(last, number_of(id->second));
  }
  for (GraftCells& graft : grafts) {
    std::string& id = graft["id"];
    if (id.empty()) id = fmt::format("G{}", ++last);
  }
  return grafts;
}

}  // namespace

std::vector<GraftRow> add_grafts(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                 const KnownNames& known, const std::vector<GraftCells>& grafts) {
  const FolderLock lock(folder);
  const std::filesystem::path file = folder / grafts_file;
  TableText table = TableText::open(file, graft_columns());
  const Ledger before = ledger_from_text(table.text(), file.string(), site, clock, known);
  const std::size_t lines_before = table.line_count();
  for (const GraftCells& graft : with_ids(grafts, before)) {
    require_columns(table, graft, graft_columns());
    table.append(graft);
  }
  try {
    const Ledger after = ledger_from_text(table.text(), file.string(), site, clock, known);
    replace_file(file, table.text());
    return {after.rows.begin() + static_cast<std::ptrdiff_t>(before.rows.size()), after.rows.end()};
  } catch (const DataError& error) {
    throw_error_of_added(error, lines_before);
  }
}

}  // namespace graftcast
