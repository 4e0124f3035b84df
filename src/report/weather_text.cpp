// The weather as tables for a terminal.

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/weather_words.hpp"

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
std::string wind_head(const TerminalStyle& style) {
  return is_us(style) ? trc("unit", "mph") : trc("unit", "m/s");
}
std::string rain_head(const TerminalStyle& style) {
  return is_us(style) ? tr("rain in") : tr("rain mm");
}
std::string et0_head(const TerminalStyle& style) {
  return is_us(style) ? tr("ET0 in") : tr("ET0 mm");
}

std::string what_lacks(const BasisGap& gap) {
  std::vector<std::string> variables;
  for (const Variable variable : gap.variables) variables.push_back(variable_words(variable));
  return variables.empty() ? trc("all variables", "all") : listed(variables);
}

std::string gap_words(const BasisGap& gap, const ReportBasis& basis) {
  const std::string from = moment_words(*basis.clock, gap.from, basis.as_of);
  const std::string to = moment_words(*basis.clock, gap.to, basis.as_of);
  const std::string what = what_lacks(gap);
  if (gap.is_open())
    return tr("{from} to {to}: {what} not known", "from"_a = from, "to"_a = to, "what"_a = what);
  return tr("{from} to {to}: {what} by {source}", "from"_a = from, "to"_a = to, "what"_a = what,
            "source"_a = bridge_words(gap));
}

constexpr std::size_t most_gaps = 12;

std::string coverage(const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style);
  for (const std::string& source : basis.weather.sources)
    text += labelled(style, Tone::quiet, trc("label", "from"), printable(source));
  const auto& gaps = basis.weather.gaps;
  for (std::size_t i = 0; i < std::min(gaps.size(), most_gaps); ++i)
    text += labelled(style, Tone::attentive, trc("label", "gap"), gap_words(gaps[i], basis));
  if (gaps.size() > most_gaps) {
    const std::size_t more = gaps.size() - most_gaps;
    text += labelled(style, Tone::attentive, trc("label", "gap"),
                     trn("and {n} more; --json has them all", "and {n} more; --json has them all",
                         static_cast<long>(more), "n"_a = more));
  }
  return text + '\n';
}

/// Where the temperature came from, and how many of the day's hours are known where not all are.
std::string air_words(const WeatherDay& day) {
  const std::string origin = origin_words(day.origin[static_cast<std::size_t>(Variable::air_temperature)]);
  if (day.hours == day.length_h) return origin;
  return tr("{origin}, {hours} of {all} h", "origin"_a = origin, "hours"_a = day.hours,
            "all"_a = day.length_h);
}

std::vector<TextTable::Column> day_columns(const TerminalStyle& style) {
  return {{trc("head", "day"), Align::left},
          {temperature_unit(style), Align::right},
          {trc("head of the highest temperature", "to"), Align::right},
          {trc("unit", "RH%"), Align::right},
          {trc("unit", "kPa"), Align::right},
          {trc("head", "max"), Align::right},
          {wind_head(style), Align::right},
          {trc("unit", "MJ/m2"), Align::right},
          {rain_head(style), Align::right},
          {et0_head(style), Align::right},
          {trc("head", "temperature is"), Align::left}};
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
          air_words(day)};
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
          origin_words(air.origin[hour])};
}

std::string none_known(const ReportBasis& basis, const TerminalStyle& style) {
  return labelled(style, Tone::quiet, trc("label", "none"),
                  basis.weather.sources.empty()
                      ? tr("No weather is known. Bring in a log with 'graftcast weather add FILE'.")
                      : tr("No weather is known in this stretch; --from and --to choose another."));
}

}  // namespace

std::string weather_days_text(std::span<const WeatherDay> days, const ReportBasis& basis,
                              const TerminalStyle& style) {
  std::string text = coverage(basis, style);
  if (days.empty()) return finished(style, text + none_known(basis, style));
  TextTable table(day_columns(style));
  for (const WeatherDay& day : days) table.add(day_cells(day, style));
  return finished(style, ended(text + table.text(style), basis, style));
}

std::string weather_hours_text(const HourlyWeather& weather, std::size_t from, std::size_t to,
                               const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = coverage(basis, style);
  if (from >= to) return finished(style, text + none_known(basis, style));
  TextTable table({{trc("head", "hour from"), Align::left},
                   {temperature_unit(style), Align::right},
                   {trc("unit", "RH%"), Align::right},
                   {wind_head(style), Align::right},
                   {trc("unit", "W/m2"), Align::right},
                   {rain_head(style), Align::right},
                   {trc("head", "temperature is"), Align::left}});
  for (std::size_t hour = from; hour < to; ++hour) table.add(hour_cells(weather, hour, *basis.clock, style));
  return finished(style, ended(text + table.text(style), basis, style));
}

}  // namespace graftcast
