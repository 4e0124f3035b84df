#pragma once
// The one way in which this layer refuses a number.

#include <string_view>

namespace graftcast {

/// What a number is and where it may lie.
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
inline constexpr Range temperature{"temperature", -80, 100, "degC"};
inline constexpr Range air_temperature{"air temperature", -80, 60, "degC"};
inline constexpr Range humidity{"relative humidity", 0, 100, "%"};
inline constexpr Range pressure{"air pressure", 40, 110, "kPa"};
inline constexpr Range vapour_pressure{"vapour pressure", 0, 20, "kPa"};
inline constexpr Range elevation{"elevation", -430, 6000, "m"};
inline constexpr Range latitude{"latitude", -90, 90, "degrees"};
inline constexpr Range longitude{"longitude", -180, 180, "degrees"};
inline constexpr Range radiation{"radiation", 0, 60, "MJ m-2"};
inline constexpr Range clear_sky_ratio{"clear-sky ratio", 0, 1, "(of the clear sky's radiation)"};
}  // namespace valid

}  // namespace graftcast
