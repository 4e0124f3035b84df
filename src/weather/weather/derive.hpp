#pragma once
// What a log does not measure, from what it does.

#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/hourly_weather.hpp"
#include "weather/resample.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Wind where none is measured [m/s at 2 m]: the mean of many stations, FAO-56 (Allen et al. 1998),
/// chapter 3.
inline constexpr double assumed_wind_m_s = 2.0;

/// In hours whose temperature is known, derives what else is missing and marks it `derived`:
///
/// - pressure from the elevation (FAO-56 eq. 7), wind as `assumed_wind_m_s`;
/// - humidity from a dew point at the local day's minimum temperature (eq. 48);
/// - radiation from cloud where that is known (Kasten & Czeplak 1980), else from the local day's range of
///   temperature (eq. 50, interior coefficient), in proportion to extraterrestrial radiation.
///
/// A day of which less than 20 h are known borrows hours from its neighbours until 24 are.
/// Rain and gusts are never derived. Returns the variables of which at least one hour was derived.
std::vector<Variable> derive_missing(QuantityHours& hours, const Location& location, const Clock& clock);

}  // namespace graftcast
