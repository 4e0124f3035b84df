#pragma once
// The weather as a table of local days.

#include <array>
#include <optional>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/degree_days.hpp"
#include "weather/hourly_weather.hpp"
#include "weather/site_weather.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// One local day. A number is absent where it cannot be known; means and extremes are of the hours that are
/// known.
struct WeatherDay {
  LocalDay day{};
  int length_h = 0;  ///< Hours that belong to the day: 23, 24 or 25.
  int hours = 0;     ///< Of them those whose temperature is known.
  std::optional<double> air_temperature_min_c;
  std::optional<double> air_temperature_max_c;
  std::optional<double> relative_humidity_mean_pct;
  std::optional<double> vpd_mean_kpa;
  std::optional<double> vpd_max_kpa;
  std::optional<double> wind_speed_mean_m_s;
  std::optional<double> shortwave_mj_m2;   ///< Only of a day with all its hours.
  std::optional<double> precipitation_mm;  ///< Absent when more than 3 h are not known.
  std::optional<double> et0_mm;            ///< Short grass; only of a day with all its hours.
  std::optional<double> degree_days;       ///< Only of a day with all its hours.
  /// Where most of the known hours of each variable came from.
  std::array<Origin, variable_count> origin{};
};

/// All local days that hold hours of `weather`, in order.
///
/// Evapotranspiration: the sum over the hours of the ASCE-EWRI 2005 form, with the clear-sky ratio of hours
/// with the sun above 17 degrees (0.3 rad) held through the night; a day whose every temperature comes from a
/// daily log takes FAO-56 eq. 6 on that log's own values, with what it lacks derived as for hours.
/// Degree-days: by `rule`; the method `hourly` uses the hours, the others the day's extremes and the next
/// day's minimum (its own where the next is not known). Error: RangeError for a rule out of range.
std::vector<WeatherDay> weather_days(const SiteWeather& weather, const Location& location, const Clock& clock,
                                     const DegreeDayRule& rule);

/// Reference evapotranspiration [mm/d] of a day known by a daily log, FAO-56 eq. 6: vapour pressure from the
/// dew point, the extremes of humidity, its mean, or the minimum temperature, whichever comes first;
/// radiation from the total or the range of temperature; wind 2 m/s and pressure by elevation where not
/// given. Error: RangeError without both extremes of temperature.
double daily_log_evapotranspiration_mm(const DayReading& day, const Location& location);

/// Reference evapotranspiration [mm] of each hour, as above; NaN where the temperature is not known.
std::vector<double> hourly_evapotranspiration_mm(const HourlyWeather& weather, const Location& location);

}  // namespace graftcast
