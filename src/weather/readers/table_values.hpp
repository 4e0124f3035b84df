#pragma once
// The values of a table's columns while its rows go by (private to the layer).

#include <string>
#include <string_view>
#include <vector>

#include "note_book.hpp"
#include "plausibility.hpp"
#include "readers/table_plan.hpp"
#include "text/delimited_rows.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// True for the usual words for no value, and for an empty cell.
bool is_missing_word(std::string_view text);
/// A word that stands for zero: a trace of rain, no wind.
bool is_zero_word(Quantity quantity, std::string_view text);
/// A number; with `decimal_comma` a single comma may stand for the point.
std::optional<double> parse_decimal(std::string_view text, bool decimal_comma);

/// One column: turns fields into values of the own unit.
class ColumnValues {
 public:
  /// `rows`: how many are to be expected.
  ColumnValues(TableColumn column, bool daily, bool decimal_comma, std::size_t rows);

  /// Takes the current row's field. Error: DataError where it is neither a number nor a code for none.
  void take(const DelimitedRows& rows, NoteBook& notes);
  /// All values as a channel, those that cannot be set to NaN. Error: DataError where another unit is likely.
  Channel finish(const SourceSettings& source, const Location& location, NoteBook& notes);
  const TableColumn& column() const { return column_; }

 private:
  double number(const DelimitedRows& rows) const;
  double own_value(double number) const;
  void note_beyond(const DelimitedRows& rows, double value, NoteBook& notes);
  void refuse_wrong_unit() const;

  TableColumn column_;
  bool daily_;
  bool decimal_comma_;
  Limits limits_;
  std::vector<double> missing_numbers_;
  Channel channel_;
  std::string beyond_text_;
  bool any_beyond_ = false;
};

}  // namespace graftcast
