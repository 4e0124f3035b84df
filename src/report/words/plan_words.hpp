#pragma once
// The morning's plan in words (private to the layer).

#include <string>

#include "graftcast/plan.hpp"

namespace graftcast {

/// What an act of the plan changes, and why it is not the one that would save more by itself.
std::string plan_reason_words(const PlannedAct& planned);

}  // namespace graftcast
