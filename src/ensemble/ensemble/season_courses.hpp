#pragma once
// A whole season's weather as the years of a log had it, for looking at the weeks of the year.

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "ensemble/outlook.hpp"

namespace graftcast {

/// Courses of weather over [begin(), end()): one a past season, or drawn from the monthly
/// climate.
struct SeasonCourses {
  HourlyWeather expected;  ///< Their mean; missing where nothing is known.
  std::vector<WeatherArrays> courses;
  std::vector<long> offsets_h;  ///< Of each past season: hours from the season to it. Empty: monthly climate.
  std::vector<StandIn> stand_in;  ///< Per hour; `none`: not known.
  std::vector<std::chrono::month> borrowed_months;

  Hour begin() const { return expected.start; }
  Hour end() const { return expected.end(); }
  /// Whether every hour of [from, to) is known.
  bool knows(Hour from, Hour to) const;
};

/// Which seasons count, and how courses are drawn where none does.
struct SeasonCourseSettings {
  Hour until{};              ///< What was measured later is not known; forecasts do not count.
  double least_share = 0.5;  ///< Share of a past season's hours that must be known.
  int drawn_courses = 64;    ///< Where no season counts.
  std::uint64_t seed = 1;
};

/// The seasons of `known` that begin whole years before `begin`, or with it. Hours that a season lacks are
/// taken from the one after it in the list, else from `climate`.
SeasonCourses season_courses(const HourlyWeather& known, const MonthlyClimate& climate, Hour begin, Hour end,
                             const SeasonCourseSettings& settings);

/// The part [from, to) as weather that lies wholly ahead of `from`. Every hour must be known.
Outlook outlook_of(const SeasonCourses& courses, Hour from, Hour to);

}  // namespace graftcast
