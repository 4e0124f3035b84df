#pragma once
// How urgent a graft is, in a word (private to the layer).

#include <string>

#include "advice/morning.hpp"

namespace graftcast {

std::string urgency_words(Urgency urgency);

}  // namespace graftcast
