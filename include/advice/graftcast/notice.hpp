#pragma once
// What limits an answer: weather that is not known, and what stands in for it.

#include <chrono>
#include <variant>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/stand_in.hpp"

namespace graftcast {

/// The weather of [from, to) is not known.
struct WeatherUnknown {
  Instant from{}, to{};
  StandIn filled_by = StandIn::last_week;
};
/// The log has too few days of these months: days of the months beside stand in.
struct MonthsBorrowed {
  std::vector<std::chrono::month> months;
};

using Notice = std::variant<WeatherUnknown, MonthsBorrowed>;

}  // namespace graftcast
