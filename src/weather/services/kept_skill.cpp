// The skill of what a site has kept of its services' forecasts.

#include <algorithm>

#include "graftcast/error.hpp"
#include "services/saved_forecasts.hpp"
#include "weather/forecast_cache.hpp"
#include "weather/forecast_skill.hpp"

namespace graftcast {

namespace {

constexpr std::chrono::days look_back{90};

/// The last one made each day, newest first.
std::vector<PastForecast> one_a_day(const std::vector<PastForecast>& newest_first, const Knowledge& knowledge,
                                    std::size_t most) {
  std::vector<PastForecast> chosen;
  const auto day_of = [](Instant instant) { return std::chrono::floor<std::chrono::days>(instant); };
  for (const PastForecast& each : newest_first) {
    if (each.made_at > knowledge.as_of && !knowledge.hindsight) continue;
    if (each.made_at < knowledge.as_of - look_back || chosen.size() == most) break;
    if (chosen.empty() || day_of(chosen.back().made_at) != day_of(each.made_at)) chosen.push_back(each);
  }
  return chosen;
}

MadeForecast made_forecast(std::vector<Readings> readings, Instant made_at, const Location& location,
                           const Clock& clock) {
  return {made_at, assemble(std::move(readings), location, clock, {made_at, true}).hourly};
}

/// Its hours as the model would get them, radiation from cloud included; nothing where it cannot be read,
/// which reading the weather has said already.
std::optional<MadeForecast> hours_of(const PastForecast& past, const SourceSettings& source,
                                     const Location& location, const Clock& clock) {
  try {
    std::vector<Readings> readings;
    readings.push_back(read_past_forecast(past, source, location, clock).readings);
    return made_forecast(std::move(readings), past.made_at, location, clock);
  } catch (const Error&) {
    return std::nullopt;
  }
}

/// Forecasts that lie in the site as files, where it is told when they were made: by their entry or by
/// themselves.
std::vector<MadeForecast> forecasts_of_files(const std::filesystem::path& site_folder,
                                             const Location& location, const Clock& clock,
                                             const WeatherSettings& settings, const Knowledge& knowledge) {
  std::vector<MadeForecast> all;
  for (const SourceSettings& source : settings.sources) {
    if (!source.service.empty() || !source.as_forecast) continue;
    Readings readings = read_source(site_folder, source, location, clock);
    const bool assumed = std::ranges::any_of(
        readings.notes, [](const QualityNote& note) { return note.kind == "made-at-assumed"; });
    if (assumed || !readings.made_at) continue;
    const Instant made_at = *readings.made_at;
    const bool is_later = !knowledge.hindsight && made_at > knowledge.as_of;
    if (is_later || made_at < knowledge.as_of - look_back) continue;
    std::vector<Readings> alone;
    alone.push_back(std::move(readings));
    all.push_back(made_forecast(std::move(alone), made_at, location, clock));
  }
  return all;
}

}  // namespace

std::vector<ForecastSkill> kept_skill(const std::filesystem::path& site_folder, const Location& location,
                                      const Clock& clock, const WeatherSettings& settings,
                                      const SiteWeather& weather, const Knowledge& knowledge,
                                      const SkillScope& scope) {
  std::vector<ForecastSkill> skills;
  for (const SourceSettings& source : settings.sources) {
    if (!gives_forecasts(source) || (!scope.only.empty() && source.service != scope.only)) continue;
    std::vector<MadeForecast> forecasts;
    for (const PastForecast& past : one_a_day(past_forecasts(site_folder, source), knowledge, scope.most))
      if (auto made = hours_of(past, source, location, clock)) forecasts.push_back(std::move(*made));
    ForecastSkill skill = skill_of(source.service, forecasts, weather.hourly);
    if (skill.forecasts > 0) skills.push_back(std::move(skill));
  }
  if (!scope.only.empty()) return skills;
  ForecastSkill files = skill_of(
      "files", forecasts_of_files(site_folder, location, clock, settings, knowledge), weather.hourly);
  if (files.forecasts > 0) skills.push_back(std::move(files));
  return skills;
}

}  // namespace graftcast
