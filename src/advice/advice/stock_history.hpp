#pragma once
// One tree: every graft that was tried on it.

#include <string>
#include <vector>

#include "ensemble/season.hpp"

namespace graftcast {

/// One attempt, and what became of it.
struct Attempt {
  std::string id, scion, species, method, position;
  LocalDay grafted_on{};
  std::string replaces, replaced_by;  ///< Ids; empty: none.
  int taken = 0, dead = 0, open = 0, removed = 0;
  std::string outcome;  ///< `taken`, `lost`, `open`, `removed`, or `part` where a batch is none wholly.
};

struct StockHistory {
  std::string name;
  std::vector<Attempt> attempts;  ///< By date, then as in the ledger.
};

/// The rows of `grafts` whose stock is `name`, and all that replaced them or that they replaced. Without any
/// attempt where no row names it.
StockHistory stock_history(const std::string& name, const std::vector<GraftRecord>& grafts, Instant as_of);

}  // namespace graftcast
