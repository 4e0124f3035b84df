#include "day_course.hpp"

#include <cmath>
#include <numbers>

namespace graftcast {

namespace {

// Parton & Logan 1981, air at 1.5 m: lag of the maximum after noon [h], decay by night [-], lag of the
// minimum after sunrise [h]. Form with 2 (a - c): Wann, Yen & Gold 1985 (Agric. For. Meteorol. 34, 81).
constexpr double lag_of_maximum_h = 1.86;
constexpr double decay_by_night = 2.20;
constexpr double lag_of_minimum_h = -0.17;

double hours_between(Instant from, Instant to) {
  return static_cast<double>((to - from).count()) / 3600.0;
}

Instant shifted(Instant at, double by_h) {
  return at + std::chrono::seconds(static_cast<long>(std::lround(by_h * 3600)));
}

/// Height of the day's sine at `since_sunrise_h`, 0 at the minimum and 1 at the maximum.
double sine_of_day(double since_sunrise_h, double day_length_h) {
  return std::sin(std::numbers::pi * (since_sunrise_h - lag_of_minimum_h) /
                  (day_length_h + 2 * (lag_of_maximum_h - lag_of_minimum_h)));
}

}  // namespace

double DayCourse::night_length_h() const {
  return 24 - hours_between(*sun_.sunrise, *sun_.sunset);
}

double DayCourse::by_day(Instant at) const {
  const double length_h = hours_between(*sun_.sunrise, *sun_.sunset);
  return extremes_.minimum_c + (extremes_.maximum_c - extremes_.minimum_c) *
                                   sine_of_day(hours_between(*sun_.sunrise, at), length_h);
}

double DayCourse::by_night(double hours_since_sunset, double sunset_c, double minimum_c) const {
  return minimum_c + (sunset_c - minimum_c) * std::exp(-decay_by_night * hours_since_sunset /
                                                       (night_length_h() + lag_of_minimum_h));
}

double DayCourse::temperature_c(Instant at) const {
  if (!rises_and_sets()) {
    const double middle = (extremes_.minimum_c + extremes_.maximum_c) / 2;
    const double angle = 2 * std::numbers::pi * hours_between(hottest(), at) / 24;
    return middle + (extremes_.maximum_c - extremes_.minimum_c) / 2 * std::cos(angle);
  }
  const double length_h = hours_between(*sun_.sunrise, *sun_.sunset);
  if (at < coolest()) {  // The night that the day before began; its sun ran as this day's.
    const double sunset_c =
        extremes_.previous_minimum_c +
        (extremes_.previous_maximum_c - extremes_.previous_minimum_c) * sine_of_day(length_h, length_h);
    return by_night(hours_between(*sun_.sunset, at) + 24, sunset_c, extremes_.minimum_c);
  }
  if (at <= *sun_.sunset) return by_day(at);
  return by_night(hours_between(*sun_.sunset, at), by_day(*sun_.sunset), extremes_.next_minimum_c);
}

Instant DayCourse::coolest() const {
  if (!rises_and_sets()) return hottest() - std::chrono::hours(12);
  return shifted(*sun_.sunrise, lag_of_minimum_h);
}

Instant DayCourse::hottest() const {
  return shifted(sun_.noon, lag_of_maximum_h);
}

}  // namespace graftcast
