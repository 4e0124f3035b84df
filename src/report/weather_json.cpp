#include "json_parts.hpp"
#include "report/json_report.hpp"

namespace graftcast {

namespace {

constexpr std::array all_variables{Variable::air_temperature, Variable::relative_humidity,
                                   Variable::wind_speed,      Variable::shortwave,
                                   Variable::precipitation,   Variable::gust,
                                   Variable::pressure};

Json origins_json(const WeatherDay& day) {
  Json origins = Json::object();
  for (const Variable variable : all_variables)
    origins[std::string(plain_name(variable))] = origin_name(day.origin[static_cast<std::size_t>(variable)]);
  return origins;
}

Json weather_day_json(const WeatherDay& day) {
  return {{"day", day_text(day.day)},
          {"hours", day.hours},
          {"length_h", day.length_h},
          {"air_temperature_min_c", number(day.air_temperature_min_c, 2)},
          {"air_temperature_max_c", number(day.air_temperature_max_c, 2)},
          {"relative_humidity_mean_pct", number(day.relative_humidity_mean_pct, 1)},
          {"vpd_mean_kpa", number(day.vpd_mean_kpa, 3)},
          {"vpd_max_kpa", number(day.vpd_max_kpa, 3)},
          {"wind_speed_mean_m_s", number(day.wind_speed_mean_m_s, 2)},
          {"shortwave_mj_m2", number(day.shortwave_mj_m2, 2)},
          {"precipitation_mm", number(day.precipitation_mm, 2)},
          {"et0_mm", number(day.et0_mm, 2)},
          {"degree_days", number(day.degree_days, 2)},
          {"sources", origins_json(day)}};
}

Json hour_json(const HourlyWeather& weather, std::size_t hour) {
  Json json{{"time", utc_text(weather.hour(hour))}};
  Json origins = Json::object();
  for (const Variable variable : all_variables) {
    json[std::string(variable_name(variable))] = number(weather[variable].value[hour], 3);
    origins[std::string(plain_name(variable))] = origin_name(weather[variable].origin[hour]);
  }
  json["sources"] = std::move(origins);
  return json;
}

bool has_null(const Json& rows) {
  for (const Json& row : rows)
    for (const auto& member : row)
      if (member.is_null()) return true;
  return false;
}

Json answer(std::string_view member, Json rows, ReportBasis basis) {
  if (has_null(rows))
    basis.warnings.emplace_back(
        "a number that is null could not be known: its hours are missing from every source (see gaps)");
  Json json = basis_json(basis);
  json[std::string(member)] = std::move(rows);
  return json;
}

}  // namespace

Json weather_days_json(std::span<const WeatherDay> days, ReportBasis basis) {
  Json rows = Json::array();
  for (const WeatherDay& day : days) rows.push_back(weather_day_json(day));
  return answer("days", std::move(rows), std::move(basis));
}

Json weather_hours_json(const HourlyWeather& weather, std::size_t from, std::size_t to, ReportBasis basis) {
  Json rows = Json::array();
  for (std::size_t hour = from; hour < to; ++hour) rows.push_back(hour_json(weather, hour));
  return answer("hours", std::move(rows), std::move(basis));
}

}  // namespace graftcast
