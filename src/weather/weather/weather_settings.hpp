#pragma once
// What a site says about its weather: where it is, and which sources it trusts in which order.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// Where the site is. Valid: latitude -90..90, longitude -180..180 (north and east positive), elevation
/// -430..6000 m.
struct Location {
  double latitude_deg = 0;
  double longitude_deg = 0;
  double elevation_m = 0;
};

/// What a bare time stamp of a log stands for.
enum class Stamp { start, end, instant };

/// How one column of a foreign log is to be read.
struct ColumnMapping {
  std::string column;                ///< Header text in the file.
  std::string unit;                  ///< For example degF; empty for the variable's own unit.
  std::string format;                ///< Only for the time column: strptime-like pattern.
  std::vector<std::string> missing;  ///< Codes that stand for "no value", beside the empty cell.
};

/// One entry of `weather.sources` in site.json. Exactly one of `file` and `service` is set.
struct SourceSettings {
  std::string file;            ///< Path inside the site folder.
  std::string reader;          ///< Empty: decided from the content. Else for example `table`.
  std::string time_zone;       ///< IANA name, `UTC`, or a fixed offset such as `+01:00`; empty: the site's.
  std::optional<Stamp> stamp;  ///< Default: start for hourly logs.
  std::optional<double> wind_height_m;  ///< Default 2.
  std::map<std::string, ColumnMapping>
      columns;                     ///< Key: CF name of the variable (`air_temperature`, `time`, ...).
  bool as_forecast = false;        ///< `"as": "forecast"`.
  std::optional<Instant> made_at;  ///< When a saved forecast was made.

  std::string service;   ///< For example `met-norway`.
  std::string contact;   ///< Who asks; services require it.
  std::string base_url;  ///< Address to ask instead of the service's own.
};

struct WeatherSettings {
  std::vector<SourceSettings> sources;  ///< In order of trust.
};

}  // namespace graftcast
