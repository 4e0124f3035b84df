#pragma once

#include <string>
#include <vector>

#include "ensemble/season.hpp"

namespace graftcast {

/// What the answer rests on besides known weather, in sentences.
std::vector<std::string> season_warnings(const Season& season);

/// That days of neighbouring months stand in for those of `months`.
std::string borrowed_warning(const std::vector<std::chrono::month>& months);

}  // namespace graftcast
