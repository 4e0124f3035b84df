#pragma once
// The one way in which this layer refuses a number.

#include <string_view>
#include "text/tr.hpp"

namespace graftcast {

/// What a number is and where it may lie; name and unit are marked with `tr_later`.
struct Range {
  std::string_view name;
  double low;
  double high;
  std::string_view unit;
};

/// Throws RangeError naming value, limits and unit unless low <= value <= high (so also for NaN).
void require_within(double value, const Range& range);

/// Throws RangeError unless `low` <= `high`; both are named.
void require_ordered(double low, std::string_view low_name, double high, std::string_view high_name);

/// Ranges that several formulas share.
namespace valid {
inline constexpr Range temperature{tr_later("temperature"), -80, 100, "degC"};
inline constexpr Range air_temperature{tr_later("air temperature"), -80, 60, "degC"};
inline constexpr Range humidity{tr_later("relative humidity"), 0, 100, "%"};
inline constexpr Range pressure{tr_later("air pressure"), 40, 110, "kPa"};
inline constexpr Range vapour_pressure{tr_later("vapour pressure"), 0, 20, "kPa"};
inline constexpr Range elevation{tr_later("elevation"), -430, 6000, "m"};
inline constexpr Range latitude{tr_later("latitude"), -90, 90, tr_later("degrees")};
inline constexpr Range longitude{tr_later("longitude"), -180, 180, tr_later("degrees")};
inline constexpr Range radiation{tr_later("radiation"), 0, 60, "MJ m-2"};
inline constexpr Range clear_sky_ratio{tr_later("clear-sky ratio"), 0, 1,
                                       tr_later("(of the clear sky's radiation)")};
}  // namespace valid

}  // namespace graftcast
