#pragma once
// Where the most trusted logs say nothing, and what stands in (private to the layer).

#include <vector>

#include "merge.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {

/// Hours that a source does not know between hours that it does, by quantity, before anything was filled.
struct SourceHoles {
  struct Run {
    Hour from;
    Hour to;
  };
  std::array<std::vector<Run>, quantity_count> runs;
  std::array<std::optional<Hour>, quantity_count> known_until;
};
SourceHoles holes_of(const QuantityHours& hours);

/// The gaps of the most trusted measured source of each variable, up to `as_of`, with what fills them in
/// `merged`. `holes` goes with `sources`.
std::vector<WeatherGap> find_gaps(const std::vector<SourceHours>& sources,
                                  const std::vector<SourceHoles>& holes, const QuantityHours& merged,
                                  Instant as_of);

}  // namespace graftcast
