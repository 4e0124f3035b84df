#pragma once
// What recent notes say of the stocks, by their species: they overrule what the model holds.

#include <map>
#include <string>
#include <vector>

#include "ensemble/season.hpp"

namespace graftcast {

struct StockNotes {
  std::map<std::string, bool> slips;         ///< Whether the bark was last seen to slip; a flush counts.
  std::map<std::string, LocalDay> bleeding;  ///< When a stock was last seen to bleed.
};

/// From the lines of `grafts` up to `as_of`, each kind for as many days as models/union.json gives it
/// (section "when"). The last note counts; `slips 0` says that the bark does not slip.
StockNotes stock_notes(const std::vector<GraftRecord>& grafts, Instant as_of, const Clock& clock,
                       const Models& models);

}  // namespace graftcast
