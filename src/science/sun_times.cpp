// Solar noon, sunrise and sunset, and the sun over a period, from the NOAA/Meeus position.

#include <cmath>
#include <numbers>

#include "graftcast/sun.hpp"
#include "range_check.hpp"
#include "solar_coordinates.hpp"
#include "sunlit_arc.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::sys_seconds;

namespace {

struct Place {
  double latitude_deg;
  double longitude_deg;
};

bool is_up(sys_seconds instant, const Place& place) {
  return elevation_of_sun_deg(instant, place.latitude_deg, place.longitude_deg) >= sunrise_elevation_deg;
}

/// Solar noon nearest to `instant`; twice, since the equation of time drifts by up to half a minute a day.
sys_seconds nearest_noon(sys_seconds instant, double longitude_deg) {
  for (int i = 0; i < 2; ++i) {
    const double angle_deg =
        hour_angle_deg(instant, longitude_deg, coordinates_of_sun(instant).equation_of_time_min);
    instant -= std::chrono::seconds(std::lround(angle_deg * 240));
  }
  return instant;
}

/// When the sun crosses the horizon between a time it is down and a time it is up, or nothing when it does
/// not.
std::optional<sys_seconds> crossing(sys_seconds down, sys_seconds up, const Place& place) {
  if (is_up(down, place) || !is_up(up, place)) return std::nullopt;
  while (std::chrono::abs(up - down) > std::chrono::seconds(1)) {
    const sys_seconds middle = down + (up - down) / 2;
    (is_up(middle, place) ? up : down) = middle;
  }
  return up;
}

}  // namespace

SunTimes sun_times(sys_seconds instant, double latitude_deg, double longitude_deg) {
  require_place(latitude_deg, longitude_deg);
  require_sun_years(instant);
  const Place place{.latitude_deg = latitude_deg, .longitude_deg = longitude_deg};
  const sys_seconds noon = nearest_noon(instant, longitude_deg);
  constexpr std::chrono::hours half_day(12);
  return {.noon = noon,
          .noon_elevation_deg = elevation_of_sun_deg(noon, latitude_deg, longitude_deg),
          .sunrise = crossing(noon - half_day, noon, place),
          .sunset = crossing(noon + half_day, noon, place)};
}

SunPeriod sun_period(sys_seconds begin, double latitude_deg, double longitude_deg,
                     std::chrono::seconds length) {
  require_place(latitude_deg, longitude_deg);
  require_within(static_cast<double>(length.count()), {tr_later("length of the period"), 1, 86400, "s"});
  const sys_seconds middle = begin + length / 2;
  const SunCoordinates sun = sun_coordinates(middle);
  const double width_rad = 2 * std::numbers::pi * static_cast<double>(length.count()) / 86400;
  const double middle_rad = hour_angle_deg(middle, longitude_deg, sun.equation_of_time_min) * degree;
  const SunlitArc arc =
      sunlit_arc(latitude_deg * degree, sun.declination_deg * degree, middle_rad, width_rad);
  const double mean_sine = arc.sine_integral / width_rad;
  return {.mean_sine_of_elevation = mean_sine,
          .sunlit_share = arc.angle_rad / width_rad,
          .mean_extraterrestrial_w_m2 =
              solar_constant_mj_m2_min * 1e6 / 60 / (sun.distance_au * sun.distance_au) * mean_sine};
}

}  // namespace graftcast
