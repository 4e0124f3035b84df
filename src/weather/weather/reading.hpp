#pragma once
// What every reader hands over: values that each stand for an interval of time.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/units.hpp"

namespace graftcast {

/// What a reading measures. The first seven are the variables of the hourly series, in the same order.
enum class Quantity : std::uint8_t {
  air_temperature,    ///< degC
  relative_humidity,  ///< %
  wind_speed,         ///< m/s at 2 m
  shortwave,          ///< W/m2; as a sum MJ/m2
  precipitation,      ///< mm as a sum; mm/h as a mean
  gust,               ///< m/s at 2 m
  pressure,           ///< kPa at the station
  dew_point,          ///< degC
  cloud_cover,        ///< %
};
inline constexpr std::size_t quantity_count = 9;

/// CF standard name, as in headers: `air_temperature`, `surface_downwelling_shortwave_flux_in_air`, ...
std::string_view cf_name(Quantity quantity);

/// How the value stands for its interval.
enum class Kind : std::uint8_t {
  instant,  ///< At `begin`; `end` is the same.
  mean,
  sum,
  minimum,
  maximum,
};

/// [begin, end) in UTC.
struct Span {
  Instant begin;
  Instant end;
  bool operator==(const Span&) const = default;
};

/// One column of readings in the own unit of its quantity; NaN where there is none.
struct Channel {
  Quantity quantity = Quantity::air_temperature;
  Kind kind = Kind::mean;
  std::vector<double> value;
};

/// Columns that share their intervals. `spans` rise by `begin`; each channel has as many values.
struct Block {
  std::vector<Span> spans;
  std::vector<Channel> channels;
};

/// Something about the data that the reader of a result must know.
struct QualityNote {
  std::string source;                  ///< Name of the source, usually its file.
  std::string kind;                    ///< Stable word: `beyond-limits`, `absent-hour`, ...
  std::size_t count = 0;               ///< Values or rows concerned.
  std::string text;                    ///< One sentence: what, and what was done about it.
  std::vector<std::string> examples;   ///< `file:line:column: value`, or `time: value`, a few.
  std::optional<Instant> latest = {};  ///< End of the latest hour concerned, where that matters.
};

/// True for a note on how a source is made and was read (a typical year, columns that are not read, ...): the
/// same every day, so worth saying when the file comes in and when the weather is looked at, not each
/// morning.
bool is_about_format(const QualityNote& note);

/// All that one source says.
struct Readings {
  std::string source;
  bool is_forecast = false;
  std::optional<Instant> made_at;  ///< Only of a forecast.
  std::vector<Block> blocks;
  std::vector<QualityNote> notes;
  std::string credit = {};             ///< Line that a service's terms ask to be shown; else empty.
  std::vector<Readings> members = {};  ///< Of an ensemble forecast: its courses beside this control run.
};

/// True for an interval that is a whole day (20 to 28 h: any day length, with summer time).
constexpr bool is_daily(const Span& span) {
  return span.end - span.begin >= std::chrono::hours(20) && span.end - span.begin <= std::chrono::hours(28);
}

}  // namespace graftcast
