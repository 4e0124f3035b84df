// Real open weather files. Expected counts, stamps and extremes were read
// off the files with another program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "open_stations.hpp"
#include "temporary_folder.hpp"
#include "weather/site_weather.hpp"
#include "weather/weather_file.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::channel;
using testing::note;
using testing::open_file;

struct Extremes {
  std::size_t known = 0;
  double least = 0;
  double greatest = 0;
};

Extremes extremes(const Readings& readings, Quantity quantity, Kind kind) {
  for (const ChannelSummary& each : summary_of(readings).channels) {
    if (each.quantity == quantity && each.kind == kind) return {each.known, each.least, each.greatest};
  }
  return {};
}

void expect_extremes(const Extremes& found, std::size_t known, double least, double greatest) {
  EXPECT_EQ(found.known, known);
  EXPECT_NEAR(found.least, least, 1e-9);
  EXPECT_NEAR(found.greatest, greatest, 1e-9);
}

double celsius(double fahrenheit) {
  return (fahrenheit - 32) / 1.8;
}

TEST(OpenData, SeattleDailyOfTheSample) {
  const std::filesystem::path file =
      std::filesystem::path(GRAFTCAST_SOURCE_DIR) / "sample_weather/seattle_daily_2012_2015.csv";
  const Location seattle{47.45, -122.31, 132};
  const Clock clock("America/Los_Angeles");
  const Readings readings = read_table(file, {}, seattle, clock);
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_TRUE(summary.daily);
  EXPECT_EQ(summary.rows, 1461U);
  EXPECT_EQ(clock.local_text(summary.first), "2012-01-01T00:00");
  EXPECT_EQ(clock.local_text(summary.last), "2016-01-01T00:00");
  expect_extremes(extremes(readings, Quantity::air_temperature, Kind::maximum), 1461, -1.6, 35.6);
  expect_extremes(extremes(readings, Quantity::air_temperature, Kind::minimum), 1461, -7.1, 18.3);
  expect_extremes(extremes(readings, Quantity::precipitation, Kind::sum), 1461, 0, 55.9);
  expect_extremes(extremes(readings, Quantity::wind_speed, Kind::mean), 1461, 0.4, 9.5);
  const SiteWeather weather = assemble({readings}, seattle, clock, {at("2016-02-01T00:00Z"), true});
  EXPECT_EQ(weather.hourly.size(), 1461U * 24U);
  EXPECT_EQ(weather.daily_log.size(), 1461U);
  double rain = 0;
  for (const double value : weather.hourly[Variable::precipitation].value) rain += value;
  EXPECT_NEAR(rain, 4426.0, 1e-6);
}

TEST(OpenData, NewYorkHourlyOnTheLocalClock) {
  const std::string text = testing::new_york_rows("EWR", [](const std::string&) { return true; });
  const Clock clock("America/New_York");
  const Location newark{40.69, -74.17, 3};
  SourceSettings local = testing::new_york_map();
  for (const char* const part : {"year", "month", "day", "hour"}) local.columns[part] = {part, "", "", {}};
  const Readings readings = read_table_text(text, "ewr.csv", local, newark, clock);
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_EQ(summary.rows, 8703U);
  EXPECT_EQ(utc_text(summary.first), "2013-01-01T06:00:00Z");
  EXPECT_EQ(utc_text(summary.last), "2013-12-31T00:00:00Z");  // The last stamp, 23:00Z, and its hour.
  EXPECT_EQ(note(summary.notes, "doubled-hour").count, 2U);
  EXPECT_EQ(note(summary.notes, "absent-hour").count, 0U);
  EXPECT_EQ(note(summary.notes, "repeated-time").count, 0U);
  expect_extremes(extremes(readings, Quantity::air_temperature, Kind::mean), 8702, celsius(10.94),
                  celsius(100.04));
  EXPECT_EQ(extremes(readings, Quantity::wind_speed, Kind::mean).known,
            8701U);  // One of 1048 mph is set aside.
  EXPECT_EQ(note(summary.notes, "beyond-limits").count, 1U);
  EXPECT_EQ(extremes(readings, Quantity::pressure, Kind::mean).known, 7768U);

  // The file also has the true UTC: both ways must agree hour by hour.
  SourceSettings utc = testing::new_york_map();
  utc.columns["time"] = {"time_hour", "", "", {}};
  const Readings truth = read_table_text(text, "ewr.csv", utc, newark, clock);
  EXPECT_EQ(readings.blocks.at(0).spans, truth.blocks.at(0).spans);
}

TEST(OpenData, ThreeHourlyOnHalfHours) {
  const testing::ThreeHourly station;
  const Readings readings = station.read();
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_EQ(summary.rows, 2901U);
  EXPECT_EQ(utc_text(summary.first), "2012-12-31T20:30:00Z");
  EXPECT_EQ(utc_text(summary.last), "2013-12-30T11:30:00Z");
  expect_extremes(extremes(readings, Quantity::air_temperature, Kind::instant), 2901, celsius(12.92),
                  celsius(98.06));
  expect_extremes(extremes(readings, Quantity::dew_point, Kind::instant), 2901, celsius(-5.98),
                  celsius(73.94));
  expect_extremes(extremes(readings, Quantity::relative_humidity, Kind::instant), 2901, 12.74, 100);
  EXPECT_EQ(extremes(readings, Quantity::wind_speed, Kind::instant).known, 2901U);
  const SiteWeather weather =
      assemble({readings}, station.place, station.clock, {at("2014-02-01T00:00Z"), true});
  const auto& air = weather.hourly[Variable::air_temperature];
  EXPECT_NEAR(*std::max_element(air.value.begin(), air.value.end()), celsius(98.06), 0.2);
  // Stamps fall on half hours of UTC: of every three hours one holds a reading.
  const auto filled = std::count(air.origin.begin(), air.origin.end(), Origin::filled);
  EXPECT_NEAR(static_cast<double>(filled) / static_cast<double>(air.origin.size()), 2.0 / 3, 0.01);
}

TEST(OpenData, FallonHourly) {
  SourceSettings source;
  source.time_zone = "-08:00";
  source.stamp = Stamp::end;
  source.wind_height_m = 3;
  source.columns = {{"year", {"YEAR", "", "", {}}},
                    {"month", {"MONTH", "", "", {}}},
                    {"day", {"DAY", "", "", {}}},
                    {"hour", {"HOUR", "", "", {}}},
                    {"air_temperature", {"OB", "degF", "", {}}},
                    {"dew_point_temperature", {"TP", "degF", "", {}}},
                    {"wind_speed", {"WS", "mph", "", {}}},
                    {"surface_downwelling_shortwave_flux_in_air", {"SI", "langley", "", {}}}};
  const Location fallon{39.4575, -118.77388, 1208.5};
  const Clock clock("America/Los_Angeles");
  const Readings readings =
      read_table(open_file("agrimet/agrimet_FALN_fallon_nv_hourly_2015.csv"), source, fallon, clock);
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_EQ(summary.rows, 8758U);
  EXPECT_EQ(utc_text(summary.first), "2015-01-01T07:00:00Z");
  EXPECT_EQ(utc_text(summary.last), "2016-01-01T07:00:00Z");
  expect_extremes(extremes(readings, Quantity::air_temperature, Kind::mean), 8758, celsius(1.21),
                  celsius(102.0));
  expect_extremes(extremes(readings, Quantity::dew_point, Kind::mean), 8758, celsius(-9.11), celsius(65.91));
  // 0.92 of the wind at 3 m: FAO-56 eq. 47.
  EXPECT_NEAR(extremes(readings, Quantity::wind_speed, Kind::mean).greatest,
              31.15 * 0.44704 * 4.87 / std::log(67.8 * 3 - 5.42), 1e-9);
  expect_extremes(extremes(readings, Quantity::shortwave, Kind::sum), 8758, 0, 105.3 * 0.04184);
  const SiteWeather weather = assemble({readings}, fallon, clock, {at("2016-02-01T00:00Z"), true});
  const auto& light = weather.hourly[Variable::shortwave];
  double light_mj = 0;
  for (std::size_t k = 0; k < light.value.size(); ++k) {
    if (light.origin[k] == Origin::measured) light_mj += light.value[k] * 3600e-6;
  }
  EXPECT_NEAR(light_mj, 162582.04 * 0.04184, 1e-6);
  EXPECT_EQ(std::count(light.origin.begin(), light.origin.end(), Origin::filled), 2);
}

TEST(OpenData, RedmondDailyWithItsFrozenClock) {
  SourceSettings source;
  source.time_zone = "-07:00";
  source.columns = {{"time", {"time", "", "", {}}},
                    {"air_temperature_mean", {"temperature_2m_mean (\u00b0C)", "degC", "", {}}},
                    {"precipitation_sum", {"precipitation_sum (mm)", "mm", "", {}}}};
  const Location redmond{47.63, -122.17, 179};
  const Clock clock("America/Los_Angeles");
  const Readings readings =
      read_table(open_file("open-meteo/archive_redmond_wa_daily_2002_2023.csv"), source, redmond, clock);
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_TRUE(summary.daily);
  EXPECT_EQ(summary.rows, 8036U);
  EXPECT_EQ(utc_text(summary.first), "2002-01-01T07:00:00Z");
  EXPECT_EQ(utc_text(summary.last), "2024-01-02T07:00:00Z");
  expect_extremes(extremes(readings, Quantity::air_temperature, Kind::mean), 8036, -9.3, 31.1);
  expect_extremes(extremes(readings, Quantity::precipitation, Kind::sum), 8036, 0, 69.5);
  const SiteWeather weather = assemble({readings}, redmond, clock, {at("2024-02-01T00:00Z"), true});
  EXPECT_EQ(note(weather.notes, "mean-only").count, 8036U);
  double rain = 0;
  for (const double value : weather.hourly[Variable::precipitation].value)
    rain += std::isnan(value) ? 0 : value;
  EXPECT_NEAR(rain, 29906.0, 1e-6);
}

TEST(OpenData, ParisHourlyInASelfMadeMap) {
  SourceSettings source;
  source.time_zone = "UTC";
  source.stamp = Stamp::instant;
  source.columns = {{"time", {"time", "", "", {}}},
                    {"air_temperature", {"temperature_2m (\u00b0C)", "degC", "", {}}}};
  const Readings readings = read_table(open_file("open-meteo/archive_paris_hourly_temperature_2014_2023.csv"),
                                       source, {48.86, 2.35, 38}, Clock("Europe/Paris"));
  EXPECT_EQ(summary_of(readings).rows, 87648U);  // 3652 days of 24 hours.
}

}  // namespace
}  // namespace graftcast
