// The skill of what a site has kept of its services' forecasts.

#include <algorithm>

#include "graftcast/error.hpp"
#include "graftcast/forecast_cache.hpp"
#include "graftcast/forecast_skill.hpp"

namespace graftcast {

namespace {

constexpr std::chrono::days look_back{90};

bool gives_forecasts(const SourceSettings& source) {
  if (source.service.empty()) return false;
  const Service service = parse_service(source.service);
  return service != Service::open_meteo_archive && (service != Service::url || source.as_forecast);
}

/// The last one made each day, newest first.
std::vector<PastForecast> one_a_day(const std::vector<PastForecast>& newest_first,
                                    const Knowledge& knowledge) {
  std::vector<PastForecast> chosen;
  const auto day_of = [](Instant instant) { return std::chrono::floor<std::chrono::days>(instant); };
  for (const PastForecast& each : newest_first) {
    if (each.made_at > knowledge.as_of && !knowledge.hindsight) continue;
    if (each.made_at < knowledge.as_of - look_back) break;
    if (chosen.empty() || day_of(chosen.back().made_at) != day_of(each.made_at)) chosen.push_back(each);
  }
  return chosen;
}

/// Its hours as the model would get them, radiation from cloud included; nothing where it cannot be read,
/// which reading the weather has said already.
std::optional<MadeForecast> hours_of(const PastForecast& past, const SourceSettings& source,
                                     const Location& location, const Clock& clock) {
  try {
    std::vector<Readings> readings;
    readings.push_back(read_past_forecast(past, source, location, clock).readings);
    return MadeForecast{past.made_at,
                        assemble(std::move(readings), location, clock, {past.made_at, true}).hourly};
  } catch (const Error&) {
    return std::nullopt;
  }
}

}  // namespace

std::vector<ForecastSkill> kept_skill(const std::filesystem::path& site_folder, const Location& location,
                                      const Clock& clock, const WeatherSettings& settings,
                                      const SiteWeather& weather, const Knowledge& knowledge,
                                      const std::string& only) {
  std::vector<ForecastSkill> skills;
  for (const SourceSettings& source : settings.sources) {
    if (!gives_forecasts(source) || (!only.empty() && source.service != only)) continue;
    std::vector<MadeForecast> forecasts;
    for (const PastForecast& past : one_a_day(past_forecasts(site_folder, source), knowledge))
      if (auto made = hours_of(past, source, location, clock)) forecasts.push_back(std::move(*made));
    ForecastSkill skill = skill_of(source.service, forecasts, weather.hourly);
    if (skill.forecasts > 0) skills.push_back(std::move(skill));
  }
  return skills;
}

}  // namespace graftcast
