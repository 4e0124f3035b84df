#pragma once
// Where the sun stands, and what reaches the top of the atmosphere.
//
// Two sets of formulas. FAO's (Irrigation and Drainage Paper 56, Allen et al. 1998; equation numbers are its
// own) know only the day of the year and are off by up to 1.2 degrees in declination: they belong inside
// FAO's evapotranspiration. For everything else there is the short method of NOAA after Meeus 1998
// (Astronomical Algorithms, ch. 25 and 28), within 0.01 degrees from 1950 to 2050.
//
// Latitude is north positive, -90..90; longitude east positive, -180..180 (FAO counts degrees west: this is
// turned round inside). Errors: RangeError outside the ranges named.

#include <chrono>
#include <optional>

namespace graftcast {

// ---- FAO-56, by day of the year (1..366) ----

/// Day of the year, 1..366, of a calendar day.
int day_of_year(std::chrono::year_month_day day);

/// Inverse relative distance of the earth from the sun [-], eq. 23.
double inverse_relative_distance(int day_of_year);

/// Declination of the sun [rad], eq. 24.
double fao_declination_rad(int day_of_year);

/// Hour angle at sunset [rad, 0..pi], eq. 25; 0 in polar night, pi in polar day.
double sunset_hour_angle_rad(double latitude_deg, int day_of_year);

/// Day length [h, 0..24], eq. 34.
double day_length_h(double latitude_deg, int day_of_year);

/// Extraterrestrial radiation of a day [MJ m-2 d-1], eq. 21.
double extraterrestrial_day_mj_m2(double latitude_deg, int day_of_year);

/// Seasonal correction of solar time [h], eq. 32 and 33.
double seasonal_correction_h(int day_of_year);

/// Hour angle of the sun [rad; 0 at solar noon] at `clock_h` [h, 0..24, standard time], eq. 31. The clock
/// keeps the mean time of `meridian_deg` (-180..180, east positive: 15 times the hours ahead of UTC).
double fao_hour_angle_rad(double clock_h, double meridian_deg, double longitude_deg, int day_of_year);

/// Extraterrestrial radiation [MJ/m2] of a period of `length_h` [h, above 0, at most 24] about the hour angle
/// `middle_rad` [rad, any finite angle], eq. 28 to 30, with the limits of the integral held to the time the
/// sun is up: right also for periods that hold sunrise, sunset or midnight. The hours of a day add up to
/// eq. 21.
double extraterrestrial_period_mj_m2(double latitude_deg, int day_of_year, double middle_rad,
                                     double length_h = 1);

// ---- NOAA / Meeus, by instant ----

/// Where the sun is, seen from the centre of the earth.
struct SunCoordinates {
  double declination_deg;
  double equation_of_time_min;  ///< True less mean solar time.
  double distance_au;
};
/// Valid: years 1800..2200.
SunCoordinates sun_coordinates(std::chrono::sys_seconds instant);

/// True solar time [h, 0..24), 12 when the sun is due south or north.
double true_solar_time_h(std::chrono::sys_seconds instant, double longitude_deg);

/// Where the sun stands in the sky of a place.
struct SunPosition {
  double elevation_deg;            ///< Of the sun's centre above the horizon, without refraction.
  double refracted_elevation_deg;  ///< As seen through a standard atmosphere, 101 kPa and 10 degC.
  double azimuth_deg;              ///< From north through east, 0..360.
  double hour_angle_deg;           ///< 0 at solar noon, afternoon positive, -180..180.
};
SunPosition sun_position(std::chrono::sys_seconds instant, double latitude_deg, double longitude_deg);

/// Elevation of the sun's centre at sunrise and sunset: refraction 34', semidiameter 16'.
inline constexpr double sunrise_elevation_deg = -0.833;

/// The sun's way about one solar noon.
struct SunTimes {
  std::chrono::sys_seconds noon{};  ///< Solar noon.
  double noon_elevation_deg = 0;    ///< Without refraction.
  /// Between the midnight before and noon, and between noon and the midnight after. Absent in polar day and
  /// night; as a polar day begins or ends one of the two can stand alone.
  std::optional<std::chrono::sys_seconds> sunrise;
  std::optional<std::chrono::sys_seconds> sunset;

  bool polar_day() const { return !sunrise && !sunset && noon_elevation_deg > sunrise_elevation_deg; }
  bool polar_night() const { return !sunrise && !sunset && !polar_day(); }
};
/// About the solar noon nearest to `instant`: for a local day, give its middle. To the nearest second.
SunTimes sun_times(std::chrono::sys_seconds instant, double latitude_deg, double longitude_deg);

/// What the sun does in a period, above a flat horizon and without refraction.
struct SunPeriod {
  double mean_sine_of_elevation;  ///< Mean over the whole period, counting 0 while the sun is down.
  double sunlit_share;            ///< Share of the period with the sun up, 0..1.
  double
      mean_extraterrestrial_w_m2;  ///< On the horizontal outside the atmosphere, mean over the whole period.
};
/// For [begin, begin + length), length 1 s to 24 h: exact integral with the declination of its middle. The
/// solar constant is FAO's 0.0820 MJ m-2 min-1 (1366.7 W/m2), so that hours and eq. 21 agree.
SunPeriod sun_period(std::chrono::sys_seconds begin, double latitude_deg, double longitude_deg,
                     std::chrono::seconds length = std::chrono::hours(1));

}  // namespace graftcast
