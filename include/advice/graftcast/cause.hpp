#pragma once
// What a graft is lost to.

#include <cstdint>
#include <string_view>

namespace graftcast {

enum class Cause : std::uint8_t {
  drying,
  heat,
  cold,
  spent_stores,  ///< Sugar and starch are breathed away before the vessels join.
  slow_callus,   ///< Of a graft that might be made: most do not drink within the run.
  bark,          ///< Likewise: the bark does not slip.
};

/// The code in JSON: `drying`, `heat`, `cold`, `spent-stores`, `slow-callus`, `bark`.
std::string_view cause_name(Cause cause);

}  // namespace graftcast
