#pragma once
// What is odd about the hours of one source, though each value is possible. Nothing is changed.

#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/reading.hpp"
#include "graftcast/resample.hpp"
#include "graftcast/weather_settings.hpp"

namespace graftcast {

/// Checks the measured hours of `hours` (not those filled) and gives a note, with count and examples, for
/// each finding, by these kinds:
/// - `spike`: an hour departs from both its neighbours, by more than 8 K, or 1.5 kPa.
/// - `stuck-sensor`: the same value for a day (humidity below 98 %, wind above 0; calm for four days;
/// pressure
///   for two days; radiation above 0 for five hours).
/// - `night-sunshine`: more than 10 W/m2 with the sun down the hour before, in it and after.
/// - `no-radiation-day`: a local day without any radiation though the sun would give 5 MJ/m2.
/// - `dew-above-air`: a dew point more than 0.5 K above the air.
/// - `radiation-late`, `radiation-early`: half an hour or more behind or ahead of the sun, with light in the
///   dark on that side on most bright days: stamps of the wrong end of the hour, or a clock an hour off.
/// The thresholds are common practice in station networks, no published source. The checks against the sun
/// look at the last 800 days.
std::vector<QualityNote> check_quality(const QuantityHours& hours, const std::string& source,
                                       const Location& location, const Clock& clock);

}  // namespace graftcast
