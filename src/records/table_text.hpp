#pragma once
// The text of a table of records, changed only where asked: everything else stays as it is, byte for byte
// (private to the layer).

#include <filesystem>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/error.hpp"

namespace graftcast {

/// Column name -> text of the cell.
using Cells = std::map<std::string, std::string>;

class TableText {
 public:
  /// The table in `file`, or, where there is none, an empty one with the header `columns`.
  /// Errors: OpenError, DataError.
  static TableText open(const std::filesystem::path& file, std::span<const std::string> columns);
  /// `text` with its header row, a byte-order mark included where there is one.
  TableText(std::string text, std::string name);

  const std::string& text() const noexcept { return text_; }
  const std::vector<std::string>& columns() const noexcept { return columns_; }
  /// Number of lines, counting a last one without its line end.
  std::size_t line_count() const;
  /// Adds a row at the end, on a line of its own, and the columns that it needs beyond those there are.
  void append(const Cells& cells);
  /// Adds those of `columns` that the table lacks, at its end; the cells of the rows there are stay empty.
  void add_missing_columns(std::span<const std::string> columns);
  /// Adds a copy of the row that begins on `line`, with `changes`.
  void append_copy(std::size_t line, const Cells& changes);
  /// Puts `value` in the cell of `column` of the row that begins on `line`. The column must be there.
  void set_cell(std::size_t line, std::string_view column, std::string_view value);

 private:
  struct Row {
    std::size_t line, begin, end;  // Bytes [begin, end), without the line end.
  };

  std::vector<Row> rows() const;
  Row row_at(std::size_t line) const;
  std::size_t index_of(std::string_view column) const;
  void add_column(const std::string& name);
  void append_line(std::string_view line);

  std::string text_;
  std::string name_;
  std::string line_end_;
  std::vector<std::string> columns_;
};

/// Error: UsageError when `cells` names a column that is neither among `known` nor in the table.
void require_columns(const TableText& table, const Cells& cells, std::span<const std::string> known);

/// Throws `error`, met in a table after lines were added beyond `line_count`: without its place when it lies
/// there, because those lines are not in the file.
[[noreturn]] void throw_error_of_added(const DataError& error, std::size_t line_count);

/// `row` (one row's bytes) with its field `index` replaced.
std::string with_field(std::string_view row, std::size_t index, std::string_view value);

}  // namespace graftcast
