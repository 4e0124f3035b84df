#pragma once
// Words that the answers of `when` share (private to the layer).

#include <string>

#include "advice/when.hpp"

namespace graftcast {

/// How it would be made: `citrus chip, wrap film, no cover, 50 % shade, bench`.
std::string way_words(const WhenCandidate& candidate);

/// Whether the bark slips, or from when on; empty for methods that do not ask for it.
std::string bark_words(const WhenCandidate& usual, LocalDay today);

}  // namespace graftcast
