#pragma once
// The time of a row, in one column or several (private to the layer).

#include <optional>
#include <string>

#include "readers/time_pattern.hpp"
#include "text/delimited_rows.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// A row's time as the file shows it.
struct RowStamp {
  ParsedTime time;
  bool day_only = false;
};

/// The columns that make up a row's time. Either `time` alone; or `date` alone or with `time`; or `year`,
/// `month` and `day` (or `day_of_year`), alone or with `hour` (0..24, or hhmm as one number) and `minute`.
struct StampColumns {
  struct Part {
    std::size_t field = 0;
    std::string header;
    std::optional<TimePattern> pattern;  ///< Absent: ISO 8601.
  };
  std::optional<Part> time, date, year, month, day, day_of_year, hour, minute;
  bool utc = false;  ///< The header says so: `time [UTC]`.

  bool complete() const { return time || date || (year && ((month && day) || day_of_year)); }
  /// Field of the part that leads: the time, the date or the year.
  std::size_t first_field() const { return date ? date->field : time ? time->field : year->field; }
  /// The time of the current row. Error: DataError at the field that is wrong.
  RowStamp read(const DelimitedRows& rows) const;
  /// The part that a mapping key such as `year` names, or nothing.
  std::optional<Part>* part(std::string_view key);
};

}  // namespace graftcast
