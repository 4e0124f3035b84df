#pragma once
// What limits an answer, in sentences.

#include <string>
#include <vector>

#include "graftcast/notice.hpp"
#include "graftcast/season_weeks.hpp"

namespace graftcast {

/// A sentence each; moments on the site's clock.
std::vector<std::string> notice_warnings(const std::vector<Notice>& notices, const Clock& clock);

/// The notices of a season's weeks, and how many seasons its weather is from.
std::vector<std::string> season_warnings(const SeasonReport& report, const Clock& clock);

}  // namespace graftcast
