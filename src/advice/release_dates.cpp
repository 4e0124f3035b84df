#include "release_dates.hpp"

#include <algorithm>

namespace graftcast {

namespace {

DateBand not_before(DateBand dates, LocalDay earliest) {
  for (auto* date : {&dates.median, &dates.p10, &dates.p90}) {
    if (*date) *date = std::max(**date, earliest);
  }
  return dates;
}

}  // namespace

DateBand level_band(const Season& season, const UnionCourse& course, StateNumber number, double level) {
  std::vector<double> firsts;
  for (Eigen::Index member = 0; member < std::ssize(course.weights); ++member) {
    const auto reached = std::ranges::find_if(
        course.states, [&](const UnionStates& states) { return (states.*number)[member] >= level; });
    firsts.push_back(static_cast<double>(reached - course.states.begin()));
  }
  const auto day_at = [&](double share) -> std::optional<LocalDay> {
    const auto mark = static_cast<std::size_t>(weighted_quantile(firsts, course.weights, share));
    if (mark >= course.marks.size()) return std::nullopt;
    return season.clock.day_of(season.hour(course.marks[mark]));
  };
  return {day_at(0.5), day_at(0.1), day_at(0.9)};
}

DateBand healing_band(const Season& season, const UnionCourse& course, double healing) {
  return level_band(season, course, &UnionStates::healing, healing);
}

DateBand slit_wrap_band(const GraftRun& run, const UnionCourse& course, LocalDay grafted_on) {
  const double healing = run.stages().drinking_from * run.season().models.healing.slit_wrap_factor;
  const auto least = static_cast<int>(run.graft().method->wrap_slit_days.low);
  return not_before(healing_band(run.season(), course, healing), grafted_on + std::chrono::days(least));
}

DateBand bud_band(const Season& season, const UnionCourse& course) {
  return level_band(season, course, &UnionStates::bud_clock, 1);
}

CareDates care_dates(const GraftRun& run, const UnionCourse& course, LocalDay grafted_on,
                     std::span<const UnionDay> coming) {
  const Season& season = run.season();
  const AftercareConstants& care = season.models.aftercare;
  CareDates dates;
  dates.drinking = healing_band(season, course, run.stages().drinking_from);
  dates.slit_wrap = slit_wrap_band(run, course, grafted_on);
  dates.stock_pushes = level_band(season, course, &UnionStates::bud_clock, care.suckers_bud_clock);
  dates.shoot_to_tie = level_band(season, course, &UnionStates::leaf_share, care.tie_leaf_share);
  dates.shoots_to_thin = level_band(season, course, &UnionStates::leaf_share, care.thin_leaf_share);
  for (const UnionDay& day : coming) {
    if (!has(day_flags(day, season.models), DayFlag::wind)) continue;
    dates.gusts = GustsAhead{day.gust_m_s, day.day};
    break;
  }
  return dates;
}

}  // namespace graftcast
