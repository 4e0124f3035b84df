#pragma once
// The sun and wind that reach a spot, learned from a thermometer that stands there.
//
// The thermometer is stick-like and stands in the open at the spot, without a radiation shield: a probe in a
// cut twig, or one painted matt black. Its temperature is then that of a scion without cover and without
// water, which `scion_climate` gives for any shares. A thermometer in a shield reads the air, and tells
// nothing of the sun.

#include <cstddef>

#include "graftcast/spot_fit.hpp"
#include "plant/scion_climate.hpp"

namespace graftcast {

/// Least squares (Levenberg-Marquardt: Marquardt 1963, J. SIAM 11, 431) of the thermometer's hourly means at
/// the spot against those that the energy balance gives it, over sun share, wind share and the thermometer's
/// offset, shares within 0..1. Standard errors come from the residual variance and the Jacobian, with n (1 -
/// r)/(1 + r) hours in place of n where residuals persist (r from hour to hour; Bayley & Hammersley 1946,
/// recalled); they are widened where the squares rise less than that says two errors away. Where the log does
/// not tell the wind share that of `spot` is held, and what is not known of it adds to the sun share's error.
/// Hours and skyline of `spot` are kept as they are.
///
/// `open` is the site's weather; of `at_spot` air_temperature is the thermometer's, and wind_speed counts
/// where measured. Errors: RangeError where they share fewer hours than `least_hours`, or the spot has a
/// climate of its own.
SpotFit fit_spot(const HourlyWeather& open, const HourlyWeather& at_spot, const Location& location,
                 const Spot& spot, const SpotSensor& sensor, const Models& models);

/// What the thermometer would read in each hour of `ambient` (one course) [degC].
Eigen::ArrayXd sensor_temperatures_c(const Ambient& ambient, const Spot& spot, const SpotSensor& sensor,
                                     const Models& models);

}  // namespace graftcast
