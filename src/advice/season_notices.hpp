#pragma once

#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/notice.hpp"

namespace graftcast {

/// What an answer from this season rests on besides known weather.
std::vector<Notice> season_notices(const Season& season);

}  // namespace graftcast
