#pragma once
// What each column of grafts.csv holds (private to the layer).

#include <span>
#include <string_view>

#include "cell.hpp"
#include "records/ledger.hpp"

namespace graftcast {

/// What the cells of a ledger are checked against.
struct LedgerSetting {
  const Site& site;
  const Clock& clock;
  const KnownNames& known;
};

/// A column and how its cell is read into a row. Errors of `read`: DataError at the cell.
struct GraftColumn {
  std::string_view name;
  void (*read)(const Cell& cell, const LedgerSetting& setting, GraftRow& row);
};

std::span<const GraftColumn> graft_column_readers();

/// An id as a record may give it: one word that cannot be taken for a range or a selection of grafts.
/// Errors: DataError at the cell.
std::string id_of(const Cell& cell);

/// Names of the site's spots, for hints.
std::vector<std::string> spot_names(const Site& site);

/// Error: DataError at the cell when it is empty.
void require_content(const Cell& cell);

}  // namespace graftcast
