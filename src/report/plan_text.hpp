#pragma once
// The morning's plan for a terminal (private to the layer).

#include <string>

#include "graftcast/morning.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// Who gets the covers and the minutes at hand; empty without a plan.
std::string plan_block(const MorningReport& report, const TerminalStyle& style);

}  // namespace graftcast
