#pragma once
// Which column of a table holds what (private to the layer).

#include <string>
#include <vector>

#include "readers/quantity_names.hpp"
#include "readers/stamp.hpp"
#include "text/delimited_rows.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// One column that is read.
struct TableColumn {
  std::size_t field = 0;  ///< Index in the row.
  std::string header;     ///< As in the file, in UTF-8.
  Position position;      ///< Of the header.
  NamedQuantity named;
  Kind kind = Kind::mean;
  Unit unit;
  bool unit_assumed = false;
  std::vector<std::string> missing;
};

/// How the table is to be read.
struct TablePlan {
  StampColumns stamp;
  std::vector<TableColumn> columns;
  std::size_t width = 0;              ///< Fields of the header row.
  std::vector<std::string> unused;    ///< Headers that no column reads.
  std::vector<std::string> suspects;  ///< Unused headers that come near to a known name, with the hint.
};

/// Moves `rows` to the header row (the first one, within 60 rows, that names a time column and what is to be
/// read) and plans by it. With a column map the headers it names are looked for, else CF names.
/// Errors: DataError, with the position in the file.
TablePlan plan_table(DelimitedRows& rows, const SourceSettings& settings);

}  // namespace graftcast
