#pragma once
// What harmed a graft, in words (private to the layer).

#include <string>

#include "graftcast/why.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// `sun on the cover`, `not the weather`.
std::string culprit_words(Culprit culprit);

/// The figures behind it, without a stop; empty where there are none.
std::string culprit_fact_words(const CulpritFact& fact, UnitSystem units);

/// `lost`, `lost-in-part`, `removed`, `taken`, `open`.
std::string row_outcome_words(RowOutcome outcome);

}  // namespace graftcast
