#pragma once
// What the tests of the services share.

#include <fstream>
#include <iterator>
#include <string>

#include "weather/forecast_services.hpp"
#include "weather_cases.hpp"

namespace graftcast::testing {

inline std::string file_text(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// An answer with the structure of the real ones and invented values.
inline std::string service_fixture(const std::string& name) {
  return file_text(std::filesystem::path(GRAFTCAST_SOURCE_DIR) / "tests/weather/fixtures/services" / name);
}

/// `text` with the first `from` replaced; throws where there is none, so that no test passes for want of it.
inline std::string replaced(std::string text, std::string_view from, std::string_view to) {
  return text.replace(text.find(from), from.size(), to);
}

/// The block of a channel.
inline const Block& block_with(const Readings& readings, Quantity quantity, Kind kind) {
  for (const Block& block : readings.blocks) {
    if (find_channel(block, quantity, kind) != nullptr) return block;
  }
  throw std::runtime_error("no such block");
}

/// What reading complains of; empty when it does not.
template <class Read>
std::string complaint_of(Read read) {
  try {
    read();
  } catch (const DataError& error) {
    return error.what();
  }
  return {};
}

}  // namespace graftcast::testing
