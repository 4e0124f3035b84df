#pragma once

namespace graftcast::testing {

#if defined(GRAFTCAST_SANITIZED)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif

/// How often a property is tried: `full`, or a thirtieth of it under sanitizers, where a read takes fifty
/// times as long.
constexpr int repetitions(int full) {
  return sanitized ? full / 30 + 1 : full;
}

}  // namespace graftcast::testing
