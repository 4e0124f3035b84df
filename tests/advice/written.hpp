#pragma once
// Every field of an answer as text, to compare two answers to the last bit.

#include <string>

#include "graftcast/morning.hpp"
#include "graftcast/since.hpp"

namespace graftcast::testing {

std::string written(const MorningReport& report);
std::string written(const SinceReport& report);

}  // namespace graftcast::testing
