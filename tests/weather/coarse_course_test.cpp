// The day's course through coarse temperatures: on made days, and on hourly station data thinned to six
// hours.

#include "coarse_course.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include <iostream>
#include <map>
#include <numbers>

#include <fmt/format.h>

#include "open_stations.hpp"
#include "weather/resample.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::terrace;

const Instant begin = at("2025-06-01T00:00Z");

/// Six-hourly readings of days that all run alike, the warmest at 16 h UTC.
std::vector<CoarseReading> like_days(double mean_c, double range_c) {
  std::vector<CoarseReading> readings;
  for (int k = 0; k < 20; ++k) {
    const double hour = 6.0 * k;
    readings.push_back({begin + std::chrono::hours(6 * k),
                        mean_c + range_c / 2 * std::cos(2 * std::numbers::pi * (hour - 16) / 24)});
  }
  return readings;
}

TEST(CoarseCourse, GoesThroughEveryReading) {
  const auto readings = like_days(18, 12);
  const CoarseCourse course(readings, {}, terrace);
  for (std::size_t k = 0; k + 1 < readings.size(); ++k) {
    const auto values = course.between(k);
    ASSERT_EQ(values.size(), 13U);
    EXPECT_NEAR(values.front(), readings[k].value_c, 1e-9);
    EXPECT_NEAR(values.back(), readings[k + 1].value_c, 1e-9);
  }
}

TEST(CoarseCourse, RisesAboveTheReadingsAboutTheAfternoon) {
  const auto readings = like_days(18, 12);
  const auto afternoon =
      CoarseCourse(readings, {}, terrace).between(10);  // From 12 to 18 h on the third day.
  const double readings_top = std::max(readings[10].value_c, readings[11].value_c);
  EXPECT_GT(*std::ranges::max_element(afternoon), readings_top + 0.5);
  EXPECT_LT(*std::ranges::max_element(afternoon), 24.0 + 1.5);
}

TEST(CoarseCourse, IsStraightThroughDaysWithoutARange) {
  const auto values = CoarseCourse(like_days(5, 0), {}, terrace).between(10);
  for (const double value : values) EXPECT_NEAR(value, 5, 1e-9);
}

TEST(CoarseCourse, ReachesTheExtremesGivenAndKeepsWithinThem) {
  const auto readings = like_days(18, 12);
  for (const double greatest_c : {24.5, 27.0, 33.0}) {
    const std::vector<StretchExtremes> extremes{
        {{readings[10].at, readings[11].at}, std::numeric_limits<double>::quiet_NaN(), greatest_c}};
    const auto values = CoarseCourse(readings, extremes, terrace).between(10);
    EXPECT_NEAR(*std::ranges::max_element(values), greatest_c, 1e-6);
    EXPECT_NEAR(values.front(), readings[10].value_c, 1e-9);
  }
  // A night that the day's course does not have, warm in its middle as a front passes.
  const std::vector<StretchExtremes> front{{{readings[8].at, readings[9].at}, 3.0, 25.0}};
  const auto values = CoarseCourse(readings, front, terrace).between(8);
  EXPECT_NEAR(*std::ranges::max_element(values), 25.0, 1e-6);
  EXPECT_GE(*std::ranges::min_element(values), 3.0);
}

TEST(CoarseCourse, HoldsWhereTheSunDoesNotRiseOrSet) {
  const Location north{69.6, 18.9, 10};
  for (const double value : CoarseCourse(like_days(2, 6), {}, north).between(10)) {
    EXPECT_GT(value, -4);
    EXPECT_LT(value, 8);
  }
}

// ---- Station data thinned ----

using Hourly = std::map<Instant, double>;

Hourly hourly_of(const Readings& readings) {
  Hourly values;
  for (const Block& block : readings.blocks) {
    for (const Channel& channel : block.channels) {
      if (channel.quantity != Quantity::air_temperature) continue;
      for (std::size_t k = 0; k < block.spans.size(); ++k)
        if (!std::isnan(channel.value[k]))
          values[std::chrono::floor<std::chrono::hours>(block.spans[k].begin)] = channel.value[k];
    }
  }
  return values;
}

Block thinned(const Hourly& truth) {
  Block block;
  Channel channel{Quantity::air_temperature, Kind::instant, {}};
  for (const auto& [time, value] : truth) {
    if ((time.time_since_epoch() / std::chrono::hours(1)) % 6 != 0) continue;
    block.spans.push_back({time, time});
    channel.value.push_back(value);
  }
  block.channels.push_back(std::move(channel));
  return block;
}

/// The extremes of every six hours, as forecasts give them.
Block extremes_of(const Hourly& truth) {
  Block block;
  Channel least{Quantity::air_temperature, Kind::minimum, {}};
  Channel greatest{Quantity::air_temperature, Kind::maximum, {}};
  const Block coarse = thinned(truth);
  for (std::size_t k = 0; k + 1 < coarse.spans.size(); ++k) {
    const Span span{coarse.spans[k].begin, coarse.spans[k + 1].begin};
    if (span.end - span.begin != std::chrono::hours(6)) continue;
    double low = 1e9;
    double high = -1e9;
    for (auto each = truth.lower_bound(span.begin); each != truth.end() && each->first <= span.end; ++each) {
      low = std::min(low, each->second);
      high = std::max(high, each->second);
    }
    block.spans.push_back(span);
    least.value.push_back(low);
    greatest.value.push_back(high);
  }
  block.channels = {std::move(least), std::move(greatest)};
  return block;
}

/// Values at the full hours: the mean of the hours before and after, or on the straight line between
/// readings.
Hourly straight(const Block& coarse) {
  Hourly values;
  const auto& value = coarse.channels[0].value;
  for (std::size_t k = 0; k + 1 < coarse.spans.size(); ++k) {
    const auto length = coarse.spans[k + 1].begin - coarse.spans[k].begin;
    if (length != std::chrono::hours(6)) continue;
    for (int hour = 0; hour < 6; ++hour)
      values[coarse.spans[k].begin + std::chrono::hours(hour)] =
          value[k] + (value[k + 1] - value[k]) * hour / 6;
  }
  return values;
}

Hourly curved(std::vector<Block> blocks, const Location& place) {
  Readings readings;
  readings.source = "thinned";
  readings.blocks = std::move(blocks);
  const QuantityHours hours = resample(readings, place);
  Hourly values;
  for (std::size_t k = 0; k < hours.size(); ++k)
    if (hours[Quantity::air_temperature].known(k))
      values[hours.hour(k)] = hours[Quantity::air_temperature].value[k];
  return values;
}

struct PeakError {
  double mean_k = 0, mean_absolute_k = 0;
  double within_1_k = 0;  ///< Share of the days.
  int days = 0;
};

/// Of the daily maxima, over days (of solar time) that both know whole.
PeakError peak_error(const Hourly& truth, const Hourly& found, const Location& place) {
  std::map<long, std::array<double, 3>> days;  // Hours, maximum of each.
  for (const auto& [time, value] : truth) {
    const auto other = found.find(time);
    if (other == found.end()) continue;
    const auto solar = time + std::chrono::seconds(std::lround(place.longitude_deg * 240));
    auto& day = days.try_emplace(solar.time_since_epoch() / std::chrono::days(1), std::array{0.0, -1e9, -1e9})
                    .first->second;
    day[0] += 1;
    day[1] = std::max(day[1], value);
    day[2] = std::max(day[2], other->second);
  }
  PeakError error;
  for (const auto& [number, day] : days) {
    if (day[0] < 24) continue;
    const double miss = day[2] - day[1];
    error.mean_k += miss;
    error.mean_absolute_k += std::abs(miss);
    error.within_1_k += std::abs(miss) <= 1;
    ++error.days;
  }
  for (double* const sum : {&error.mean_k, &error.mean_absolute_k, &error.within_1_k}) *sum /= error.days;
  return error;
}

void say(const std::string& name, const PeakError& error) {
  std::cout << fmt::format(
      "{}: {} days, daily maximum {:+.2f} K on average, {:.2f} K off, {:.0f} % within 1 K\n", name,
      error.days, error.mean_k, error.mean_absolute_k, 100 * error.within_1_k);
  ::testing::Test::RecordProperty(name, fmt::format("{:+.3f} {:.3f}", error.mean_k, error.mean_absolute_k));
}

void expect_better_peaks(const std::string& name, const Readings& readings, const Location& place) {
  const Hourly truth = hourly_of(readings);
  const Block coarse = thinned(truth);
  const PeakError line = peak_error(truth, straight(coarse), place);
  const PeakError curve = peak_error(truth, curved({coarse}, place), place);
  const PeakError known = peak_error(truth, curved({coarse, extremes_of(truth)}, place), place);
  say(name + "_line", line);
  say(name + "_course", curve);
  say(name + "_with_extremes", known);
  EXPECT_GT(curve.days, 300);
  EXPECT_LT(curve.mean_absolute_k, 1.0);
  EXPECT_LT(curve.mean_absolute_k, line.mean_absolute_k);
  EXPECT_LT(std::abs(curve.mean_k), std::abs(line.mean_k));
  EXPECT_LT(known.mean_absolute_k, 0.5);
  EXPECT_GT(known.within_1_k, 0.95);
}

TEST(SixHourlyTemperatures, RecoverTheDailyMaximumInFallon) {
  const auto station = testing::fallon();
  expect_better_peaks("fallon", station.read(), station.place);
}

TEST(SixHourlyTemperatures, RecoverTheDailyMaximumInParis) {
  const auto station = testing::paris();
  expect_better_peaks("paris", station.read(), station.place);
}

TEST(SixHourlyTemperatures, RecoverTheDailyMaximumInNewYork) {
  expect_better_peaks("newark", testing::new_york("EWR"), {40.69, -74.17, 3});
}

}  // namespace
}  // namespace graftcast
