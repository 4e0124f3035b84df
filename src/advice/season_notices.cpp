#include "season_notices.hpp"

namespace graftcast {

std::vector<Notice> season_notices(const Season& season) {
  std::vector<Notice> notices;
  for (const OutlookGap& gap : season.outlook.gaps)
    if (gap.filled_by != StandIn::none) notices.emplace_back(WeatherUnknown{gap.from, gap.to, gap.filled_by});
  if (const auto& months = season.outlook.borrowed_months; !months.empty())
    notices.emplace_back(MonthsBorrowed{months});
  return notices;
}

}  // namespace graftcast
