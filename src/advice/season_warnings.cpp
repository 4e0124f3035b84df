#include "season_warnings.hpp"

#include <array>

#include <fmt/format.h>

#include "wording.hpp"

namespace graftcast {

std::string borrowed_warning(const std::vector<std::chrono::month>& months) {
  constexpr std::array<const char*, 12> names{"January",   "February", "March",    "April",
                                              "May",       "June",     "July",     "August",
                                              "September", "October",  "November", "December"};
  std::string list;
  for (const std::chrono::month month : months)
    list += (list.empty() ? "" : ", ") + std::string(names.at(unsigned{month} - 1));
  return fmt::format("the log has too few days of {}: days of the months beside stand in", list);
}

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
      case StandIn::monthly_climate:
        how = "days made up from the log's monthly means and spreads stand in";
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
  if (const auto& months = season.outlook.borrowed_months; !months.empty())
    warnings.push_back(borrowed_warning(months));
  return warnings;
}

}  // namespace graftcast
