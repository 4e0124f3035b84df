#pragma once
// Daily logs: their days, and hours made of them.

#include <span>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/hourly_weather.hpp"
#include "weather/reading.hpp"
#include "weather/resample.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// What a daily log says of one local day; NaN where it says nothing.
struct DayReading {
  LocalDay day{};
  double minimum_temperature_c = unknown;
  double maximum_temperature_c = unknown;
  double mean_temperature_c = unknown;
  double minimum_humidity_pct = unknown;
  double maximum_humidity_pct = unknown;
  double mean_humidity_pct = unknown;
  double dew_point_c = unknown;
  double wind_speed_m_s = unknown;    ///< Mean, at 2 m.
  double gust_m_s = unknown;          ///< Greatest, at 2 m.
  double shortwave_mj_m2 = unknown;   ///< Sum.
  double precipitation_mm = unknown;  ///< Sum.
  double pressure_kpa = unknown;
  double cloud_cover_pct = unknown;

  bool has_extremes() const { return minimum_temperature_c <= maximum_temperature_c; }
};

/// The days among `readings` (intervals of 20 to 28 h), each as the local day that holds its middle, in
/// rising order. Of two readings for one day the later one counts.
std::vector<DayReading> daily_readings(const Readings& readings, const Clock& clock);

/// Hours of each local day, marked `from_daily`. An hour belongs to the local day that holds its middle, so
/// that days have 23, 24 or 25 hours. The days' minima, maxima, mean wind and totals come back exactly.
///
/// - Temperature (needs both extremes): Parton & Logan 1981 (Agric. Meteorol. 23, 205) in the form of Wann,
/// Yen &
///   Gold 1985 with the coefficients for air at 1.5 m; sine by day, exponential by night towards the next
///   minimum. Hours sample the curve at their middle; the hour of sunrise takes the minimum, the hottest hour
///   the maximum, all others keep between. Where the sun does not rise or set: a cosine about the same hour.
/// - Humidity: between its extremes as temperature runs; else at a constant dew point: that given, or the one
/// of
///   the mean humidity (FAO-56 eq. 19).
/// - Wind: 1.4 of the mean by day, 0.6 by night, then scaled to the mean.
/// - Radiation: the total in proportion to extraterrestrial radiation. Rain: evenly. Gusts: as wind.
QuantityHours daily_to_hourly(std::span<const DayReading> days, const Location& location, const Clock& clock);

}  // namespace graftcast
