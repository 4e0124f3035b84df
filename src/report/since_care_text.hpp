#pragma once
// Parts of `since` for a terminal: the worth of waiting, the work to come, one tree, wood in store.

#include <string>

#include "graftcast/since.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// What waiting, looking and grafting again are worth, and what that rests on; empty without a worth.
std::string worth_words(const GraftSince& graft, LocalDay today);
/// One line a task still to come.
std::string care_lines(const GraftSince& graft, LocalDay today, const TerminalStyle& style);
/// Degree-days by the further ways of counting.
std::string count_lines(const GraftSince& graft, const TerminalStyle& style);
/// A table of the attempts on one tree.
std::string stock_block(const StockHistory& stock, LocalDay today, const TerminalStyle& style);
/// One line a row of wood.
std::string wood_block(const std::vector<WoodInStore>& wood, LocalDay today, const TerminalStyle& style);

}  // namespace graftcast
