// Real archive files. Counts, stamps and extremes were read off the files
// with another program.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "open_files.hpp"
#include "weather/detect_reader.hpp"
#include "weather/site_weather.hpp"
#include "weather/weather_file.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::channel;
using testing::note;
using testing::open_file;

struct Totals {
  std::size_t known = 0;
  double least = 1e9, greatest = -1e9, sum = 0;
};

Totals totals(const Readings& readings, Quantity quantity, Kind kind) {
  Totals totals;
  for (const double value : channel(readings, quantity, kind).value) {
    if (std::isnan(value)) continue;
    ++totals.known;
    totals.least = std::min(totals.least, value);
    totals.greatest = std::max(totals.greatest, value);
    totals.sum += value;
  }
  return totals;
}

void expect_totals(const Totals& found, const Totals& expected) {
  EXPECT_EQ(found.known, expected.known);
  EXPECT_NEAR(found.least, expected.least, 1e-9);
  EXPECT_NEAR(found.greatest, expected.greatest, 1e-9);
  EXPECT_NEAR(found.sum, expected.sum, 1e-5);
}

TEST(ArchiveOpenData, GhcnDailyOfTwentyEightYears) {
  const Clock clock("Africa/Algiers");
  const Readings readings =
      read_weather_file(open_file("ghcn-daily/AGE00147704.dly"), {}, {36.9, 7.77, 4}, clock);
  const WeatherFileSummary summary = summary_of(readings);
  EXPECT_TRUE(summary.daily);
  EXPECT_EQ(summary.rows, 9674U);
  EXPECT_EQ(clock.local_text(summary.first), "1909-11-23T00:00");
  EXPECT_EQ(clock.local_text(summary.last), "1938-01-01T00:00");
  expect_totals(totals(readings, Quantity::air_temperature, Kind::maximum), {9026, 6.0, 45.0, 205557.0});
  expect_totals(totals(readings, Quantity::air_temperature, Kind::minimum), {9202, 0.0, 31.0, 131518.0});
  expect_totals(totals(readings, Quantity::precipitation, Kind::sum), {9497, 0.0, 88.0, 17769.6});
  std::size_t flagged = 0;
  for (const QualityNote& each : readings.notes) flagged += each.kind == "failed-check" ? each.count : 0;
  EXPECT_EQ(flagged, 30U);
}

TEST(ArchiveOpenData, EpwOfATypicalYear) {
  const std::string name = "tmy3/USA_CA_San.Francisco.Intl.AP.724940_TMY3.epw";
  const Location airport{37.62, -122.40, 2};
  const Clock clock("America/Los_Angeles");
  const Readings readings = read_weather_file(open_file(name), {}, airport, clock);
  ASSERT_EQ(readings.blocks.size(), 2U);
  const Block& values = readings.blocks[0];
  const Block& light = readings.blocks[1];
  EXPECT_EQ(values.spans.size(), 8760U);
  EXPECT_EQ(light.spans.size(), 8760U);
  EXPECT_EQ(light.spans.front(), (Span{at("1999-01-01T08:00Z"), at("1999-01-01T09:00Z")}));
  EXPECT_EQ(light.spans.back(), (Span{at("2000-01-01T07:00Z"), at("2000-01-01T08:00Z")}));
  EXPECT_EQ(note(readings.notes, "typical-year").count, 8760U);
  EXPECT_EQ(note(readings.notes, "elsewhere").count, 0U);
  expect_totals(totals(readings, Quantity::air_temperature, Kind::instant), {8760, 2.2, 32.8, 120833.3});
  expect_totals(totals(readings, Quantity::dew_point, Kind::instant), {8760, -5.6, 16.7, 78292.9});
  expect_totals(totals(readings, Quantity::relative_humidity, Kind::instant), {8760, 19, 100, 652406});
  expect_totals(totals(readings, Quantity::pressure, Kind::instant), {8760, 100.1, 103.5, 891055.3});
  expect_totals(totals(readings, Quantity::cloud_cover, Kind::instant), {8760, 0, 100, 380560});
  expect_totals(totals(readings, Quantity::shortwave, Kind::mean), {8760, 0, 1009, 1716434});
  // The hottest hour is 30 June, hour 14: 14:00 Pacific standard time.
  const auto& air = channel(readings, Quantity::air_temperature, Kind::instant).value;
  const auto hottest = static_cast<std::size_t>(std::max_element(air.begin(), air.end()) - air.begin());
  EXPECT_EQ(values.spans[hottest].begin, at("1999-06-30T22:00Z"));
}

}  // namespace
}  // namespace graftcast
