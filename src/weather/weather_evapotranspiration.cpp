#include <algorithm>
#include <cmath>

#include "graftcast/air.hpp"
#include "graftcast/error.hpp"
#include "graftcast/evapotranspiration.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"
#include "impossible.hpp"
#include "text/tr.hpp"
#include "weather/derive.hpp"
#include "weather/weather_days.hpp"

namespace graftcast {

namespace {

double vapour_pressure_of(const DayReading& day) {
  if (!std::isnan(day.dew_point_c)) return vapour_pressure_from_dew_point_kpa(day.dew_point_c);
  if (day.minimum_humidity_pct <= day.maximum_humidity_pct) {
    return vapour_pressure_from_humidity_extremes_kpa({day.maximum_temperature_c, day.minimum_temperature_c,
                                                       day.maximum_humidity_pct, day.minimum_humidity_pct});
  }
  if (!std::isnan(day.mean_humidity_pct)) {
    return vapour_pressure_from_mean_humidity_kpa(day.maximum_temperature_c, day.minimum_temperature_c,
                                                  day.mean_humidity_pct);
  }
  if (!std::isnan(day.maximum_humidity_pct)) {
    return vapour_pressure_from_maximum_humidity_kpa(day.minimum_temperature_c, day.maximum_humidity_pct);
  }
  return vapour_pressure_from_minimum_temperature_kpa(
      std::min(day.minimum_temperature_c, highest_dew_point_c));
}

double value_or(double value, double otherwise) {
  return std::isnan(value) ? otherwise : value;
}

// Share of clear-sky radiation where no daylight tells it: FAO-56 chapter 4 advises 0.7 to 0.8 in arid and
// 0.4 to 0.6 in humid climates.
constexpr double unknown_clear_sky_ratio = 0.7;

/// The clear-sky ratio of each hour, held where the sun is below 0.3 rad (ASCE-EWRI 2005): from the last hour
/// above, at the very beginning from the first one.
std::vector<double> clear_sky_ratios(const HourlyWeather& weather, const Location& location) {
  constexpr double sine_of_lowest_sun = 0.29552;  // sin(0.3 rad)
  const double transmissivity = clear_sky_transmissivity(location.elevation_m);
  const auto& shortwave = weather[Variable::shortwave];
  std::vector<double> ratios(weather.size(), unknown);
  double held = unknown;
  std::size_t first_known = weather.size();
  for (std::size_t k = 0; k < weather.size(); ++k) {
    if (shortwave.value[k] > 0) {
      const SunPeriod sun = sun_period(weather.hour(k), location.latitude_deg, location.longitude_deg);
      if (sun.mean_sine_of_elevation >= sine_of_lowest_sun) {
        held = std::min(1.0, shortwave.value[k] / (transmissivity * sun.mean_extraterrestrial_w_m2));
        first_known = std::min(first_known, k);
      }
    }
    ratios[k] = held;
  }
  const double first = first_known < weather.size() ? ratios[first_known] : unknown_clear_sky_ratio;
  std::fill_n(ratios.begin(), first_known, first);
  return ratios;
}

}  // namespace

double daily_log_evapotranspiration_mm(const DayReading& day, const Location& location) {
  if (!day.has_extremes())
    throw RangeError(tr("the day lacks an extreme of temperature"), tr("minimum <= maximum are needed"));
  const int of_year =
      day_of_year(std::chrono::year_month_day(std::chrono::sys_days(day.day.time_since_epoch())));
  const double outside = extraterrestrial_day_mj_m2(location.latitude_deg, of_year);
  const double clear = clear_sky_mj_m2(outside, location.elevation_m);
  const double from_range = global_from_temperature_range_mj_m2(day.maximum_temperature_c,
                                                                day.minimum_temperature_c, outside, clear);
  const double global = value_or(day.shortwave_mj_m2, from_range);
  const double ratio = clear > 0 ? clear_sky_ratio(global, clear) : unknown_clear_sky_ratio;
  const double vapour_kpa = vapour_pressure_of(day);
  const double net =
      net_shortwave_mj_m2(global) -
      net_longwave_day_mj_m2({day.maximum_temperature_c, day.minimum_temperature_c, vapour_kpa, ratio});
  const DailyAir air{day.maximum_temperature_c, day.minimum_temperature_c, vapour_kpa,
                     value_or(day.wind_speed_m_s, assumed_wind_m_s),
                     value_or(day.pressure_kpa, air_pressure_kpa(location.elevation_m))};
  return reference_evapotranspiration_day_mm(air, net);
}

std::vector<double> hourly_evapotranspiration_mm(const HourlyWeather& weather, const Location& location) {
  const std::vector<double> ratios = clear_sky_ratios(weather, location);
  std::vector<double> et0(weather.size(), unknown);
  for (std::size_t k = 0; k < weather.size(); ++k) {
    const double temperature_c = weather[Variable::air_temperature].value[k];
    if (std::isnan(temperature_c)) continue;  // Everything else is known or derived where the temperature is.
    const HourlyAir air{
        temperature_c,
        vapour_pressure_from_humidity_kpa(temperature_c, weather[Variable::relative_humidity].value[k]),
        weather[Variable::wind_speed].value[k], weather[Variable::pressure].value[k]};
    et0[k] = asce_evapotranspiration_hour_mm(air, weather[Variable::shortwave].value[k] * 3600e-6, ratios[k]);
  }
  return et0;
}

}  // namespace graftcast
