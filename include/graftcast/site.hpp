#pragma once
// site.json: the place, its spots and supplies.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "graftcast/weather_settings.hpp"

namespace graftcast {

/// A place within the site where grafts stand.
struct Spot {
  double sun_share = 1;     ///< 0..1, share of the open sky's sunshine that reaches it.
  double wind_share = 1;    ///< 0..1, share of the 2 m wind.
  bool rain = true;         ///< Whether rain reaches it.
  bool movable = false;     ///< Whether what stands there can be moved.
  std::optional<double> sun_from_h;  ///< Local solar hour from which the sun reaches it.
  std::optional<double> sun_to_h;    ///< Local solar hour until which it does.
  struct HorizonPoint { double azimuth_deg; double height_deg; };
  std::vector<HorizonPoint> horizon; ///< Skyline, azimuth from north through east, rising azimuth.
  struct Climate { double air_temperature_c; double relative_humidity_pct; };
  std::optional<Climate> climate;    ///< A callusing room or a cold store with a climate of its own.
};

/// Overrides of the species' own degree-days; any subset.
struct DegreeDaySettings {
  std::optional<std::string> method;
  std::optional<double> base_c;
  std::optional<double> upper_c;
  std::optional<std::string> cutoff;
};

struct Site {
  int format = 1;
  std::string name;
  Location location;
  std::string time_zone;
  std::map<std::string, Spot> spots;
  std::map<std::string, int> supplies;         ///< Covers at hand: `clear-bag`, `paper`, `shade-cloth`, ...
  std::map<std::string, double> minutes;       ///< Minutes of work per action.
  DegreeDaySettings degree_days;
  double shade_cloth_share = 0.5;              ///< What the owner's shade cloth keeps off.
  WeatherSettings weather;
};

/// Reads and checks `folder`/site.json. Unknown keys are an error with the nearest known name, except `x-...`.
/// Errors: OpenError, DataError (line and column of the entry; also for a newer `format`).
Site read_site(const std::filesystem::path& folder);

}  // namespace graftcast
