#pragma once
// What stands in for weather that is not known.

#include <cstdint>
#include <string_view>

namespace graftcast {

enum class StandIn : std::uint8_t {
  none,               ///< The hour is known.
  neighbouring_days,  ///< The same hour of the nearest day known.
  past_years,         ///< The site's own past years at that date.
  monthly_climate,    ///< Days made up from the log's monthly means and spreads.
  last_week,          ///< The last known week again.
};

/// The code in JSON: `none`, `neighbouring-days`, `past-years`, `monthly-climate`, `last-week`.
std::string_view stand_in_name(StandIn stand_in);

}  // namespace graftcast
