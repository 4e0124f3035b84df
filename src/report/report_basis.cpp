#include "report/report_basis.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "text/tr.hpp"
#include "weather/quality_checks.hpp"

namespace graftcast {

namespace {

void add_new(std::vector<Variable>& variables, Variable variable) {
  if (std::ranges::find(variables, variable) == variables.end()) variables.push_back(variable);
}

bool has_missing_hours(const HourlyWeather& weather, Variable variable) {
  return std::ranges::find(weather[variable].origin, Origin::missing) != weather[variable].origin.end();
}

/// What the run cannot do without and no source gives.
constexpr std::array needed{Variable::air_temperature, Variable::relative_humidity, Variable::wind_speed,
                            Variable::shortwave};

void add_assumed(const SiteWeather& weather, std::vector<Variable>& assumed) {
  for (const Variable variable : weather.assumed) add_new(assumed, variable);
  if (weather.hourly.size() == 0) return;
  for (const Variable variable : needed)
    if (has_missing_hours(weather.hourly, variable)) add_new(assumed, variable);
}

/// How often, and an example of where; empty where neither is told.
std::string where_words(const QualityNote& note) {
  if (note.count <= 1) return note.examples.empty() ? std::string{} : note.examples.front();
  const auto count = static_cast<long>(note.count);
  if (note.examples.empty()) return trn("{n} time", "{n} times", count, "n"_a = count);
  return trn("{n} time, first: {example}", "{n} times, first: {example}", count, "n"_a = count,
             "example"_a = note.examples.front());
}

std::string note_words(const QualityNote& note) {
  const std::string where = where_words(note);
  return where.empty() ? fmt::format("{}: {}", note.source, note.text)
                       : fmt::format("{}: {} ({})", note.source, note.text, where);
}

}  // namespace

std::string_view plain_name(Variable variable) {
  constexpr std::array<std::string_view, variable_count> names{
      "air_temperature", "relative_humidity", "wind_speed", "shortwave", "precipitation", "gust", "pressure"};
  return names.at(static_cast<std::size_t>(variable));
}

WeatherBasis weather_basis(const SiteWeather& weather, const Outlook* outlook) {
  WeatherBasis basis{.measured_until = weather.measured_until,
                     .forecast_until = weather.forecast_until,
                     .sources = weather.hourly.sources,
                     .gaps = {},
                     .assumed = {},
                     .credits = weather.credits};
  add_assumed(weather, basis.assumed);
  if (outlook != nullptr)
    for (const OutlookGap& gap : outlook->gaps)
      basis.gaps.push_back({gap.from, gap.to, {}, {}, gap.filled_by});
  for (const WeatherGap& gap : weather.gaps)
    if (outlook == nullptr || !gap.filled_by.empty())
      basis.gaps.push_back({gap.from, gap.to, gap.variables, gap.filled_by});
  std::ranges::stable_sort(basis.gaps, {}, &BasisGap::from);
  return basis;
}

WeatherBasis weather_basis(const SiteWeather& weather, const Season& season) {
  WeatherBasis basis = weather_basis(weather, &season.outlook);
  using By = SpreadBasis::By;
  const std::size_t courses = season.outlook.courses_ahead.size();
  const std::size_t own = own_forecasts(season.settings.own_errors);
  basis.spread = courses > 0 ? SpreadBasis{By::courses, courses}
                 : own > 0   ? SpreadBasis{By::own_errors, own}
                             : SpreadBasis{By::published_errors, 0};
  return basis;
}

std::vector<std::string> weather_warnings(const SiteWeather& weather) {
  std::vector<std::string> warnings;
  for (const QualityNote& note : weather.notes) {
    // What was derived stands in the list of what is assumed; a warning each morning would only be read past.
    if (note.kind != "derived" && !is_about_format(note)) warnings.push_back(note_words(note));
  }
  for (const QualityNote& finding : serious_findings(weather.findings, weather.measured_until))
    warnings.push_back(note_words(finding));
  return warnings;
}

std::vector<std::string> format_remarks(const SiteWeather& weather) {
  std::vector<std::string> remarks;
  for (const QualityNote& note : weather.notes)
    if (is_about_format(note)) remarks.push_back(note_words(note));
  return remarks;
}

}  // namespace graftcast
