#include "season_warnings.hpp"

#include <fmt/format.h>

#include "wording.hpp"

namespace graftcast {

std::vector<std::string> season_warnings(const Season& season) {
  std::vector<std::string> warnings;
  for (const OutlookGap& gap : season.outlook.gaps) {
    const char* how = "";
    switch (gap.filled_by) {
      case StandIn::neighbouring_days:
        how = "the same hours of the nearest known day stand in";
        break;
      case StandIn::past_years:
        how = "the site's past years at that date stand in";
        break;
      case StandIn::last_week:
        how = "the last known week is taken again, with growing errors";
        break;
      case StandIn::none:
        continue;
    }
    warnings.push_back(fmt::format("weather is not known from {} to {}: {}", moment_text(season, gap.from),
                                   moment_text(season, gap.to), how));
  }
  return warnings;
}

}  // namespace graftcast
