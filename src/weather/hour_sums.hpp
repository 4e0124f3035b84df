#pragma once
// Time-weighted means by hour (private to the layer).

#include <algorithm>
#include <cstdint>
#include <vector>

#include "weather/hourly_weather.hpp"
#include "weather/reading.hpp"

namespace graftcast {

class HourSums {
 public:
  HourSums(Hour start, std::size_t count) : start_(start), count_(count) {}

  /// Begins anew; needed before the first `add`.
  void clear() {
    seconds_.assign(count_, 0);
    sum_.assign(count_, 0);
    spread_.assign(count_, 0);
  }

  /// Calls `visit(hour index, overlap)` for each hour that `span` touches.
  template <class Visit>
  void each_hour(const Span& span, Visit visit) const {
    const long first = (span.begin - start_).count() / 3600;
    const long past = ((span.end - start_).count() + 3599) / 3600;
    for (long hour = first; hour < past; ++hour) {
      const Instant begin = start_ + std::chrono::hours(hour);
      visit(static_cast<std::size_t>(hour),
            Span{std::max(span.begin, begin), std::min(span.end, begin + std::chrono::hours(1))});
    }
  }

  /// Adds `value` over `overlap` within the hour.
  void add(std::size_t hour, const Span& overlap, double value) {
    const double length = static_cast<double>((overlap.end - overlap.begin).count());
    seconds_[hour] += length;
    sum_[hour] += value * length;
  }
  void mark_spread(std::size_t hour) { spread_[hour] = 1; }

  /// Writes the means of hours that are covered by half or more into `column`.
  void write(HourlyWeather::Column& column, Origin origin) const {
    for (std::size_t hour = 0; hour < sum_.size(); ++hour) {
      if (seconds_[hour] < 1800) continue;
      column.value[hour] = sum_[hour] / seconds_[hour];
      column.origin[hour] = spread_[hour] ? Origin::filled : origin;
    }
  }

 private:
  Instant start_;
  std::size_t count_;
  std::vector<double> seconds_;
  std::vector<double> sum_;
  std::vector<std::uint8_t> spread_;
};

}  // namespace graftcast
