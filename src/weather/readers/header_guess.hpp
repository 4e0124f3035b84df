#pragma once
// What a foreign header is likely to mean (private to the layer).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "readers/quantity_names.hpp"
#include "weather/units.hpp"

namespace graftcast {

/// A header taken apart.
struct HeaderGuess {
  enum class Role : std::uint8_t { nothing, time, quantity, left_out };

  Role role = Role::nothing;
  std::string name;  ///< Key of the column map without a suffix, such as `air_temperature`; of a time: empty.
  std::string_view suffix;   ///< `_min`, `_max`, `_mean` where the header says so, else empty.
  std::string unit;          ///< As a column map takes it; empty where the header has none.
  std::string why;           ///< `"temp" in its header`, or why it is left out.
  bool is_rate = false;      ///< Of rain: an amount an hour.
  bool is_total = false;     ///< Of rain: perhaps a running total.
  bool is_utc = false;       ///< Of a time: its header says UTC.
  bool is_standard = false;  ///< Of a time: its header says standard time.
};

/// By common words of several languages and usual units in brackets, after a dash or an underscore, or at the
/// end of the word, as `tempf` and `windspeedmph`.
HeaderGuess guess_header(std::string_view header);

}  // namespace graftcast
