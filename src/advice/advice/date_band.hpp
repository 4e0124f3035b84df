#pragma once
// A date with its spread.

#include <optional>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// A date with its band over the ensemble; absent where fewer than that share of members get there within the
/// run.
struct DateBand {
  std::optional<LocalDay> median, p10, p90;
};

}  // namespace graftcast
