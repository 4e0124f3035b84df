#pragma once
// wood.csv: scion wood in store.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/ledger.hpp"

namespace graftcast {

/// One row of wood.csv. An absent optional or an empty string means the cell was empty.
struct WoodRow {
  std::string id;
  std::string scion, species;
  LocalDay cut_on{};
  std::string stored;  ///< `fridge`, `shed`, `water` or `none`.
  std::string wrap;
  std::optional<int> count;  ///< Sticks or buds left.
  std::string comment;
  std::map<std::string, std::string> other;  ///< Unknown columns, kept as they are.
  std::size_t line = 0;
};

/// Reads `folder`/wood.csv; an absent file gives no rows. Required: `id`, `cut_on`, `stored`.
/// Errors: OpenError; DataError (line and column).
std::vector<WoodRow> read_wood(const std::filesystem::path& folder, const Clock& clock,
                               const KnownNames& known);

/// The same from the text of the file.
std::vector<WoodRow> wood_from_text(std::string_view text, const std::string& shown_name, const Clock& clock,
                                    const KnownNames& known);

/// The columns of wood.csv that have a meaning, in their usual order.
const std::vector<std::string>& wood_columns();

/// A new row of wood.csv as text, column name -> cell.
using WoodCells = std::map<std::string, std::string>;

/// Adds a row to `folder`/wood.csv (made when it is not there), as add_grafts does, and gives it as read
/// back.
WoodRow add_wood(const std::filesystem::path& folder, const Clock& clock, const KnownNames& known,
                 const WoodCells& wood);

/// The wood that the graft's `scion` names by its id, or nullptr.
const WoodRow* wood_of(const GraftRow& graft, const std::vector<WoodRow>& wood);

/// Gives each row of `grafts` whose `scion` names wood how that wood was kept.
void tell_of_wood(std::vector<GraftRow>& grafts, const std::vector<WoodRow>& wood);

/// Error: DataError at the row of `ledger_name` whose scion is wood that was cut after the graft was made or
/// that is of another species.
void check_wood(const std::vector<WoodRow>& wood, const Ledger& ledger, const std::string& ledger_name);

}  // namespace graftcast
