#pragma once
// Words that the answers of `when` share (private to the layer).

#include <string>

#include "graftcast/when.hpp"

namespace graftcast {

/// How it would be made: `citrus chip, wrap film, no cover, 50 % shade, bench`.
std::string way_words(const WhenCandidate& candidate);

}  // namespace graftcast
