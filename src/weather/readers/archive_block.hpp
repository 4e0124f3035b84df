#pragma once
// The values of a public archive's rows, checked as they come (private to the layer).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "note_book.hpp"
#include "text/delimited_rows.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Rows of one block: columns named by the archive's own words. Values beyond the physical limits are set
/// aside and noted; so is a second value where one stands already.
class ArchiveBlock {
 public:
  ArchiveBlock(bool daily, NoteBook& notes) : daily_(daily), notes_(notes) {}

  /// Index of the channel; `name` is what notes call it. The same quantity and kind is one channel.
  /// `name` is shown in notes and marked with `tr_later` where it is of words.
  std::size_t channel(Quantity quantity, Kind kind, std::string_view name);
  /// Appends a row in which nothing is known.
  std::size_t add_row();
  /// `column` (from 1) is where the value stands in the current row of `rows`.
  void put(std::size_t channel, std::size_t row, double value, const DelimitedRows& rows, std::size_t column);
  double value(std::size_t channel, std::size_t row) const { return columns_[channel].value[row]; }
  std::size_t rows() const { return row_count_; }
  bool has_channels() const { return !columns_.empty(); }

  /// The block in rising order; `spans` has an entry a row, none for a row that is to be left out. Channels
  /// without a value and rows without any are dropped.
  Block take(const std::vector<std::optional<Span>>& spans);

 private:
  struct Column {
    Quantity quantity;
    Kind kind;
    std::string name;
    std::vector<double> value;
  };

  void note(const DelimitedRows& rows, std::size_t column, std::string_view kind, const std::string& text,
            double value);
  bool any_known(std::size_t row) const;

  bool daily_;
  NoteBook& notes_;
  std::size_t row_count_ = 0;
  std::vector<Column> columns_;
};

/// A number in characters [begin, begin + length) of the current row; blank or beyond the row's end: nothing.
/// Error: DataError at its place.
std::optional<double> number_at(const DelimitedRows& rows, std::size_t begin, std::size_t length,
                                std::string_view what);
/// The same, which must be there, be whole and lie within the limits.
int whole_number_at(const DelimitedRows& rows, std::size_t begin, std::size_t length, int least, int most,
                    std::string_view what);
/// Field `index` as a number; nothing where it is empty or the row ends before it. Error: DataError.
std::optional<double> number_in(const DelimitedRows& rows, std::size_t index, std::string_view what);
/// Field `index` as a whole number within the limits. Error: DataError.
int whole_number_in(const DelimitedRows& rows, std::size_t index, int least, int most, std::string_view what);

/// What turns a wind at 10 m, or at the height that the source names, into one at 2 m.
double wind_factor_to_2m(const SourceSettings& source);
/// Pressure at the site over pressure at sea level (FAO-56 eq. 7).
double site_over_sea_level(const Location& location);
/// Notes a station more than 50 km or 300 m of height from the site.
void note_distance(const Location& site, const Location& station, NoteBook& notes);

}  // namespace graftcast
