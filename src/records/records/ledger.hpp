#pragma once
// grafts.csv: one row a graft, or a batch grafted alike.

#include <filesystem>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/error.hpp"
#include "parameters/known_names.hpp"
#include "records/site.hpp"

namespace graftcast {

/// How the wood that a scion came from was kept, as wood.csv has it.
struct StoredWood {
  LocalDay cut_on{};
  std::string stored;  ///< `fridge`, `shed`, `water` or `none`.
  std::string wrap;    ///< Empty: as is usual for that store.
  bool operator==(const StoredWood&) const = default;
};

/// One row of grafts.csv. An absent optional or an empty string means the cell was empty.
struct GraftRow {
  std::string id;
  LocalDay grafted_on{};
  std::optional<Instant> grafted_at;  ///< When the cell gave a time as well.
  std::string scion, species, method, stock, stock_species, position, replaces;
  std::string scion_state;  ///< `dormant`, `leafless-evergreen`, `leafy` or empty.
  std::optional<double> diameter_mm, length_mm;
  std::optional<int> buds;
  std::string tip;                                ///< `sealed`, `open` or empty.
  std::optional<std::string> cambium_match_word;  ///< `both` or `one-side`.
  std::optional<double> cambium_match_share;      ///< 0..1.
  std::string spot, wrap, cover;
  std::optional<double> shade;  ///< 0..0.95.
  std::optional<double> pot_litres;
  int count = 1;
  double priority = 1;
  std::string grafter, comment;
  std::map<std::string, std::string> other;  ///< Unknown columns, kept as they are.
  std::size_t line = 0;                      ///< Where the row begins in the file.
  std::optional<StoredWood> wood;  ///< Not of the file: what wood.csv says where `scion` names a row of it.
  bool operator==(const GraftRow&) const = default;
};

/// The moment of grafting; noon where the row gives only a date.
Instant when_grafted(const GraftRow& row, const Clock& clock);

struct Ledger {
  std::vector<std::string> columns;  ///< Header as it stands in the file.
  std::vector<GraftRow> rows;
  std::vector<std::string> warnings;  ///< Unknown columns whose names look like a slip of the pen.
  const GraftRow* find(std::string_view id) const;
};

/// Reads and checks `folder`/grafts.csv against the site and the known names.
/// Errors: OpenError; DataError at the line and column of the first bad field, with the nearest valid names.
Ledger read_ledger(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                   const KnownNames& known);

/// The same from the text of the file; `shown_name` is what messages call it.
Ledger ledger_from_text(std::string_view text, const std::string& shown_name, const Site& site,
                        const Clock& clock, const KnownNames& known);

/// The columns of grafts.csv that have a meaning, in their usual order.
const std::vector<std::string>& graft_columns();

/// A new graft as text, column name -> cell. Without `id` it gets the next free one, `G1`, `G2`, ...
using GraftCells = std::map<std::string, std::string>;

/// Adds rows to `folder`/grafts.csv (made when it is not there), under the folder's lock, durably. What
/// stands in the file stays as it is, byte for byte; a column that a new graft needs and the file lacks is
/// added. Gives the new rows as read back. Errors: those of read_ledger (nothing is then written; without a
/// position when it is the new graft that is wrong), UsageError for an unknown column, WriteError.
std::vector<GraftRow> add_grafts(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                 const KnownNames& known, const std::vector<GraftCells>& grafts);

}  // namespace graftcast
