#pragma once
// Wait, look or graft again, in sentences (private to the layer).

#include <string>

#include "graftcast/since.hpp"

namespace graftcast {

/// `wait`, `check`, `re-graft`.
std::string verdict_word(Verdict verdict);
/// What the verdict rests on and what would settle it.
std::string ground_words(const VerdictGround& ground);
/// `taken`, `lost`, `open`, `part`.
std::string attempt_outcome_words(AttemptOutcome outcome);

}  // namespace graftcast
