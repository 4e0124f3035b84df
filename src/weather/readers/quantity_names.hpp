#pragma once
// The names that headers and column maps use (private to the layer).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "weather/reading.hpp"

namespace graftcast {

/// A name that headers and column maps use, for example `wind_speed` or `surface_air_pressure`.
struct NamedQuantity {
  enum class Turn : std::uint8_t { none, from_vapour_pressure, from_sea_level, running_total };

  std::string_view name;
  Quantity quantity;
  Dimension dimension;                            ///< Of the own unit that stands where no unit is given.
  std::optional<Dimension> other_dimension = {};  ///< A second dimension its units may have.
  Turn turn = Turn::none;
};

/// The quantity behind `text`, a name with or without `_min`, `_max`, `_mean`, `_sum` (or ` max` and so on).
struct ParsedName {
  const NamedQuantity* named;
  std::optional<Kind> kind;
};
std::optional<ParsedName> parse_quantity_name(std::string_view text);
/// All names, for hints.
std::vector<std::string> quantity_names();

}  // namespace graftcast
