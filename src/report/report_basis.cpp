#include "graftcast/report_basis.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace graftcast {

namespace {

void add_new(std::vector<std::string>& words, std::string word) {
  if (std::ranges::find(words, word) == words.end()) words.push_back(std::move(word));
}

bool has_missing_hours(const HourlyWeather& weather, Variable variable) {
  return std::ranges::find(weather[variable].origin, Origin::missing) != weather[variable].origin.end();
}

/// What the run cannot do without and no source gives.
constexpr std::array needed{Variable::air_temperature, Variable::relative_humidity, Variable::wind_speed,
                            Variable::shortwave};

}  // namespace

WeatherBasis weather_basis(const SiteWeather& weather, const Outlook* outlook) {
  WeatherBasis basis{.measured_until = weather.measured_until,
                     .forecast_until = weather.forecast_until,
                     .sources = weather.hourly.sources,
                     .gaps = {},
                     .assumed = {},
                     .credits = weather.credits};
  for (const Variable variable : weather.assumed)
    add_new(basis.assumed, std::string(variable_name(variable)));
  for (const Variable variable : needed)
    if (weather.hourly.size() > 0 && has_missing_hours(weather.hourly, variable))
      add_new(basis.assumed, std::string(variable_name(variable)));
  if (outlook != nullptr)
    for (const OutlookGap& gap : outlook->gaps)
      basis.gaps.push_back({gap.from, gap.to, std::string(stand_in_name(gap.filled_by))});
  for (const WeatherGap& gap : weather.gaps)
    if (outlook == nullptr || !gap.filled_by.empty()) basis.gaps.push_back({gap.from, gap.to, gap.filled_by});
  std::ranges::stable_sort(basis.gaps, {}, &BasisGap::from);
  return basis;
}

std::vector<std::string> weather_warnings(const SiteWeather& weather) {
  std::vector<std::string> warnings;
  for (const QualityNote& note : weather.notes) {
    // What was derived stands in the list of what is assumed; a warning each morning would only be read past.
    if (note.kind == "derived") continue;
    std::string where = note.count > 1 ? fmt::format("{} times", note.count) : std::string{};
    if (!note.examples.empty())
      where += fmt::format("{}{}{}", where.empty() ? "" : ", ", note.count > 1 ? "first: " : "",
                           note.examples.front());
    warnings.push_back(where.empty() ? fmt::format("{}: {}", note.source, note.text)
                                     : fmt::format("{}: {} ({})", note.source, note.text, where));
  }
  return warnings;
}

}  // namespace graftcast
