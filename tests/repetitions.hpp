#pragma once

namespace graftcast::testing {

/// How often a property is tried: `full`, or a thirtieth of it under sanitizers, where a read takes fifty times as long.
constexpr int repetitions(int full) {
#if defined(__SANITIZE_ADDRESS__)
  return full / 30 + 1;
#else
  return full;
#endif
}

}  // namespace graftcast::testing
