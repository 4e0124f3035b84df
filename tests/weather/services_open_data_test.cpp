// Answers recorded from the live services. Expected counts, stamps and
// extremes were read off the files with another program.

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "open_files.hpp"
#include "services_cases.hpp"
#include "weather/resample.hpp"
#include "weather/weather_file.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::block_with;
using testing::open_text;

const double wind_factor = 4.87 / std::log(67.8 * 10 - 5.42);  // FAO-56 eq. 47.

struct Found {
  std::size_t known = 0;
  double least = 0, greatest = 0, sum = 0;
};

/// All blocks together; the instant that two blocks share counts once.
Found found_in(const Readings& readings, Quantity quantity, Kind kind) {
  Found found;
  std::optional<Instant> last;
  for (const Block& block : readings.blocks) {
    const Channel* const channel = testing::find_channel(block, quantity, kind);
    for (std::size_t k = 0; channel != nullptr && k < channel->value.size(); ++k) {
      const double value = channel->value[k];
      if (std::isnan(value) || (last && block.spans[k].begin <= *last)) continue;
      last = block.spans[k].begin;
      found.least = found.known == 0 ? value : std::min(found.least, value);
      found.greatest = found.known == 0 ? value : std::max(found.greatest, value);
      found.sum += value;
      ++found.known;
    }
  }
  return found;
}

void expect_found(const Found& found, std::size_t known, double least, double greatest) {
  EXPECT_EQ(found.known, known);
  EXPECT_NEAR(found.least, least, 1e-9);
  EXPECT_NEAR(found.greatest, greatest, 1e-9);
}

ServiceAnswer read_open(const std::string& file, Service service, const Location& location) {
  return read_service_answer(service, open_text(file), location, {file, std::nullopt, ""});
}

struct MetCase {
  const char* file;
  Location location;
  const char *made_at, *first, *last, *step_change;
  std::size_t entries, rains;
  double rain_mm, coldest_c, hottest_c, driest, dampest, calmest_m_s, windiest_m_s;
};

class OpenMetNorway : public ::testing::TestWithParam<MetCase> {};

TEST_P(OpenMetNorway, ReadsToTheRightHoursAndExtremes) {
  const MetCase& given = GetParam();
  EXPECT_EQ(recognised_service(open_text(given.file).substr(0, 8192)), Service::met_norway);
  const ServiceAnswer answer = read_open(given.file, Service::met_norway, given.location);
  const Readings& readings = answer.readings;
  EXPECT_EQ(readings.made_at, at(given.made_at));
  EXPECT_LT(distance_km(given.location, answer.place.value()), 1);
  expect_found(found_in(readings, Quantity::air_temperature, Kind::instant), given.entries, given.coldest_c,
               given.hottest_c);
  expect_found(found_in(readings, Quantity::relative_humidity, Kind::instant), given.entries, given.driest,
               given.dampest);
  expect_found(found_in(readings, Quantity::wind_speed, Kind::instant), given.entries,
               given.calmest_m_s * wind_factor, given.windiest_m_s * wind_factor);
  expect_found(found_in(readings, Quantity::cloud_cover, Kind::instant), given.entries, 0, 100);
  const Found rain = found_in(readings, Quantity::precipitation, Kind::sum);
  EXPECT_EQ(rain.known, given.rains);
  EXPECT_NEAR(rain.sum, given.rain_mm, 1e-9);
  EXPECT_EQ(readings.blocks[0].spans.front().begin, at(given.first));
  EXPECT_EQ(readings.blocks[0].spans.back().begin, at(given.step_change));
  EXPECT_EQ(readings.blocks[1].spans.back().begin, at(given.last));
  EXPECT_TRUE(readings.notes.empty());
}

TEST_P(OpenMetNorway, EveryHourUpToTheLastEntryIsKnown) {
  const MetCase& given = GetParam();
  const QuantityHours made =
      resample(read_open(given.file, Service::met_norway, given.location).readings, given.location);
  const auto count = static_cast<std::size_t>((at(given.last) - at(given.first)) / std::chrono::hours(1));
  ASSERT_GE(made.size(), count);
  double rain_mm = 0;
  for (std::size_t k = 0; k < count; ++k) {
    EXPECT_NE(made[Quantity::air_temperature].origin[k], Origin::missing) << k;
    rain_mm += made[Quantity::precipitation].value[k];
  }
  EXPECT_NEAR(rain_mm, given.rain_mm, 1e-6);
}

INSTANTIATE_TEST_SUITE_P(Recorded, OpenMetNorway,
                         ::testing::Values(MetCase{"met-norway/brisbane_compact_20251029.json",
                                                   {-27.5, 153, 19},
                                                   "2025-10-29T00:47:34Z",
                                                   "2025-10-29T01:00:00Z",
                                                   "2025-11-07T12:00:00Z",
                                                   "2025-10-31T12:00:00Z",
                                                   88,
                                                   87,
                                                   44.6,
                                                   15.4,
                                                   29.6,
                                                   33.8,
                                                   100,
                                                   0.6,
                                                   5.4},
                                           MetCase{"met-norway/newyork_compact_20200720.json",
                                                   {40.7, -74, 10},
                                                   "2020-07-20T01:30:57Z",
                                                   "2020-07-20T11:00:00Z",
                                                   "2020-07-29T06:00:00Z",
                                                   "2020-07-22T18:00:00Z",
                                                   82,
                                                   81,
                                                   9.2,
                                                   21.8,
                                                   36.0,
                                                   32.0,
                                                   96.6,
                                                   0.9,
                                                   6.2}));

TEST(OpenNws, OaklandReadsToTheRightHoursAndExtremes) {
  const std::string file = "nws/gridpoint_MTR_90_105_oakland.json";
  EXPECT_EQ(recognised_service(open_text(file).substr(0, 8192)), Service::nws);
  const Location oakland{37.805, -122.273, 1};
  const ServiceAnswer answer = read_open(file, Service::nws, oakland);
  const Readings& readings = answer.readings;
  EXPECT_EQ(readings.made_at, at("2025-03-06T08:28:02Z"));
  EXPECT_LT(distance_km(oakland, answer.place.value()), 3);
  const Block& air = block_with(readings, Quantity::air_temperature, Kind::mean);
  EXPECT_EQ(air.spans.front().begin, at("2025-03-06T02:00:00Z"));
  EXPECT_EQ(air.spans.back().end, at("2025-03-13T04:00:00Z"));
  expect_found(found_in(readings, Quantity::air_temperature, Kind::mean), 170, 80.0 / 9, 170.0 / 9);
  expect_found(found_in(readings, Quantity::dew_point, Kind::mean), 167, 20.0 / 3, 35.0 / 3);
  expect_found(found_in(readings, Quantity::relative_humidity, Kind::mean), 167, 55, 90);
  expect_found(found_in(readings, Quantity::cloud_cover, Kind::mean), 169, 4, 89);
  expect_found(found_in(readings, Quantity::wind_speed, Kind::mean), 169, 5.556 / 3.6 * wind_factor,
               25.928 / 3.6 * wind_factor);
  expect_found(found_in(readings, Quantity::gust, Kind::maximum), 57, 9.26 / 3.6 * wind_factor,
               38.892 / 3.6 * wind_factor);
  expect_found(found_in(readings, Quantity::precipitation, Kind::sum), 28, 0, 8.128);
  EXPECT_NEAR(found_in(readings, Quantity::precipitation, Kind::sum).sum, 29.972, 1e-9);
  expect_found(found_in(readings, Quantity::air_temperature, Kind::maximum), 8, 15, 170.0 / 9);
  expect_found(found_in(readings, Quantity::air_temperature, Kind::minimum), 8, 80.0 / 9, 10);
  EXPECT_TRUE(readings.notes.empty());
}

TEST(OpenOpenMeteo, ParisHourlyWithoutItsMetadataIsTakenAsUtcAndSaysSo) {
  const std::string file = "open-meteo/archive_paris_hourly_temperature_2014_2023.csv";
  EXPECT_EQ(recognised_service(open_text(file).substr(0, 8192)), Service::open_meteo);
  const Readings readings = read_open(file, Service::open_meteo_archive, {48.86, 2.35, 38}).readings;
  expect_found(found_in(readings, Quantity::air_temperature, Kind::instant), 87648, -10.0, 40.8);
  EXPECT_EQ(readings.blocks.at(0).spans.front().begin, at("2014-01-01T00:00:00Z"));
  EXPECT_EQ(readings.blocks.at(0).spans.back().begin, at("2023-12-31T23:00:00Z"));
  EXPECT_EQ(testing::note(readings.notes, "offset-assumed").count, 1U);
}

TEST(OpenOpenMeteo, RedmondDailyKeepsItsOneOffsetThroughSummerAndWinter) {
  const std::string file = "open-meteo/archive_redmond_wa_daily_2002_2023.csv";
  EXPECT_EQ(recognised_service(open_text(file).substr(0, 8192)), Service::open_meteo);
  const ServiceAnswer answer = read_open(file, Service::open_meteo_archive, {47.63, -122.17, 179});
  EXPECT_LT(distance_km({47.63, -122.17, 179}, answer.place.value()), 1);
  const Block& block = block_with(answer.readings, Quantity::air_temperature, Kind::mean);
  EXPECT_EQ(block.spans.front(), (Span{at("2002-01-01T07:00:00Z"), at("2002-01-02T07:00:00Z")}));
  EXPECT_EQ(block.spans.back().end, at("2024-01-02T07:00:00Z"));
  expect_found(found_in(answer.readings, Quantity::air_temperature, Kind::mean), 8036, -9.3, 31.1);
  expect_found(found_in(answer.readings, Quantity::precipitation, Kind::sum), 8036, 0, 69.5);
  EXPECT_TRUE(answer.readings.notes.empty());
}

}  // namespace
}  // namespace graftcast
