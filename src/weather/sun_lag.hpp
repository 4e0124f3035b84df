#pragma once
// Whether measured radiation keeps time with the sun (private to the layer).

#include <optional>
#include <string>

#include "graftcast/calendar_time.hpp"
#include "sun_hours.hpp"

namespace graftcast {

/// How far radiation runs behind the sun, over bright days.
struct SunLag {
  double median_h = 0;  ///< Of the daily centres of measured less extraterrestrial radiation; below 0: ahead.
  std::size_t days = 0;  ///< Bright days: complete, with more than half of the extraterrestrial radiation.
  std::size_t lit =
      0;  ///< Of these, with more light than can be on the late (early) side, and more than opposite.
  std::string example;  ///< One of those hours with its irradiance.
  Instant latest{};     ///< End of the last of those hours.
};

/// The lag in the hours in which the site's clock keeps summer time, or in the others. Nothing with fewer
/// than ten bright days.
std::optional<SunLag> sun_lag(const QuantityHours& hours, const SunHours& sun, const Location& location,
                              const Clock& clock, bool in_summer_time);

}  // namespace graftcast
