#pragma once
// The internal series: one value per variable and hour, with where each came from.

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// The variables of the hourly series, in their fixed units.
enum class Variable : std::uint8_t {
  air_temperature,    ///< degC, mean of the hour
  relative_humidity,  ///< %, 0..100
  wind_speed,         ///< m/s at 2 m
  shortwave,          ///< W/m2, global on the horizontal, mean of the hour
  precipitation,      ///< mm in the hour
  gust,               ///< m/s, greatest of the hour
  pressure,           ///< kPa at the station
};
inline constexpr std::size_t variable_count = 7;

/// CF-like short name with the unit, as in JSON: `air_temperature_c`, `shortwave_w_m2`, ...
std::string_view variable_name(Variable variable);

/// Where a value came from, in order of trust.
enum class Origin : std::uint8_t { measured, forecast, from_daily, derived, filled, missing };
std::string_view origin_name(
    Origin origin);  ///< `measured`, `forecast`, `from-daily`, `derived`, `filled`, `missing`

inline constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Hourly weather, UTC, gap-free in time: entry i covers [start + i h, start + (i + 1) h).
/// A value that is not known is NaN with Origin::missing; no other NaN occurs.
struct HourlyWeather {
  struct Column {
    std::vector<double> value;
    std::vector<Origin> origin;
    std::vector<std::uint16_t> source;  ///< Index into `sources`; meaningless where missing.

    bool known(std::size_t index) const { return origin[index] != Origin::missing; }
  };

  Hour start{};
  std::array<Column, variable_count> columns;
  std::vector<std::string> sources;  ///< Name of each source, in order of trust.
  std::vector<float>
      forecast_lead_h;  ///< Hours between the making of the forecast and the hour; 0 where measured.

  std::size_t size() const { return columns[0].value.size(); }
  Hour end() const { return start + std::chrono::hours(static_cast<long>(size())); }
  Hour hour(std::size_t index) const { return start + std::chrono::hours(static_cast<long>(index)); }
  const Column& operator[](Variable variable) const { return columns[static_cast<std::size_t>(variable)]; }
  Column& operator[](Variable variable) { return columns[static_cast<std::size_t>(variable)]; }
};

/// The courses of a service's ensemble forecast that a series takes its forecast from.
struct WeatherCourses {
  std::uint16_t source = 0;            ///< Index into `sources` of that series.
  std::vector<HourlyWeather> courses;  ///< The control run first, then the members; empty: no such forecast.
};

}  // namespace graftcast
