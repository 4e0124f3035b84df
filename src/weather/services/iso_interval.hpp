#pragma once
// Intervals of ISO 8601 as the National Weather Service writes them (private to the layer).

#include <optional>
#include <string_view>

#include "weather/reading.hpp"

namespace graftcast {

/// `PT3H`, `P1DT16H`, `P2W`, `PT90M`, `PT30S`; nothing for months and years, whose length is not fixed, for
/// anything else, and above 400 days.
std::optional<std::chrono::seconds> parse_duration(std::string_view text);

/// `start/duration`, `start/end` or `duration/end`, each time with its offset or `NOW`, which is `now`.
/// Nothing when it is none of these or does not go forward.
std::optional<Span> parse_interval(std::string_view text, Instant now);

}  // namespace graftcast
