// Variables of Open-Meteo and how their columns are named.

#include <algorithm>
#include <array>
#include <cmath>

#include "services/open_meteo_table.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

using Stands = OpenMeteoVariable::Stamp;

constexpr auto hourly_variables = std::to_array<OpenMeteoVariable>({
    {"temperature_2m", Quantity::air_temperature, Kind::instant, Stands::at},
    {"relative_humidity_2m", Quantity::relative_humidity, Kind::instant, Stands::at},
    {"relativehumidity_2m", Quantity::relative_humidity, Kind::instant, Stands::at},
    {"dew_point_2m", Quantity::dew_point, Kind::instant, Stands::at},
    {"dewpoint_2m", Quantity::dew_point, Kind::instant, Stands::at},
    {"wind_speed_10m", Quantity::wind_speed, Kind::instant, Stands::at},
    {"windspeed_10m", Quantity::wind_speed, Kind::instant, Stands::at},
    {"wind_gusts_10m", Quantity::gust, Kind::maximum, Stands::hour_before},
    {"windgusts_10m", Quantity::gust, Kind::maximum, Stands::hour_before},
    {"shortwave_radiation", Quantity::shortwave, Kind::mean, Stands::hour_before},
    {"precipitation", Quantity::precipitation, Kind::sum, Stands::hour_before},
    {"surface_pressure", Quantity::pressure, Kind::instant, Stands::at},
    {"pressure_msl", Quantity::pressure, Kind::instant, Stands::at, true},
    {"cloud_cover", Quantity::cloud_cover, Kind::instant, Stands::at},
    {"cloudcover", Quantity::cloud_cover, Kind::instant, Stands::at},
});

constexpr auto daily_variables = std::to_array<OpenMeteoVariable>({
    {"temperature_2m_max", Quantity::air_temperature, Kind::maximum, Stands::day},
    {"temperature_2m_min", Quantity::air_temperature, Kind::minimum, Stands::day},
    {"temperature_2m_mean", Quantity::air_temperature, Kind::mean, Stands::day},
    {"relative_humidity_2m_max", Quantity::relative_humidity, Kind::maximum, Stands::day},
    {"relative_humidity_2m_min", Quantity::relative_humidity, Kind::minimum, Stands::day},
    {"relative_humidity_2m_mean", Quantity::relative_humidity, Kind::mean, Stands::day},
    {"dew_point_2m_mean", Quantity::dew_point, Kind::mean, Stands::day},
    {"wind_speed_10m_mean", Quantity::wind_speed, Kind::mean, Stands::day},
    {"wind_gusts_10m_max", Quantity::gust, Kind::maximum, Stands::day},
    {"windgusts_10m_max", Quantity::gust, Kind::maximum, Stands::day},
    {"shortwave_radiation_sum", Quantity::shortwave, Kind::sum, Stands::day},
    {"precipitation_sum", Quantity::precipitation, Kind::sum, Stands::day},
    {"surface_pressure_mean", Quantity::pressure, Kind::mean, Stands::day},
    {"cloud_cover_mean", Quantity::cloud_cover, Kind::mean, Stands::day},
});

constexpr std::string_view member_mark = "_member";

/// `NN` or `NN_MODEL` behind the mark, at least two digits.
bool is_member(std::string_view text) {
  const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
  return digits >= 2 && (digits == text.size() || (text[digits] == '_' && digits + 1 < text.size()));
}

/// The course that `rest`, the column's name behind the variable, names; nothing when it is another
/// variable's.
std::optional<std::string> member_of(std::string_view rest, const std::vector<std::string>& models) {
  if (rest.empty()) return "";
  if (rest.starts_with(member_mark) && is_member(rest.substr(member_mark.size())))
    return std::string(rest.substr(member_mark.size()));
  if (rest.front() == '_' && std::ranges::find(models, rest.substr(1)) != models.end())
    return std::string(rest);
  return std::nullopt;
}

template <class Variables>
std::optional<OpenMeteoName> find_name(const Variables& variables, std::string_view column,
                                       const std::vector<std::string>& models) {
  for (const OpenMeteoVariable& variable : variables) {
    if (!column.starts_with(variable.name)) continue;
    if (auto member = member_of(column.substr(variable.name.size()), models))
      return OpenMeteoName{&variable, std::move(*member)};
  }
  return std::nullopt;
}

}  // namespace

std::vector<std::string> models_in(const std::vector<std::string>& column_names) {
  std::vector<std::string> models;
  for (const std::string& name : column_names) {
    const std::size_t mark = name.find(member_mark);
    if (mark == std::string::npos) continue;
    const std::string member = name.substr(mark + member_mark.size());
    const std::size_t line = member.find('_');
    if (line == std::string::npos || !is_member(member)) continue;
    const std::string model = member.substr(line + 1);
    if (std::ranges::find(models, model) == models.end()) models.push_back(model);
  }
  return models;
}

std::optional<OpenMeteoName> parse_open_meteo_name(std::string_view column, bool daily,
                                                   const std::vector<std::string>& models) {
  return daily ? find_name(daily_variables, column, models) : find_name(hourly_variables, column, models);
}

AnswerField open_meteo_field(const OpenMeteoVariable& variable, std::string_view unit,
                             const Location& location) {
  AnswerField field{
      std::string(variable.name),   variable.quantity, variable.kind, {}, usual_factor(variable.quantity),
      variable.stamp == Stands::day};
  field.unit = answer_unit(unit, variable.quantity, variable.kind);
  if (variable.at_sea_level) field.factor = factor_from_sea_level(location);
  return field;
}

std::optional<Instant> parse_open_meteo_time(std::string_view text, std::chrono::seconds offset) {
  if (const auto day = parse_day(text)) return Instant(day->time_since_epoch() - offset);
  if (const auto time = parse_time(text)) {
    return Instant(time->reading.time_since_epoch() - time->offset.value_or(offset));
  }
  constexpr double farthest_s = 1e11;
  const auto number = parse_number(text);
  if (!number || !(std::abs(*number) < farthest_s)) return std::nullopt;
  return Instant(std::chrono::seconds(static_cast<long>(*number)));
}

}  // namespace graftcast
