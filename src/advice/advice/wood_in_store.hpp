#pragma once
// Scion wood that is left in store, and until when it is worth using.

#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/since.hpp"
#include "records/wood.hpp"

namespace graftcast {

/// Of the rows cut by `today` of which any is left. A species that the row does not give is that of the
/// grafts made from it.
std::vector<WoodInStore> wood_in_store(const std::vector<WoodRow>& wood,
                                       const std::vector<GraftRecord>& grafts, const Models& models,
                                       LocalDay today);

}  // namespace graftcast
