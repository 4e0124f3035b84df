#pragma once
// Work on the stock and the shoot, in words (private to the layer).

#include <string>

#include "graftcast/care.hpp"

namespace graftcast {

/// What to do: `rub off the suckers below the union`.
std::string care_words(const CareTask& task);
/// Why, and what put it off.
std::string care_reason_words(const CareTask& task);

}  // namespace graftcast
