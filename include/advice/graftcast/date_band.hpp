#pragma once
// A date with its spread.

#include <optional>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// The days by which half, a tenth and nine tenths of the ensemble get there; absent where fewer than that
/// share do within the run.
struct DateBand {
  std::optional<LocalDay> median, p10, p90;
};

}  // namespace graftcast
