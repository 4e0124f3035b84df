// Position of the sun after NOAA's solar calculator, which follows Meeus, Astronomical Algorithms (2nd ed.
// 1998).

#include <algorithm>
#include <cmath>

#include "graftcast/sun.hpp"
#include "range_check.hpp"
#include "solar_coordinates.hpp"
#include "sunlit_arc.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::sys_seconds;

namespace {

double sine_of(double angle_deg) {
  return std::sin(angle_deg * degree);
}
double cosine_of(double angle_deg) {
  return std::cos(angle_deg * degree);
}

/// Julian centuries since 2000-01-01 12:00 (Julian day 2451545.0; the epoch of system time is 2440587.5).
double julian_centuries(sys_seconds instant) {
  const double julian_day = static_cast<double>(instant.time_since_epoch().count()) / 86400 + 2440587.5;
  return (julian_day - 2451545.0) / 36525;
}

/// Meeus, ch. 25, 28: what the position follows from, angles in degrees.
struct Orbit {
  double mean_longitude_deg;
  double mean_anomaly_deg;
  double eccentricity;
  double equation_of_centre_deg;
  double node_deg;       ///< Of the moon, for nutation.
  double obliquity_deg;  ///< Of the ecliptic, with nutation.
};

Orbit orbit_at(double t) {
  const double anomaly = 357.52911 + t * (35999.05029 - 0.0001537 * t);
  const double node = 125.04 - 1934.136 * t;
  const double mean_obliquity = 23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60;
  return {.mean_longitude_deg = 280.46646 + t * (36000.76983 + 0.0003032 * t),
          .mean_anomaly_deg = anomaly,
          .eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t),
          .equation_of_centre_deg = sine_of(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t)) +
                                    sine_of(2 * anomaly) * (0.019993 - 0.000101 * t) +
                                    sine_of(3 * anomaly) * 0.000289,
          .node_deg = node,
          .obliquity_deg = mean_obliquity + 0.00256 * cosine_of(node)};
}

/// Meeus, ch. 25: from the apparent longitude.
double declination_deg(const Orbit& orbit) {
  const double longitude =
      orbit.mean_longitude_deg + orbit.equation_of_centre_deg - 0.00569 - 0.00478 * sine_of(orbit.node_deg);
  return std::asin(sine_of(orbit.obliquity_deg) * sine_of(longitude)) / degree;
}

/// Meeus, eq. 28.3; 4 minutes are a degree.
double equation_of_time_min(const Orbit& orbit) {
  const double y = std::pow(std::tan(orbit.obliquity_deg / 2 * degree), 2);
  const double l0 = orbit.mean_longitude_deg;
  const double m = orbit.mean_anomaly_deg;
  const double e = orbit.eccentricity;
  return 4 / degree *
         (y * sine_of(2 * l0) - 2 * e * sine_of(m) + 4 * e * y * sine_of(m) * cosine_of(2 * l0) -
          y * y / 2 * sine_of(4 * l0) - 1.25 * e * e * sine_of(2 * m));
}

/// Meeus, eq. 25.5.
double distance_au(const Orbit& orbit) {
  const double true_anomaly = orbit.mean_anomaly_deg + orbit.equation_of_centre_deg;
  const double e = orbit.eccentricity;
  return 1.000001018 * (1 - e * e) / (1 + e * cosine_of(true_anomaly));
}

/// NOAA solar calculator: by how much the atmosphere lifts the sun [deg].
double refraction_deg(double elevation_deg) {
  const double h = elevation_deg;
  if (h > 85) return 0;
  const double tangent = std::tan(h * degree);
  if (h > 5) return (58.1 / tangent - 0.07 / std::pow(tangent, 3) + 0.000086 / std::pow(tangent, 5)) / 3600;
  if (h > -0.575) return (1735 + h * (-518.2 + h * (103.4 + h * (-12.79 + h * 0.711)))) / 3600;
  return -20.774 / tangent / 3600;
}

double elevation_deg(double latitude, double declination, double hour_angle) {
  const double sine = sine_of(latitude) * sine_of(declination) +
                      cosine_of(latitude) * cosine_of(declination) * cosine_of(hour_angle);
  return std::asin(std::clamp(sine, -1.0, 1.0)) / degree;
}

double azimuth_deg(double latitude, double declination, double hour_angle) {
  const double west = cosine_of(declination) * sine_of(hour_angle);
  const double south = cosine_of(declination) * cosine_of(hour_angle) * sine_of(latitude) -
                       sine_of(declination) * cosine_of(latitude);
  const double azimuth = 180 + std::atan2(west, south) / degree;
  return azimuth < 360 ? azimuth : 0;
}

}  // namespace

void require_sun_years(sys_seconds instant) {
  const double years = 2000 + 100 * julian_centuries(instant);
  require_within(years, {tr_later("year"), 1800, 2200, tr_later("(the sun's formulas)")});
}

void require_place(double latitude_deg, double longitude_deg) {
  require_within(latitude_deg, valid::latitude);
  require_within(longitude_deg, valid::longitude);
}

SunCoordinates coordinates_of_sun(sys_seconds instant) {
  const Orbit orbit = orbit_at(julian_centuries(instant));
  return {.declination_deg = declination_deg(orbit),
          .equation_of_time_min = equation_of_time_min(orbit),
          .distance_au = distance_au(orbit)};
}

double hour_angle_deg(sys_seconds instant, double longitude_deg, double equation_of_time_min) {
  const auto second_of_day = (instant - std::chrono::floor<std::chrono::days>(instant)).count();
  const double solar_min = static_cast<double>(second_of_day) / 60 + equation_of_time_min + 4 * longitude_deg;
  const double angle = std::fmod(solar_min / 4, 360);  // 0 at solar midnight
  return (angle < 0 ? angle + 360 : angle) - 180;
}

double elevation_of_sun_deg(sys_seconds instant, double latitude_deg, double longitude_deg) {
  const SunCoordinates sun = coordinates_of_sun(instant);
  return elevation_deg(latitude_deg, sun.declination_deg,
                       hour_angle_deg(instant, longitude_deg, sun.equation_of_time_min));
}

SunCoordinates sun_coordinates(sys_seconds instant) {
  require_sun_years(instant);
  return coordinates_of_sun(instant);
}

double true_solar_time_h(sys_seconds instant, double longitude_deg) {
  require_place(0, longitude_deg);
  return 12 + hour_angle_deg(instant, longitude_deg, sun_coordinates(instant).equation_of_time_min) / 15;
}

SunPosition sun_position(sys_seconds instant, double latitude_deg, double longitude_deg) {
  require_place(latitude_deg, longitude_deg);
  const SunCoordinates sun = sun_coordinates(instant);
  const double angle = hour_angle_deg(instant, longitude_deg, sun.equation_of_time_min);
  const double elevation = elevation_deg(latitude_deg, sun.declination_deg, angle);
  return {.elevation_deg = elevation,
          .refracted_elevation_deg = elevation + refraction_deg(elevation),
          .azimuth_deg = azimuth_deg(latitude_deg, sun.declination_deg, angle),
          .hour_angle_deg = angle};
}

}  // namespace graftcast
