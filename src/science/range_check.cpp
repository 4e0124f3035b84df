#include "range_check.hpp"

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

void require_within(double value, const Range& range) {
  if (value >= range.low && value <= range.high) return;
  throw RangeError(tr("{quantity} {value} {unit} is out of range", "quantity"_a = translated(range.name),
                      "value"_a = value, "unit"_a = translated(range.unit)),
                   tr("valid: {low} to {high} {unit}", "low"_a = range.low, "high"_a = range.high,
                      "unit"_a = translated(range.unit)));
}

void require_ordered(double low, std::string_view low_name, double high, std::string_view high_name) {
  if (low <= high) return;
  throw RangeError(tr("{low_name} {low} is above {high_name} {high}", "low_name"_a = translated(low_name),
                      "low"_a = low, "high_name"_a = translated(high_name), "high"_a = high),
                   tr("swap them"));
}

}  // namespace graftcast
