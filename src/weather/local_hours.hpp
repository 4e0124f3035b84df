#pragma once
// Which hours belong to a local day (private to the layer).

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// The hours [first, past) whose middles lie in a local day.
struct HoursOfDay {
  Hour first;
  Hour past;
  std::size_t count() const { return static_cast<std::size_t>((past - first).count()); }
};

inline HoursOfDay hours_of(LocalDay day, const Clock& clock) {
  constexpr std::chrono::minutes half(30);
  return {std::chrono::ceil<std::chrono::hours>(clock.begin_of(day) - half),
          std::chrono::ceil<std::chrono::hours>(clock.begin_of(day + std::chrono::days(1)) - half)};
}

/// The local day that an hour belongs to.
inline LocalDay day_of_hour(Hour hour, const Clock& clock) {
  return clock.day_of(hour + std::chrono::minutes(30));
}

}  // namespace graftcast
