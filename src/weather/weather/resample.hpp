#pragma once
// The one place where readings of any interval and kind become hours.

#include <array>
#include <cstddef>
#include <vector>

#include "weather/hourly_weather.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Hours by quantity, in UTC without a break: entry i covers [start + i h, start + (i + 1) h). Shortwave is
/// in W/m2 and precipitation in mm, whatever they came as. Not known: NaN and Origin::missing. Every column
/// has the same length; `source` is filled only by merging.
struct QuantityHours {
  Hour start{};
  std::array<HourlyWeather::Column, quantity_count> columns;

  std::size_t size() const { return columns[0].value.size(); }
  Hour hour(std::size_t index) const { return start + std::chrono::hours(static_cast<long>(index)); }
  HourlyWeather::Column& operator[](Quantity quantity) { return columns[static_cast<std::size_t>(quantity)]; }
  const HourlyWeather::Column& operator[](Quantity quantity) const {
    return columns[static_cast<std::size_t>(quantity)];
  }
};

/// `count` hours from `start` on in which nothing is known.
QuantityHours unknown_hours(Hour start, std::size_t count);

/// Makes hours of all readings whose intervals are shorter than a day; daily ones are left to
/// `daily_to_hourly`. Their origin is `measured` or, in a forecast, `forecast`.
///
/// - A mean or sum counts in each hour by its overlap; an hour is known when at least half of it is covered.
/// - An interval over an hour long is spread over its hours, marked `filled`: a mean evenly, rain evenly,
///   radiation in the proportion of extraterrestrial radiation. Its total comes back exactly.
/// - An instant is joined to the next by a straight line, or over more than an hour by a curve that keeps
///   between its neighbours (Fritsch & Carlson 1980, SIAM J. Numer. Anal. 17, 238); an hour is the mean of
///   the line. Hours with no instant in them are marked `filled`. Instants are joined over at most 1.5 h, or
///   over their usual distance where that is more (up to 12 h). Humidity over an hour apart is joined as dew
///   point.
/// - Temperatures over three hours apart are joined by the day's course: the straight line with the bend of
/// the curve of Parton & Logan 1981, its range fitted to the readings about it (Agric. Meteorol. 23, 205).
/// Where the extremes of such a stretch are given, as in forecasts, the course reaches them and keeps within
/// them.
/// - A maximum counts in each hour it touches. Other extremes within the day are not used.
QuantityHours resample(const Readings& readings, const Location& location);

}  // namespace graftcast
