#pragma once
// Weather from the first graft to the horizon without a hole: what is known, and what stands in for what is
// not.

#include <cstdint>
#include <string>
#include <vector>

#include "graftcast/ambient.hpp"
#include "graftcast/hourly_weather.hpp"
#include "graftcast/models.hpp"

namespace graftcast {

/// What stands in for hours whose weather is not known.
enum class StandIn : std::uint8_t { none, neighbouring_days, past_years, last_week };
std::string_view stand_in_name(StandIn stand_in);  ///< `none`, `neighbouring-days`, `past-years`, `last-week`

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
  std::vector<WeatherLanes> years_ahead;  ///< One lane [now, end) a past year.
};

/// Completes `known` over [begin, end), as of `now` (begin <= now <= end). Holes of the past take the same
/// hour of the nearest day known. Hours ahead without a forecast take the site's own past years at that date,
/// else the last known week again. Error: RangeError when no hour of temperature, humidity, wind and
/// radiation is known at all.
Outlook complete_weather(const HourlyWeather& known, Hour begin, Hour now, Hour end);

/// Numbers of section "forecast" of models/union.json.
struct ForecastErrors {
  double temperature_sd_start, temperature_sd_per_day, temperature_sd_limit;
  double hourly_correlation, dew_point_correlation, ln_wind_sd;
  double radiation_sd_start, radiation_sd_per_day, radiation_sd_limit;
};
ForecastErrors forecast_errors(const Models& models);

/// `lanes` members of the hours ahead (0 lanes: one, without errors). Members differ by errors that grow with
/// lead: sd(lead) z, z a stationary AR(1) of each member and shared by all grafts; dew point never above the
/// air, radiation at most clear sky. Where past years stand in, members take the years in turn.
WeatherLanes lanes_ahead(const Outlook& outlook, const std::vector<SunHour>& sun,
                         const ForecastErrors& errors, int lanes, std::uint64_t seed);

}  // namespace graftcast
