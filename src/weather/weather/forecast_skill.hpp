#pragma once
// How far past forecasts were off, by how far ahead they looked.

#include <array>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/hourly_weather.hpp"
#include "weather/site_weather.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// A forecast as hours.
struct MadeForecast {
  Instant made_at;
  HourlyWeather hourly;
};

/// Errors, forecast minus measured, of one variable over one day of lead, in the variable's unit.
struct LeadError {
  int day = 1;            ///< 1: hours that begin within 24 h of the making; 2: within the 24 h after; ...
  std::size_t hours = 0;  ///< Compared.
  double bias = 0;        ///< Mean.
  double rmse = 0;        ///< Root of the mean square.
};

/// The same as the ensemble needs it: spread of its members, bias included since nothing else allows for it.
struct LeadSpread {
  int day = 1;
  std::size_t forecasts = 0;          ///< Of which an hour's temperature was compared.
  double temperature_k = 0;           ///< Root mean square error.
  std::optional<double> dew_point_k;  ///< Likewise.
  std::optional<double> ln_wind;      ///< Of the logarithm, over hours with 0.5 m/s or more in both.
  std::optional<double> radiation;    ///< Share of the forecast: sqrt(sum (m - f)^2 / sum f^2).
};

/// How one service's forecasts did.
struct ForecastSkill {
  std::string source;
  std::size_t forecasts = 0;                     ///< With at least one hour that was measured later.
  std::optional<Instant> first_made, last_made;  ///< Of those.
  std::array<std::vector<LeadError>, variable_count>
      errors;                       ///< By Variable; days rising, only those compared.
  std::vector<LeadSpread> spreads;  ///< Days rising, only those compared.
};

/// Days of lead that are told apart; what lies farther ahead is left out.
inline constexpr int most_lead_days = 16;

/// Compares each hour that begins at or after the making with what a log measured in it (Origin::measured;
/// reanalysed hours of an Open-Meteo archive are no measurement). The forecasts should be made a day apart or
/// so: others share their errors.
ForecastSkill skill_of(std::string source, std::span<const MadeForecast> forecasts,
                       const HourlyWeather& measured);

/// Which past forecasts are compared.
struct SkillScope {
  std::string only = {};   ///< Name of one service; empty: all, and the files.
  std::size_t most = 200;  ///< Of a service no more than these, the newest.
};

/// Forecasts that the ensemble needs to measure errors of its own: thirty of which every day of lead has
/// been measured since, one a day.
inline constexpr std::size_t forecasts_for_ensemble = 30 + most_lead_days;

/// Skill of the kept forecasts of each service among `settings`, in that order, against `weather`: the last
/// forecast made each day (UTC) of the ninety before `knowledge.as_of`. Behind them, as `files`, that of the
/// forecasts given as files which tell when they were made. Those that cannot be read are left out of the
/// kept ones; services without one that could be compared are left out. Errors: those of `read_source`.
std::vector<ForecastSkill> kept_skill(const std::filesystem::path& site_folder, const Location& location,
                                      const Clock& clock, const WeatherSettings& settings,
                                      const SiteWeather& weather, const Knowledge& knowledge,
                                      const SkillScope& scope = {});

/// Name of the service whose forecast `weather` has for the first hour from `as_of` on that is forecast;
/// empty where none is.
std::string source_ahead(const HourlyWeather& weather, Instant as_of);

}  // namespace graftcast
