#pragma once
// Degree-days and the ways of counting them, in words (private to the layer).

#include <string>

#include "graftcast/degree_days.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// `sine above 12.5 °C, horizontal cut-off at 30.0 °C`.
std::string rule_words(const DegreeDayRule& rule, const TerminalStyle& style);
/// `61 °C days`, of a sum in degC days.
std::string degree_days_words(double degree_days, const TerminalStyle& style);

}  // namespace graftcast
