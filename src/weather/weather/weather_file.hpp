#pragma once
// Taking a weather file into a site.

#include <filesystem>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// What one column of a weather file holds.
struct ChannelSummary {
  Quantity quantity = Quantity::air_temperature;
  Kind kind = Kind::mean;
  std::size_t known = 0;
  double least = 0;     ///< In the own unit; 0 when nothing is known.
  double greatest = 0;  ///< Likewise.
};

/// What a weather file holds.
struct WeatherFileSummary {
  bool daily = false;
  std::size_t rows = 0;  ///< Intervals, days or moments with their own time.
  Instant first;         ///< Begin of the first.
  Instant last;          ///< End of the last.
  std::vector<ChannelSummary> channels;
  std::vector<QualityNote> notes;
};

/// Error: DataError when there are no rows.
WeatherFileSummary summary_of(const Readings& readings);

/// A file taken in, and the entry that site.json needs for it.
struct AddedWeather {
  SourceSettings source;
  std::string reader;  ///< Word of the layout it has: `table`, `epw`, ...
  WeatherFileSummary summary;
};

/// Reads `file` fully by `settings` (its `file` does not matter), then copies it into `site_folder`/weather/
/// under its own name, durably; nothing that is there is ever written over. A file already within the site's
/// weather folder, or there with the same content, is only checked. Hold the site's lock around it. Errors:
/// those of `read_weather_file`; WriteError, also when another file of that name is there. Nothing is copied
/// then.
AddedWeather add_weather_file(const std::filesystem::path& site_folder, const std::filesystem::path& file,
                              SourceSettings settings, const Location& location, const Clock& clock);

}  // namespace graftcast
