#pragma once

#include <string>
#include <vector>

#include "graftcast/season.hpp"

namespace graftcast {

/// What the answer rests on besides known weather, in sentences.
std::vector<std::string> season_warnings(const Season& season);

}  // namespace graftcast
