#pragma once
// The header row of a table of records (private to the layer).

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "text/delimited_rows.hpp"

namespace graftcast {

/// Column names of a table and where each stands.
class TableHeader {
 public:
  /// Reads the first row of `rows`. `known` are the columns with a meaning, `required` those that must be
  /// there. Errors: DataError for an empty file, a column given twice or a required one that is missing.
  TableHeader(DelimitedRows& rows, std::span<const std::string> known, std::span<const std::string> required);

  const std::vector<std::string>& columns() const noexcept { return columns_; }
  std::optional<std::size_t> index_of(std::string_view column) const;
  bool is_known(std::size_t index) const { return known_[index]; }
  /// What looks like a slip of the pen in the names of unknown columns.
  const std::vector<std::string>& warnings() const noexcept { return warnings_; }
  /// Error: DataError when the current row has not one field a column.
  void check_width(const DelimitedRows& rows) const;

 private:
  void check_required(const DelimitedRows& rows, std::span<const std::string> required) const;
  void check_names(const DelimitedRows& rows, std::span<const std::string> known);

  std::vector<std::string> columns_;
  std::vector<bool> known_;
  std::vector<std::string> warnings_;
};

}  // namespace graftcast
