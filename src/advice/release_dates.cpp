#include "release_dates.hpp"

namespace graftcast {

std::vector<std::size_t> first_marks(const UnionCourse& course,
                                     const std::function<bool(const UnionStates&, std::size_t)>& reached) {
  std::vector<std::size_t> firsts(course.weights.size(), course.marks.size());
  for (std::size_t member = 0; member < firsts.size(); ++member) {
    for (std::size_t k = 0; k < course.marks.size(); ++k) {
      if (reached(course.states[k], member)) {
        firsts[member] = k;
        break;
      }
    }
  }
  return firsts;
}

DateBand date_band(const Season& season, const UnionCourse& course, std::span<const std::size_t> firsts) {
  const std::vector<double> places(firsts.begin(), firsts.end());
  const auto day_at = [&](double share) -> std::optional<LocalDay> {
    const auto mark = static_cast<std::size_t>(weighted_quantile(places, course.weights, share));
    if (mark >= course.marks.size()) return std::nullopt;
    return season.clock.day_of(season.hour(course.marks[mark]));
  };
  return {day_at(0.5), day_at(0.1), day_at(0.9)};
}

}  // namespace graftcast
