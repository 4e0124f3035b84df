#pragma once
// Weather from the first graft to the horizon without a hole: what is known, and what stands in for what is
// not.

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "ensemble/monthly_climate.hpp"
#include "graftcast/stand_in.hpp"
#include "parameters/models.hpp"
#include "plant/ambient.hpp"
#include "weather/forecast_skill.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

struct OutlookGap {
  Hour from{}, to{};
  StandIn filled_by = StandIn::none;
};

/// A complete series over [weather.start, ...) and how it was completed.
struct Outlook {
  HourlyWeather weather;          ///< No missing temperature, humidity, wind or radiation.
  std::size_t now = 0;            ///< Index of the first hour that lies ahead.
  std::vector<double> lead_days;  ///< Per hour: days ahead of what is known; 0 for what has been.
  std::vector<StandIn> stand_in;  ///< Per hour.
  std::vector<OutlookGap> gaps;   ///< Stretches that were stood in for.
  /// For past-years hours: offsets in hours from the hour ahead to the same calendar hour of each past year
  /// known.
  std::vector<long> year_offsets_h;
  std::vector<WeatherArrays>
      years_ahead;  ///< One course [now, end) a past year, or a course of monthly climate.
  std::vector<std::chrono::month> borrowed_months;  ///< Stood in for by the months beside them.
  /// Of an ensemble forecast: over [now, end) each; as `weather` where the courses say nothing.
  std::vector<WeatherArrays> courses_ahead;
  std::vector<bool> from_courses;  ///< Per hour: every course says something. Empty without courses.
};

/// Completes `known` over [begin, end), as of `now` (begin <= now <= end). Holes of the past take the same
/// hour of the nearest day known. Hours ahead without a forecast take the site's own past years at that date,
/// else `climate` where one is given and knows the month, else the last known week again. Error: RangeError
/// when no hour of temperature, humidity, wind and radiation is known at all. `courses` count in the hours
/// that `known` has from their forecast and all of them know.
Outlook complete_weather(const HourlyWeather& known, Hour begin, Hour now, Hour end,
                         const WeatherCourses& courses = {}, const MonthlyClimate* climate = nullptr);

/// Courses for the hours of `outlook` that `climate` stands in for, `count` of them, as its `years_ahead`.
void add_climate_courses(Outlook& outlook, const MonthlyClimate& climate, int count, std::uint64_t seed);

/// Errors of the forecast of a site.
struct ForecastErrors : ForecastConstants {
  /// The site's own by day of lead, never falling; they hold in the middle of their day, with straight lines
  /// between, and grow on from the last as above. Empty: the numbers above alone; dew point: as temperature.
  std::vector<double> own_temperature_sd_k = {}, own_dew_point_sd_k = {}, own_radiation_sd = {};
};

/// Different forecasts of the site that must have been compared before its own errors count.
inline constexpr std::size_t least_own_forecasts = 30;
/// Forecasts that the own errors rest on; 0 while they are too few to count.
std::size_t own_forecasts(std::span<const LeadSpread> own);
/// `published` with the site's own errors in place of its numbers, on the days of lead, from the first on,
/// that enough forecasts were compared for.
ForecastErrors with_own_errors(ForecastErrors published, std::span<const LeadSpread> own);

/// Standard deviations `lead_days` ahead.
double temperature_sd_k(const ForecastErrors& errors, double lead_days);
double dew_point_sd_k(const ForecastErrors& errors, double lead_days);
double radiation_sd(const ForecastErrors& errors, double lead_days);

/// The hours ahead of `members` members (0: one course, without errors). Members differ by errors that grow
/// with lead: sd(lead) z, z a stationary AR(1) of each member and shared by all grafts; dew point never above
/// the air, radiation at most clear sky. Where past years or the monthly climate stand in, members take their
/// courses in turn; where a
/// service's ensemble gives courses, they take those in turn. On both lies the smallest error, of what no
/// course can know of a single place.
WeatherArrays weather_of_members(const Outlook& outlook, const std::vector<SunHour>& sun,
                                 const ForecastErrors& errors, int members, std::uint64_t seed);

}  // namespace graftcast
