#pragma once
// Several sources become one series (private to the layer).

#include <optional>
#include <string>
#include <vector>

#include "weather/resample.hpp"

namespace graftcast {

/// The hours of one source, short gaps filled.
struct SourceHours {
  std::string name;
  bool is_forecast = false;
  std::optional<Instant> made_at;
  QuantityHours hours;
};

/// Measured before forecast; forecasts newest first; else the order given.
void sort_by_trust(std::vector<SourceHours>& sources);

/// For each quantity and hour the value of the first source that has one; `source` is its index in `sources`.
/// Humidity of one source beside the temperature of another is carried over as vapour pressure.
/// The series runs from the first hour of any source to the last; empty without sources. The hours of the
/// sources may be used up.
QuantityHours merge(std::vector<SourceHours>& sources);

}  // namespace graftcast
