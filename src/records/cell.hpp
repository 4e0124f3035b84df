#pragma once
// Reading one cell of a table of records (private to the layer).

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "text/delimited_rows.hpp"

namespace graftcast {

/// One cell of the current row, which knows its column's name and its place.
/// Every reading of an empty cell gives an absent or empty value; every error is a DataError at the cell.
class Cell {
 public:
  Cell(const DelimitedRows& rows, std::size_t index, std::string_view column)
      : rows_(rows), index_(index), column_(column) {}

  /// Content without blanks at its ends.
  std::string_view text() const;
  bool empty() const { return text().empty(); }
  std::string_view column() const { return column_; }
  Position position() const { return rows_.position(index_); }
  [[noreturn]] void fail(const std::string& message, const std::string& hint = {}) const;

  /// Text for people. Refuses control characters and more than 10,000 bytes.
  std::string words() const;
  /// As `words`, in one line.
  std::string line() const;
  /// A number from `low` to `high` in `unit` (empty: none).
  std::optional<double> number(double low, double high, std::string_view unit) const;
  std::optional<int> whole_number(int low, int high) const;
  /// One of `known`.
  std::string word_of(std::span<const std::string> known) const;

 private:
  const DelimitedRows& rows_;
  std::size_t index_;
  std::string_view column_;
};

/// What a date, or a date and time, of a record says.
struct RecordTime {
  LocalDay day;
  std::optional<Instant> instant;  ///< Only where a time was given.
};

/// The time in a cell that is not empty. A clock reading that occurs twice is taken as the earlier one.
/// Errors: no such day or reading; a year outside 1900..2100.
RecordTime time_of(const Cell& cell, const Clock& clock);

/// Limits of a number as a hint; `unit` is marked with `tr_later` where it is a word, or empty.
std::string range_hint(double low, double high, std::string_view unit);

/// The names of `known` that come nearest to `wrong`, or all of them when none is near.
std::string names_hint(std::string_view wrong, std::span<const std::string> known);

}  // namespace graftcast
