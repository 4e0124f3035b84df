#pragma once
// The hours of the site's clock in which work at grafts is cool (private to the layer).

#include <array>

namespace graftcast {

inline constexpr std::array cool_hours_local{7, 19};  // before the sun bites and after it has gone

}  // namespace graftcast
