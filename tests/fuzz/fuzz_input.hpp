#pragma once
// What the fuzzers share.

#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <string_view>

#include "graftcast/error.hpp"

namespace graftcast::fuzzing {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// Stops the fuzzer when something that must hold does not.
inline void require(bool holds, const char* what) {
  if (holds) return;
  std::cerr << "does not hold: " << what << '\n';
  std::abort();
}

/// Runs `read`; bad data is what a reader may complain of, any other exception is a fault.
template <typename Read>
void tolerate_bad_data(Read read) {
  try {
    read();
  } catch (const DataError& error) {
    require(!error.message().empty(), "an error says something");
  }
}

}  // namespace graftcast::fuzzing
