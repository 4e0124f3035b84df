#include "why_days.hpp"

#include <algorithm>

namespace graftcast {

namespace {

constexpr double hardly_lost = 1e-3;  // below it there is no date to tell

/// Hours [begin, end) in the open and by the graft's own climate.
void put_hours(const Counterfactuals& runs, std::size_t begin, std::size_t end, WhyDay& day) {
  const Season& season = runs.run().season();
  const auto& wind = season.outlook.weather[Variable::wind_speed].value;
  const std::vector<double>& stress = runs.run().as_it_is().stock_stress;
  for (std::size_t hour = begin; hour < end; ++hour) {
    const auto [climate, column] = runs.climate_at(hour);
    const double own_kpa =
        climate->deficit_bark.col(column).cast<double>().mean() * season.past.pressure_kpa[hour];
    day.own_vpd_max_kpa = std::max(day.own_vpd_max_kpa, own_kpa);
    day.wind_max_m_s = std::max(day.wind_max_m_s, wind[hour]);
    day.stock_stress_min = std::min(day.stock_stress_min, stress[hour]);
  }
}

}  // namespace

LifeCourse life_course(const Counterfactuals& runs) {
  const Season& season = runs.run().season();
  LifeCourse course;
  course.marks.push_back(runs.begin());
  for (const DaySpan& day : season.days)
    if (day.begin > runs.begin() && day.begin < runs.end()) course.marks.push_back(day.begin);
  if (runs.end() > runs.begin()) course.marks.push_back(runs.end());
  const UnionStates last = runs.under(runs.run().as_it_is(), course.marks, course.states);
  course.weights.assign(last.members(), 1.0 / static_cast<double>(last.members()));
  for (const UnionStates& states : course.states)
    course.lost.push_back(mean_loss(runs.run().limits(), states));
  return course;
}

std::vector<WhyDay> why_days(const Counterfactuals& runs, const LifeCourse& course,
                             const std::vector<DiaryLine>& lines) {
  const Season& season = runs.run().season();
  std::vector<WhyDay> days;
  for (std::size_t k = 0; k + 1 < course.marks.size(); ++k) {
    const DaySpan span{season.clock.day_of(season.hour(course.marks[k])), course.marks[k],
                       course.marks[k + 1]};
    const UnionDay lived =
        runs.run().day(runs.run().as_it_is(), span, course.states[k], course.states[k + 1], course.weights);
    const UnionStates& then = course.states[k + 1];
    WhyDay day;
    day.day = span.day;
    day.air_max_c = lived.air_max_c;
    day.air_min_c = lived.air_min_c;
    day.vpd_max_kpa = lived.vpd_max_kpa;
    day.tissue_max_c = lived.tissue_max_c;
    day.tissue_min_c = lived.tissue_min_c;
    day.water = weighted_mean(then.water, course.weights);
    day.healing = weighted_mean(then.healing, course.weights);
    day.bud_clock = weighted_mean(then.bud_clock, course.weights);
    day.leaf_share = weighted_mean(then.leaf_share, course.weights);
    day.lost = course.lost[k + 1];
    day.flags = day_flags(lived, season.models);
    put_hours(runs, span.begin, span.end, day);
    for (const DiaryLine& line : lines)
      if (season.clock.day_of(line.when) == span.day) day.notes.push_back({line.event, line.value});
    days.push_back(std::move(day));
  }
  return days;
}

DateBand loss_dates(const Season& season, const LifeCourse& course, Instant alive_until) {
  double before = course.lost.front();
  for (std::size_t k = 0; k < course.marks.size(); ++k)
    if (season.hour(course.marks[k]) <= alive_until) before = course.lost[k];
  const double fell = course.lost.back() - before;
  if (fell < hardly_lost) return {};
  const auto day_at = [&](double share) {
    std::size_t k = 0;
    while (course.lost[k] - before < share * fell) ++k;
    return season.clock.day_of(season.hour(course.marks[k > 0 ? k - 1 : 0]));
  };
  return {day_at(0.5), day_at(0.1), day_at(0.9)};
}

}  // namespace graftcast
