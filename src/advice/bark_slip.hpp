#pragma once
// Whether the bark of a stock lifts from the wood.

#include <optional>

#include "ensemble/season.hpp"

namespace graftcast {

/// First hour of the series at which the degree-days of the stock since midwinter reach the species' need;
/// the series' end where they do not; nothing where the series does not reach back to midwinter.
std::optional<std::size_t> bark_slips_from(const Season& season, const Species& species);

}  // namespace graftcast
