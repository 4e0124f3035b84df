#pragma once
// Days of a GHCN-Daily record, whichever layout they come in (private to the layer).

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "readers/archive_block.hpp"
#include "readers/time_line.hpp"

namespace graftcast {

/// One value of a GHCN-Daily record.
struct GhcnValue {
  std::string_view element;  ///< `TMAX`, `PRCP`, ...
  LocalDay day;
  double number = 0;  ///< As in the file.
  char quality = ' ';
  std::optional<std::chrono::minutes> read_at;  ///< Local hour of observation, 0..24 h; 24 h ends the day.
};

/// Collects values; the order does not matter.
class GhcnDays {
 public:
  GhcnDays(const SourceSettings& source, const Clock& clock, std::string name);

  /// `column` is where the value stands. -9999 is passed over.
  void take(const GhcnValue& value, const DelimitedRows& rows, std::size_t column);
  /// Refuses rows of another station than the first. Error: DataError.
  void check_station(std::string_view id, const DelimitedRows& rows, std::size_t column);
  Readings finish();

 private:
  struct Element;
  static const Element* find_element(std::string_view name);
  double own_value(const Element& element, double number) const;
  Span span_of(const GhcnValue& value, const Element& element);
  std::size_t row_of(const Span& span);

  std::string name_;
  std::string station_;
  NoteBook notes_;
  ArchiveBlock block_{true, notes_};
  SourceClock clock_;
  double wind_factor_;
  std::map<std::pair<Instant, Instant>, std::size_t> row_of_span_;
  std::map<std::string, std::size_t, std::less<>> unused_;
  bool any_read_at_ = false;
};

}  // namespace graftcast
