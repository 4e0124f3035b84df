#pragma once
// A table whose headers are its own, read whole (private to the layer).

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/error.hpp"
#include "readers/header_guess.hpp"
#include "weather/reading.hpp"
#include "weather/units.hpp"

namespace graftcast {

struct ForeignColumn {
  std::string header;
  HeaderGuess guess;
  Position position;
  std::vector<std::string> texts;  ///< Cell by cell, without blanks at the ends.
};

struct ForeignTable {
  std::vector<ForeignColumn> columns;
  bool decimal_comma = false;
};

/// Finds the header row (the one in the first 60 with most headers that mean something) and reads what is
/// below. Error: DataError where no row has a time and a quantity.
ForeignTable read_foreign_table(const std::filesystem::path& path);

/// What the values of a column say.
struct ColumnValuesGuess {
  std::vector<std::string> missing;  ///< Codes for no value.
  std::vector<double> numbers;       ///< Without them.
  bool readable = true;              ///< False: too many cells are no numbers.
  bool never_falls = false;          ///< Not once.
  bool rests = false;                ///< Above zero for much longer than it rises: a counter between rains.
  bool grows = false;                ///< Like a running total: it falls far more seldom than it rises.
};
/// `limits_in_unit`: codes such as -999 are codes only outside what the quantity can be.
ColumnValuesGuess guess_values(const ForeignColumn& column, bool decimal_comma, Quantity quantity, Kind kind,
                               const Unit& unit, bool daily);

/// The time of the rows: a column map's keys and formats.
struct TimeGuess {
  struct Part {
    std::string key;     ///< `time`, `date`, ...
    std::size_t column;  ///< Index into the table.
    std::string format;  ///< Empty: ISO 8601.
  };
  std::vector<Part> parts;
  bool day_only = false;
};
/// Error: DataError where no column holds times, or day and month cannot be told apart.
TimeGuess guess_time(const ForeignTable& table);

}  // namespace graftcast
