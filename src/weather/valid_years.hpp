#pragma once
// The years that weather can be of (private to the layer).

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// The sun's formulas hold from 1800 to 2200; a year to either side is left for the days about an hour.
inline constexpr Instant first_valid_instant = std::chrono::sys_days(std::chrono::year(1801) / 1 / 1);
inline constexpr Instant past_valid_instants = std::chrono::sys_days(std::chrono::year(2199) / 1 / 1);

}  // namespace graftcast
