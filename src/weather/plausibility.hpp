#pragma once
// What a value can be at all, and which unit a column is more likely to be in (private to the layer).

#include <optional>
#include <string>

#include "weather/reading.hpp"

namespace graftcast {

/// Least and greatest value that can be real. Values outside are set aside and counted.
struct Limits {
  double least;
  double greatest;
  bool hold(double value) const { return value >= least && value <= greatest; }
};

/// For a channel of `quantity` and `kind` whose intervals are whole days or shorter.
Limits physical_limits(Quantity quantity, Kind kind, bool daily);

/// Small overshoot of a good sensor that is taken as the limit itself, and counted: humidity up to 105 %, and
/// down to -20 W/m2 at night (the zero offset of a pyranometer).
std::optional<double> without_overshoot(Quantity quantity, Kind kind, double value);

/// A unit that explains the values better than `stated`, in words, or nothing. `values` are in the own unit
/// as if `stated` were right, limits not applied, NaN where missing. Needs 24 values, or none within the
/// limits.
struct LikelyUnit {
  std::string name;  ///< `degF`, `tenths of degC`, ...
  double least;      ///< The values as they stand in the file.
  double greatest;
};
std::optional<LikelyUnit> likely_unit(const Channel& channel, const Unit& stated, bool daily);

}  // namespace graftcast
