#pragma once
// One tree: every graft that was tried on it.

#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/since.hpp"

namespace graftcast {

/// The rows of `grafts` whose stock is `name`, and all that replaced them or that they replaced. Without any
/// attempt where no row names it.
StockHistory stock_history(const std::string& name, const std::vector<GraftRecord>& grafts, Instant as_of);

}  // namespace graftcast
