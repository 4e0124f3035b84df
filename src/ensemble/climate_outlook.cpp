// Members' courses where the monthly climate stands in.

#include <algorithm>

#include "ensemble/outlook.hpp"

namespace graftcast {

void add_climate_courses(Outlook& outlook, const MonthlyClimate& climate, int count, std::uint64_t seed) {
  const auto stood_in = std::ranges::find(outlook.stand_in, StandIn::monthly_climate);
  if (stood_in == outlook.stand_in.end()) return;
  const auto first = static_cast<std::size_t>(stood_in - outlook.stand_in.begin());
  const WeatherArrays known = one_course(outlook.weather, outlook.now, outlook.weather.size());
  for (int member = 0; member < count; ++member) {
    const WeatherArrays drawn = climate.course(outlook.weather.hour(first), outlook.weather.end(), seed,
                                               static_cast<std::uint64_t>(member));
    WeatherArrays& course = outlook.years_ahead.emplace_back(known);
    for (std::size_t i = first; i < outlook.weather.size(); ++i) {
      if (outlook.stand_in[i] != StandIn::monthly_climate) continue;
      const auto to = static_cast<Eigen::Index>(i - outlook.now);
      const auto from = static_cast<Eigen::Index>(i - first);
      course.air_c(0, to) = drawn.air_c(0, from);
      course.vapour_kpa(0, to) = drawn.vapour_kpa(0, from);
      course.wind_m_s(0, to) = drawn.wind_m_s(0, from);
      course.global_w_m2(0, to) = drawn.global_w_m2(0, from);
    }
  }
}

}  // namespace graftcast
