// The weather as tables for a terminal.

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"

namespace graftcast {

namespace {

constexpr double mph_per_m_s = 1 / 0.44704;
constexpr double inch_per_mm = 1 / 25.4;

/// A figure in the wanted unit, or a dot where it is not known.
std::string figure(const std::optional<double>& value, int decimals, double scale = 1) {
  return value && !std::isnan(*value) ? fmt::format("{:.{}f}", *value * scale, decimals) : ".";
}

std::string temperature(const TerminalStyle& style, const std::optional<double>& value_c) {
  return value_c && !std::isnan(*value_c) ? temperature_figure(style, *value_c, 1) : ".";
}

bool is_us(const TerminalStyle& style) {
  return style.units == UnitSystem::us;
}
double wind_scale(const TerminalStyle& style) {
  return is_us(style) ? mph_per_m_s : 1;
}
double depth_scale(const TerminalStyle& style) {
  return is_us(style) ? inch_per_mm : 1;
}
int depth_decimals(const TerminalStyle& style) {
  return is_us(style) ? 2 : 1;
}
std::string_view wind_unit(const TerminalStyle& style) {
  return is_us(style) ? "mph" : "m/s";
}
std::string_view depth_unit(const TerminalStyle& style) {
  return is_us(style) ? "in" : "mm";
}

std::string gap_words(const BasisGap& gap, const ReportBasis& basis) {
  const std::string words = fmt::format("{} to {}", moment_words(*basis.clock, gap.from, basis.as_of),
                                        moment_words(*basis.clock, gap.to, basis.as_of));
  const std::string what = gap.variables.empty() ? std::string("all") : listed(gap.variables);
  return gap.filled_by.empty() ? fmt::format("{}: {} not known", words, what)
                               : fmt::format("{}: {} by {}", words, what, printable(gap.filled_by));
}

constexpr std::size_t most_gaps = 12;

std::string coverage(const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style);
  for (const std::string& source : basis.weather.sources)
    text += labelled(style, Tone::quiet, "from", printable(source));
  const auto& gaps = basis.weather.gaps;
  for (std::size_t i = 0; i < std::min(gaps.size(), most_gaps); ++i)
    text += labelled(style, Tone::attentive, "gap", gap_words(gaps[i], basis));
  if (gaps.size() > most_gaps)
    text += labelled(style, Tone::attentive, "gap",
                     fmt::format("and {} more; --json has them all", gaps.size() - most_gaps));
  return text + '\n';
}

std::string hours_words(const WeatherDay& day) {
  return day.hours == day.length_h ? std::string{} : fmt::format("{} of {} h", day.hours, day.length_h);
}

/// `-` for sources: where the temperature came from, and what else came from elsewhere.
std::string origin_words(const WeatherDay& day) {
  const Origin air = day.origin[static_cast<std::size_t>(Variable::air_temperature)];
  std::string words(origin_name(air));
  if (const std::string hours = hours_words(day); !hours.empty()) words += ", " + hours;
  return words;
}

std::vector<TextTable::Column> day_columns(const TerminalStyle& style) {
  const std::string degrees(temperature_unit(style));
  return {{"day", Align::left},
          {degrees, Align::right},
          {"to", Align::right},
          {"RH%", Align::right},
          {"kPa", Align::right},
          {"max", Align::right},
          {std::string(wind_unit(style)), Align::right},
          {"MJ/m2", Align::right},
          {fmt::format("rain {}", depth_unit(style)), Align::right},
          {fmt::format("ET0 {}", depth_unit(style)), Align::right},
          {"temperature is", Align::left}};
}

std::vector<std::string> day_cells(const WeatherDay& day, const TerminalStyle& style) {
  return {day_text(day.day),
          temperature(style, day.air_temperature_min_c),
          temperature(style, day.air_temperature_max_c),
          figure(day.relative_humidity_mean_pct, 0),
          figure(day.vpd_mean_kpa, 2),
          figure(day.vpd_max_kpa, 2),
          figure(day.wind_speed_mean_m_s, 1, wind_scale(style)),
          figure(day.shortwave_mj_m2, 1),
          figure(day.precipitation_mm, depth_decimals(style), depth_scale(style)),
          figure(day.et0_mm, depth_decimals(style), depth_scale(style)),
          origin_words(day)};
}

std::vector<std::string> hour_cells(const HourlyWeather& weather, std::size_t hour, const Clock& clock,
                                    const TerminalStyle& style) {
  const auto value = [&](Variable variable) { return std::optional<double>(weather[variable].value[hour]); };
  const auto& air = weather[Variable::air_temperature];
  return {clock.local_text(weather.hour(hour)),
          temperature(style, value(Variable::air_temperature)),
          figure(value(Variable::relative_humidity), 0),
          figure(value(Variable::wind_speed), 1, wind_scale(style)),
          figure(value(Variable::shortwave), 0),
          figure(value(Variable::precipitation), depth_decimals(style), depth_scale(style)),
          std::string(origin_name(air.origin[hour]))};
}

constexpr std::string_view no_weather =
    "No weather is known. Bring in a log with 'graftcast weather add FILE'.";
constexpr std::string_view no_days = "No weather is known in this stretch; --from and --to choose another.";

std::string_view empty_words(const ReportBasis& basis) {
  return basis.weather.sources.empty() ? no_weather : no_days;
}

}  // namespace

std::string weather_days_text(std::span<const WeatherDay> days, const ReportBasis& basis,
                              const TerminalStyle& style) {
  std::string text = coverage(basis, style);
  if (days.empty()) return finished(style, text + labelled(style, Tone::quiet, "none", empty_words(basis)));
  TextTable table(day_columns(style));
  for (const WeatherDay& day : days) table.add(day_cells(day, style));
  return finished(style, ended(text + table.text(style), basis, style));
}

std::string weather_hours_text(const HourlyWeather& weather, std::size_t from, std::size_t to,
                               const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = coverage(basis, style);
  if (from >= to) return finished(style, text + labelled(style, Tone::quiet, "none", empty_words(basis)));
  TextTable table({{"hour from", Align::left},
                   {std::string(temperature_unit(style)), Align::right},
                   {"RH%", Align::right},
                   {std::string(wind_unit(style)), Align::right},
                   {"W/m2", Align::right},
                   {fmt::format("rain {}", depth_unit(style)), Align::right},
                   {"temperature is", Align::left}});
  for (std::size_t hour = from; hour < to; ++hour) table.add(hour_cells(weather, hour, *basis.clock, style));
  return finished(style, ended(text + table.text(style), basis, style));
}

}  // namespace graftcast
