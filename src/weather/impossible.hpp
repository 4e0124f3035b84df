#pragma once
// Combinations of values that cannot be (private to the layer): each alone is within its limits.

#include <vector>

#include "note_book.hpp"
#include "weather/daily_to_hourly.hpp"

namespace graftcast {

/// Highest dew point that is taken for real [degC]: the record is 35 (Dhahran, 2003).
inline constexpr double highest_dew_point_c = 40;
/// Brightest hour that is taken for real [W/m2 on the horizontal]: about the solar constant.
inline constexpr double brightest_hour_w_m2 = 1380;

/// Sets aside humidity whose dew point would be above that, and irradiance above `brightest_hour_w_m2`, and
/// notes it.
void set_aside_impossible(QuantityHours& hours, NoteBook& notes);

/// In daily logs: the same, radiation of more than falls on the atmosphere, and extremes the wrong way round.
/// Days with a mean temperature alone are noted: no hours can be made of them.
void set_aside_impossible(std::vector<DayReading>& days, const Location& location, NoteBook& notes);

}  // namespace graftcast
