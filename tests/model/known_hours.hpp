#pragma once
// Series whose values tell which hour they are of, to see where a completed series took them from.

#include <cmath>
#include <functional>

#include "weather/hourly_weather.hpp"

namespace graftcast::testing {

/// The hour's own number: hours since 2000-01-01 00:00 UTC, as a temperature in thousandths of a degree.
inline double stamp_of(Hour hour) {
  const Hour origin = std::chrono::sys_days{std::chrono::January / 1 / 2000};
  return 1e-4 * static_cast<double>((hour - origin).count());
}

inline bool needed_by_model(Variable variable) {
  return variable == Variable::air_temperature || variable == Variable::relative_humidity ||
         variable == Variable::wind_speed || variable == Variable::shortwave;
}

/// Fills or blanks everything that the model needs in hour `index`.
inline void set_known(HourlyWeather& weather, std::size_t index, bool known) {
  for (std::size_t v = 0; v < variable_count; ++v) {
    const auto variable = static_cast<Variable>(v);
    if (!needed_by_model(variable)) continue;
    const double value = variable == Variable::air_temperature     ? stamp_of(weather.hour(index))
                         : variable == Variable::relative_humidity ? 60
                         : variable == Variable::wind_speed        ? 1.5
                                                                   : 100;
    weather.columns[v].value[index] = known ? value : unknown;
    weather.columns[v].origin[index] = known ? Origin::measured : Origin::missing;
  }
}

/// Hours [start, start + hours) with temperature, humidity, wind and radiation known where `known(index)`
/// holds.
inline HourlyWeather known_hours(
    Hour start, std::size_t hours,
    const std::function<bool(std::size_t)>& known = [](std::size_t) { return true; }) {
  HourlyWeather weather;
  weather.start = start;
  weather.sources = {"made"};
  for (auto& column : weather.columns) {
    column.value.assign(hours, unknown);
    column.origin.assign(hours, Origin::missing);
    column.source.assign(hours, 0);
  }
  weather.forecast_lead_h.assign(hours, 0.0F);
  for (std::size_t i = 0; i < hours; ++i) set_known(weather, i, known(i));
  return weather;
}

/// The hour from which hour `index` of `weather` was taken.
inline Hour taken_from(const HourlyWeather& weather, std::size_t index) {
  const Hour origin = std::chrono::sys_days{std::chrono::January / 1 / 2000};
  return origin + std::chrono::hours(std::lround(1e4 * weather[Variable::air_temperature].value[index]));
}

}  // namespace graftcast::testing
