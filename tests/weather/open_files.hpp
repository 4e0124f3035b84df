#pragma once
// The real open weather of tests/data, each source with its licence. The readers take its gzip as it is.

#include <filesystem>
#include <string>

#include "weather/detect_reader.hpp"

namespace graftcast::testing {

inline std::filesystem::path open_file(const std::string& name) {
  return std::filesystem::path(GRAFTCAST_OPEN_DATA) / (name + ".gz");
}

/// All of such a file, inflated.
inline std::string open_text(const std::string& name) {
  constexpr std::size_t largest_bytes = 4'000'000;
  return first_bytes_of(open_file(name), name, largest_bytes);
}

}  // namespace graftcast::testing
