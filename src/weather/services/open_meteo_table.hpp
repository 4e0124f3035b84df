#pragma once
// What Open-Meteo's JSON and CSV have in common (private to the layer).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "services/answer_channel.hpp"
#include "weather/forecast_services.hpp"

namespace graftcast {

/// A variable of the service and what its stamp stands for.
struct OpenMeteoVariable {
  enum class Stamp : std::uint8_t { at, hour_before, day };

  std::string_view name;
  Quantity quantity;
  Kind kind;
  Stamp stamp;
  bool at_sea_level = false;
};

/// A column's name: the variable, and which course of an ensemble it belongs to.
struct OpenMeteoName {
  const OpenMeteoVariable* variable;
  std::string
      member;  ///< Empty: control run. Else `01`, `01_MODEL` or, for a model's own control run, `_MODEL`.
};

/// Names of models that occur in member columns of several models (`..._member01_MODEL`).
std::vector<std::string> models_in(const std::vector<std::string>& column_names);
/// Nothing for a variable that is of no use here. Old spellings (`windspeed_10m`) are known.
std::optional<OpenMeteoName> parse_open_meteo_name(std::string_view column, bool daily,
                                                   const std::vector<std::string>& models);

struct OpenMeteoColumn {
  OpenMeteoName name;
  AnswerField field;
  std::vector<double> value;  ///< In the field's unit; NaN where missing.
};

/// The field of a column. Error: RangeError for an unknown unit.
AnswerField open_meteo_field(const OpenMeteoVariable& variable, std::string_view unit,
                             const Location& location);

/// Columns with one time axis; `time` is UTC (of a day its begin) and rises.
struct OpenMeteoSection {
  std::vector<Instant> time;
  std::vector<OpenMeteoColumn> columns;
};

struct OpenMeteoTable {
  std::optional<AnswerPlace> place;
  std::vector<OpenMeteoSection> sections;
};

/// A stamp of the service, an ISO time or date without offset, or seconds since 1970; nothing for other text.
/// `offset` is the answer's constant one, which only texts need.
std::optional<Instant> parse_open_meteo_time(std::string_view text, std::chrono::seconds offset);

OpenMeteoTable open_meteo_json(std::string_view text, const Location& location, const AnswerOrigin& origin);
OpenMeteoTable open_meteo_csv(std::string_view text, const Location& location, const AnswerOrigin& origin,
                              NoteBook& notes);

}  // namespace graftcast
