#pragma once
// The course of temperature through a day between its extremes (private to the layer).

#include <optional>

#include "graftcast/calendar_time.hpp"
#include "graftcast/sun.hpp"

namespace graftcast {

/// Extremes of a day and of its neighbours; those of a missing neighbour are the day's own.
struct CourseOfDay {
  double minimum_c;
  double maximum_c;
  double previous_maximum_c;
  double previous_minimum_c;
  double next_minimum_c;
};

/// The curve of Parton & Logan 1981 about one solar noon; see daily_to_hourly.hpp.
class DayCourse {
 public:
  DayCourse(const CourseOfDay& extremes, const SunTimes& sun) : extremes_(extremes), sun_(sun) {}

  /// Temperature [degC] at `at`, from the midnight before this noon to the one after.
  double temperature_c(Instant at) const;
  /// When the minimum and the maximum come.
  Instant coolest() const;
  Instant hottest() const;

 private:
  bool rises_and_sets() const { return sun_.sunrise && sun_.sunset; }
  double by_day(Instant at) const;
  double by_night(double hours_since_sunset, double sunset_c, double minimum_c) const;
  double night_length_h() const;

  CourseOfDay extremes_;
  SunTimes sun_;
};

}  // namespace graftcast
