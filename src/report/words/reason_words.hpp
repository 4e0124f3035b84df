#pragma once
// Why a graft stands where it does on the list, in sentences (private to the layer).

#include <string>
#include <vector>

#include "graftcast/cause.hpp"
#include "graftcast/reason.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

std::string reason_words(const Reason& reason, UnitSystem units);
std::vector<std::string> reasons_words(const std::vector<Reason>& reasons, UnitSystem units);

/// `drying`, `heat`, `spent-stores`.
std::string cause_words(Cause cause);

}  // namespace graftcast
