#include "bark_slip.hpp"

#include "advice/when.hpp"
#include "graftcast/degree_days.hpp"

namespace graftcast {

LocalDay midwinter_before(LocalDay day, double latitude_deg) {
  const std::chrono::year_month_day date{day};
  const std::chrono::month month = latitude_deg < 0 ? std::chrono::June : std::chrono::December;
  const auto of = [&](std::chrono::year year) { return LocalDay(year / month / std::chrono::day(21)); };
  const LocalDay this_year = of(date.year());
  return this_year <= day ? this_year : of(date.year() - std::chrono::years(1));
}

std::optional<std::size_t> bark_slips_from(const Season& season, const Species& species) {
  const LocalDay today = season.clock.day_of(season.settings.as_of);
  const Instant midwinter = season.clock.begin_of(midwinter_before(today, season.site.location.latitude_deg));
  if (season.hour(0) > midwinter) return std::nullopt;
  const DegreeDayRule rule{DegreeDayMethod::hourly, Cutoff::none, species.bark_slip_base_c, 100};
  const double needed = species.bark_slip_degree_days;
  const auto& air = season.outlook.weather[Variable::air_temperature].value;
  double sum = 0;
  for (std::size_t hour = season.index_of(midwinter); hour < season.hours(); ++hour) {
    sum += development_rate_c(air[hour], rule) / 24;
    if (sum >= needed) return hour;
  }
  return season.hours();
}

}  // namespace graftcast
