#pragma once
// Air and sun in the open at the site, hour by hour, ready for the climate at a scion.

#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "parameters/plant_constants.hpp"
#include "weather/hourly_weather.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Where the sun stands in the hour (mean of the part of the hour it is up).
struct SunHour {
  double sine_elevation = 0;   ///< Mean over the hour of max(0, sin(elevation)).
  double elevation_deg = 0;    ///< At the middle of the hour.
  double azimuth_deg = 0;      ///< From north through east, at the middle of the hour.
  double solar_hour = 0;       ///< True solar time of the middle, 0..24.
  double horizontal_w_m2 = 0;  ///< Extraterrestrial irradiance on the horizontal, hour mean.
  double clear_sky_w_m2 = 0;   ///< FAO-56 eq. 37 clear-sky irradiance.
  bool daylight = false;       ///< Sun up for at least half of the hour.
};

/// Hourly weather complete and split into what a scion feels. Arrays are courses x hours
/// (the courses of an hour lie together): one course of weather that is known, one an ensemble member of
/// weather that is not.
struct Ambient {
  Hour start{};
  std::vector<SunHour> sun;  ///< One an hour.
  std::vector<double> pressure_kpa, rain_mm, gust_m_s;
  Eigen::ArrayXXd air_c, vapour_kpa, wind_m_s;           ///< degC; kPa; m/s at 2 m.
  Eigen::ArrayXXd global_w_m2, diffuse_w_m2, beam_w_m2;  ///< Horizontal, horizontal, normal to the beam.
  Eigen::ArrayXXd sky_emissivity;                        ///< With cloud, 0..1.
  Eigen::ArrayXXd et0_mm;  ///< ASCE-EWRI (2005) short reference, mm in the hour.

  Eigen::Index courses() const { return air_c.rows(); }
  std::size_t hours() const { return sun.size(); }
  Hour hour(std::size_t index) const { return start + std::chrono::hours(static_cast<long>(index)); }
};

/// The four variables in which courses of weather differ, courses x hours. Humidity as vapour pressure.
struct WeatherArrays {
  Eigen::ArrayXXd air_c, vapour_kpa, wind_m_s, global_w_m2;
};

/// Sun of each hour of [start, start + hours).
std::vector<SunHour> sun_of_hours(const Location& location, Hour start, std::size_t hours);

/// Weather of `weather` hours [from, to) as one course. Every variable must be known there (RangeError
/// otherwise).
WeatherArrays one_course(const HourlyWeather& weather, std::size_t from, std::size_t to);

/// Splits `courses` into beam and diffuse (Erbs, Klein & Duffie 1982), sky emissivity (Brutsaert 1975 with
/// the cloud seen by Rs/Rso, held through the night from the three daylight hours before sunset) and
/// reference evapotranspiration. `weather` gives pressure, rain and gust of the same hours; absent gusts
/// count as zero.
Ambient ambient_of(const Location& location, const HourlyWeather& weather, std::size_t from,
                   const WeatherArrays& courses, const ClimateConstants& constants);

}  // namespace graftcast
