#pragma once
// Scion wood that is left in store, and until when it is worth using.

#include <optional>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/wood_limit.hpp"
#include "records/wood.hpp"

namespace graftcast {

struct WoodInStore {
  std::string id, scion, species, stored;
  LocalDay cut_on{};
  std::optional<int> count;
  std::optional<double> water;     ///< Share of the full store today; absent where its species is not known.
  std::optional<LocalDay> use_by;  ///< Last day on which it is as good as fresh for callus.
  std::optional<WoodLimit> limit;  ///< What ends it.
};

/// Of the rows cut by `today` of which any is left. A species that the row does not give is that of the
/// grafts made from it.
std::vector<WoodInStore> wood_in_store(const std::vector<WoodRow>& wood,
                                       const std::vector<GraftRecord>& grafts, const Models& models,
                                       LocalDay today);

}  // namespace graftcast
