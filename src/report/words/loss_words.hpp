#pragma once
// What became of a graft, and how much of that is the weather's, in words (private to the layer).

#include <string>

#include "graftcast/why.hpp"

namespace graftcast {

/// What is noted of it, and how many of such grafts the weather alone loses.
std::string loss_words(const GraftWhy& graft, const Clock& clock, Instant as_of);

/// Of one whose loss the factors do not explain, or that is not lost.
std::string unexplained_words(const GraftWhy& graft);

}  // namespace graftcast
