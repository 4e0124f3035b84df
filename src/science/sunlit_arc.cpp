#include "sunlit_arc.hpp"

#include <algorithm>
#include <cmath>

namespace graftcast {

double sunset_angle_rad(double latitude_rad, double declination_rad) {
  return std::acos(std::clamp(-std::tan(latitude_rad) * std::tan(declination_rad), -1.0, 1.0));
}

SunlitArc sunlit_arc(double latitude_rad, double declination_rad, double middle_rad, double width_rad) {
  constexpr double circle = 2 * std::numbers::pi;
  const double sunset = sunset_angle_rad(latitude_rad, declination_rad);
  const double middle = std::remainder(middle_rad, circle);
  SunlitArc arc{.sine_integral = 0, .angle_rad = 0};
  // Today's daylight and, for an arc that holds midnight, yesterday's and tomorrow's.
  for (const double noon : {-circle, 0.0, circle}) {
    const double from = std::max(middle - width_rad / 2, noon - sunset) - noon;
    const double until = std::min(middle + width_rad / 2, noon + sunset) - noon;
    if (from >= until) continue;
    arc.angle_rad += until - from;
    arc.sine_integral +=
        (until - from) * std::sin(latitude_rad) * std::sin(declination_rad) +
        std::cos(latitude_rad) * std::cos(declination_rad) * (std::sin(until) - std::sin(from));
  }
  return arc;
}

}  // namespace graftcast
