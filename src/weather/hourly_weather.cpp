#include "weather/hourly_weather.hpp"

namespace graftcast {

namespace {
constexpr std::array<std::string_view, variable_count> variable_names = {
    "air_temperature_c", "relative_humidity_pct", "wind_speed_m_s", "shortwave_w_m2", "precipitation_mm",
    "gust_m_s",          "pressure_kpa"};
constexpr std::array<std::string_view, 6> origin_names = {"measured", "forecast", "from-daily",
                                                          "derived",  "filled",   "missing"};
}  // namespace

std::string_view variable_name(Variable variable) {
  return variable_names.at(static_cast<std::size_t>(variable));
}

std::string_view origin_name(Origin origin) {
  return origin_names.at(static_cast<std::size_t>(origin));
}

}  // namespace graftcast
