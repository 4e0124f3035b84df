// The real station files that open_data_test.cpp leaves out, and the time traps. Values were read off the
// files with awk: rows by `wc -l`, extremes by comparing the column, sums by adding it.

#include <gtest/gtest.h>

#include <algorithm>

#include "open_stations.hpp"
#include "weather/site_weather.hpp"
#include "weather/weather_file.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::channel;
using testing::note;

ChannelSummary column(const Readings& readings, Quantity quantity, Kind kind) {
  for (const ChannelSummary& each : summary_of(readings).channels) {
    if (each.quantity == quantity && each.kind == kind) return each;
  }
  ADD_FAILURE() << "no such column";
  return {};
}

double celsius(double fahrenheit) {
  return (fahrenheit - 32) / 1.8;
}

TEST(OpenData, TheOtherTwoAirportsOfNewYork) {
  const std::vector<std::pair<const char*, double>> airports{{"JFK", 98.06}, {"LGA", 98.96}};
  for (const auto& [airport, hottest_f] : airports) {
    const Readings readings = testing::new_york(airport);
    const WeatherFileSummary summary = summary_of(readings);
    EXPECT_EQ(summary.rows, 8706U) << airport;
    EXPECT_EQ(utc_text(summary.first), "2013-01-01T06:00:00Z");
    EXPECT_EQ(utc_text(summary.last), "2013-12-31T00:00:00Z");
    const ChannelSummary air = column(readings, Quantity::air_temperature, Kind::mean);
    EXPECT_EQ(air.known, 8706U);
    EXPECT_NEAR(air.least, celsius(12.02), 1e-9);
    EXPECT_NEAR(air.greatest, celsius(hottest_f), 1e-9);
  }
}

TEST(OpenDataTimeTraps, NewYorkSkipsAnHourInMarchAndShowsOneTwiceInNovember) {
  const Readings readings = testing::new_york("JFK");
  const auto& spans = readings.blocks.at(0).spans;
  const auto rows_from = [&](const char* from, const char* to) {
    return std::count_if(spans.begin(), spans.end(),
                         [&](const Span& span) { return span.begin >= at(from) && span.begin < at(to); });
  };
  // Local 0, 1, 3 and 4 h of 10 March are four hours on end; local 1, 1, 2 and 3 h of 3 November as well.
  EXPECT_EQ(rows_from("2013-03-10T05:00Z", "2013-03-10T09:00Z"), 4);
  EXPECT_EQ(rows_from("2013-11-03T05:00Z", "2013-11-03T09:00Z"), 4);
  EXPECT_EQ(note(readings.notes, "absent-hour").count, 0U);
  EXPECT_EQ(note(readings.notes, "repeated-time").count, 0U);
}

TEST(OpenData, ParisReadsToItsExtremes) {
  const auto station = testing::paris();
  const Readings readings = station.read();
  const ChannelSummary air = column(readings, Quantity::air_temperature, Kind::instant);
  EXPECT_EQ(air.known, 87648U);
  EXPECT_NEAR(air.least, -10.0, 1e-9);
  EXPECT_NEAR(air.greatest, 40.8, 1e-9);
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_EQ(utc_text(summary.first), "2014-01-01T00:00:00Z");
  EXPECT_EQ(utc_text(summary.last), "2023-12-31T23:00:00Z");
}

TEST(OpenData, FallonDaily) {
  const char* const file = "agrimet/agrimet_FALN_fallon_nv_daily_2015.csv";
  SourceSettings source;
  for (const auto& [part, header] : {std::pair{"year", "YEAR"}, {"month", "MONTH"}, {"day", "DAY"}})
    source.columns[part] = {header, "", "", {}};
  source.columns["air_temperature_min"] = {"MN", "degF", "", {}};
  source.columns["air_temperature_max"] = {"MX", "degF", "", {}};
  source.columns["surface_downwelling_shortwave_flux_in_air_sum"] = {"SR", "langley", "", {}};
  const Readings readings =
      read_table(testing::open_file(file), source, testing::fallon().place, testing::fallon().clock);
  EXPECT_EQ(summary_of(readings).rows, 365U);
  const ChannelSummary low = column(readings, Quantity::air_temperature, Kind::minimum);
  const ChannelSummary high = column(readings, Quantity::air_temperature, Kind::maximum);
  EXPECT_NEAR(low.least, celsius(0.11), 1e-9);
  EXPECT_NEAR(high.greatest, celsius(103.00), 1e-9);
  EXPECT_NEAR(column(readings, Quantity::shortwave, Kind::sum).greatest, 797.03 * 0.04184, 1e-9);
}

TEST(OpenData, DavisDailyOfTwentyFiveYears) {
  const testing::OpenStation station = testing::davis();
  const Clock& clock = station.clock;
  const Readings readings = station.read();
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_EQ(summary.rows, 9131U);
  EXPECT_EQ(clock.local_text(summary.first), "1994-01-01T00:00");
  EXPECT_EQ(clock.local_text(summary.last), "2019-01-01T00:00");
  const ChannelSummary low = column(readings, Quantity::air_temperature, Kind::minimum);
  const ChannelSummary high = column(readings, Quantity::air_temperature, Kind::maximum);
  const ChannelSummary light = column(readings, Quantity::shortwave, Kind::mean);
  const ChannelSummary rain = column(readings, Quantity::precipitation, Kind::sum);
  EXPECT_EQ(low.known, 9064U);
  EXPECT_NEAR(low.least, celsius(19.5), 1e-9);
  EXPECT_EQ(high.known, 9109U);
  EXPECT_NEAR(high.greatest, celsius(110.9), 1e-9);
  EXPECT_EQ(light.known, 9108U);
  EXPECT_NEAR(light.greatest, 1029 * 41840 / 86400.0, 1e-6);
  EXPECT_EQ(rain.known, 9110U);
  EXPECT_NEAR(rain.greatest, 2.6 * 25.4, 1e-9);
}
}  // namespace
}  // namespace graftcast
