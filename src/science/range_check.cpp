#include "range_check.hpp"

#include <fmt/format.h>

#include "graftcast/error.hpp"

namespace graftcast {

void require_within(double value, const Range& range) {
  if (value >= range.low && value <= range.high) return;
  throw RangeError(fmt::format("{} {} {} is out of range", range.name, value, range.unit),
                   fmt::format("valid: {} to {} {}", range.low, range.high, range.unit));
}

void require_ordered(double low, std::string_view low_name, double high, std::string_view high_name) {
  if (low <= high) return;
  throw RangeError(fmt::format("{} {} is above {} {}", low_name, low, high_name, high), "swap them");
}

}  // namespace graftcast
