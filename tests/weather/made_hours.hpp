#pragma once
// Invented hours of a good station: smooth, noisy as weather is, in step with the sun.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "graftcast/sun.hpp"
#include "weather/resample.hpp"

namespace graftcast::testing {

inline void measure(QuantityHours& hours, Quantity quantity, std::size_t k, double value) {
  hours[quantity].value[k] = value;
  hours[quantity].origin[k] = Origin::measured;
}

/// Evenly spread in [low, high); the same on every machine, unlike the distributions of <random>.
inline double spread(std::mt19937& numbers, double low, double high) {
  return low + (high - low) * static_cast<double>(numbers()) / 4294967296.0;
}

/// `days` of hours from `start` on; radiation is extraterrestrial radiation times a clearness that moves from
/// hour to hour about the day's own.
inline QuantityHours made_hours(const Location& location, Hour start, std::size_t days, unsigned seed) {
  std::mt19937 numbers(seed);
  QuantityHours hours = unknown_hours(start, 24 * days);
  double day_clearness = 0.6;
  double warmth_c = 14;
  for (std::size_t k = 0; k < hours.size(); ++k) {
    if (k % 24 == 0) {
      day_clearness = spread(numbers, 0.2, 0.75);
      warmth_c = std::clamp(warmth_c + spread(numbers, -3, 3), 2.0, 26.0);
    }
    const SunPeriod sun = sun_period(hours.hour(k), location.latitude_deg, location.longitude_deg);
    const double clearness = day_clearness * spread(numbers, 0.9, 1.05);
    const double solar_h = static_cast<double>(k % 24) + location.longitude_deg / 15;
    const double air_c =
        warmth_c + 6 * std::cos(2 * std::numbers::pi * (solar_h - 15) / 24) + spread(numbers, -0.7, 0.7);
    measure(hours, Quantity::air_temperature, k, air_c);
    measure(hours, Quantity::dew_point, k, air_c - spread(numbers, 0.5, 9));
    measure(hours, Quantity::relative_humidity, k, spread(numbers, 30, 97));
    measure(hours, Quantity::wind_speed, k, spread(numbers, 0.1, 6));
    measure(hours, Quantity::shortwave, k, sun.mean_extraterrestrial_w_m2 * clearness);
    measure(hours, Quantity::pressure, k, 98 + spread(numbers, -0.4, 0.4));
  }
  return hours;
}

}  // namespace graftcast::testing
