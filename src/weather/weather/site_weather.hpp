#pragma once
// All the weather a site knows of at a moment.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/daily_to_hourly.hpp"
#include "weather/hourly_weather.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// A stretch in which the most trusted log of some variables says nothing.
struct WeatherGap {
  Instant from;
  Instant to;
  /// `interpolation`, `derivation`, the name of the source that bridges it, or empty: unknown.
  std::string filled_by;
  std::vector<Variable> variables;  ///< Those that share it.
};

/// A day of a daily log and the source it came from.
struct DailyLogDay {
  DayReading reading;
  std::string source;
};

/// What `assemble` gives.
struct SiteWeather {
  HourlyWeather hourly;    ///< Empty when no source says anything.
  WeatherCourses courses;  ///< Of the newest ensemble forecast that hours of `hourly` are from.
  std::vector<DailyLogDay>
      daily_log;  ///< Days of daily logs with both extremes, rising; the most trusted source's.
  std::optional<Instant> measured_until;  ///< End of the last hour whose temperature was measured.
  std::optional<Instant> forecast_until;  ///< End of the last hour whose temperature is forecast.
  std::vector<WeatherGap> gaps;           ///< Rising by `from`.
  std::vector<Variable> assumed;          ///< Variables with derived hours.
  std::vector<QualityNote> notes;
  std::vector<QualityNote> findings;  ///< Of `check_quality`, source by source: odd, but used as it stands.
  std::vector<std::string> credits;   ///< Lines that the terms of services ask to be shown.
};

/// What was known when.
struct Knowledge {
  Instant as_of;           ///< What was measured later, and forecasts made later, are not known.
  bool hindsight = false;  ///< All of it is known all the same: for looking back.
};

/// Readings of one file source, as `assemble` takes them. A saved forecast without `made_at` counts as made
/// when it begins (noted). Errors: DataError for a path outside the site folder or an unknown reader; those
/// of the reader.
Readings read_source(const std::filesystem::path& site_folder, const SourceSettings& source,
                     const Location& location, const Clock& clock);

/// Reads every file source, makes hours, fills short gaps within each, merges them by trust variable by
/// variable (measured before forecast, newer forecasts before older, else the order of the settings), fills
/// short gaps where two sources meet, and derives what is missing. All of it is marked in `hourly`. Of
/// services the forecasts saved by then count, see `saved_forecasts`; past ones are read only where logs
/// leave an hour open until the next one was made. Errors: those of `read_source`.
SiteWeather assemble(const std::filesystem::path& site_folder, const Location& location, const Clock& clock,
                     const WeatherSettings& settings, const Knowledge& knowledge);

/// The same from readings at hand, in order of trust.
SiteWeather assemble(std::vector<Readings> sources, const Location& location, const Clock& clock,
                     const Knowledge& knowledge);

}  // namespace graftcast
