#pragma once
// The day's course between temperatures read hours apart (private to the layer).

#include <vector>

#include "day_course.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// A temperature read at a moment.
struct CoarseReading {
  Instant at;
  double value_c;
};

/// Extremes given for a stretch between two readings; NaN where one is not given.
struct StretchExtremes {
  Span span;
  double minimum_c;
  double maximum_c;
};

/// The course of days through readings several hours apart. Six-hourly readings miss the afternoon's peak:
/// the range of the day is fitted, by least squares over a day and a half about each stretch, to the curve of
/// Parton & Logan 1981 (see daily_to_hourly.hpp) for the sun of the place. The course goes through every
/// reading; where extremes are given for a stretch, it reaches them and keeps within them.
class CoarseCourse {
 public:
  /// Both lists rise in time.
  CoarseCourse(std::vector<CoarseReading> readings, std::vector<StretchExtremes> extremes,
               const Location& location);

  /// Temperatures [degC] from reading `k` to the next, both with them, in equal steps of half an hour or
  /// less.
  std::vector<double> between(std::size_t k) const;

 private:
  double unit_curve(Instant at) const;
  double fitted_range_c(std::size_t k) const;
  const StretchExtremes* extremes_of(const Span& span) const;

  std::vector<CoarseReading> readings_;
  std::vector<StretchExtremes> extremes_;
  std::chrono::seconds solar_offset_;  ///< Mean solar time less UTC.
  long first_day_ = 0;
  std::vector<DayCourse> days_;  ///< Solar days whose range is 1.
};

}  // namespace graftcast
