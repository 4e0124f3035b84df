#pragma once
// Short holes in hourly weather.

#include "weather/resample.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Longest hole that is interpolated [h].
inline constexpr std::size_t longest_filled_hole_h = 3;

/// Fills holes of at most `longest_filled_hole_h` between two known hours and marks them `filled`.
///
/// Temperature, dew point, wind, pressure and cloud run straight across. Relative humidity runs as dew point,
/// where the temperature is known throughout. Radiation runs as its share of the clear sky's (FAO-56 eq. 37),
/// at dusk and dawn by the lit side alone; a hole with night on either side keeps the share of the last light
/// within a day, or stays. Rain and gusts are never interpolated.
void fill_short_gaps(QuantityHours& hours, const Location& location);

}  // namespace graftcast
