#pragma once
// What the coming days hold for one graft (private to the layer).

#include <span>

#include "advice/actions.hpp"
#include "graftcast/morning.hpp"

namespace graftcast {

/// From the days of the season's horizon as the graft will live them, `coming`.
Prospects prospects_ahead(const Season& season, const UnionNow& now, Stage stage,
                          std::span<const ComingDay> coming);

}  // namespace graftcast
