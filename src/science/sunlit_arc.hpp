#pragma once
// The part of the sun's daily circle that lies above the horizon.

#include <numbers>

namespace graftcast {

inline constexpr double degree = std::numbers::pi / 180;  ///< One degree in radians.

/// FAO-56's solar constant [MJ m-2 min-1].
inline constexpr double solar_constant_mj_m2_min = 0.0820;

/// Hour angle of sunset [rad, 0..pi] on a flat horizon: FAO-56 eq. 25, held to 0 in polar night, pi in polar
/// day.
double sunset_angle_rad(double latitude_rad, double declination_rad);

/// What lies above the horizon of an arc of hour angles.
struct SunlitArc {
  double sine_integral;  ///< Integral of the sine of elevation over hour angle [rad].
  double angle_rad;      ///< Length of the sunlit part.
};

/// Of the arc of `width_rad` (at most a full circle) about `middle_rad` (any finite angle).
SunlitArc sunlit_arc(double latitude_rad, double declination_rad, double middle_rad, double width_rad);

}  // namespace graftcast
