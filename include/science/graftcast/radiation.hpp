#pragma once
// Short and long wave radiation.
//
// Equation numbers without a name are those of FAO Irrigation and Drainage Paper 56 (Allen et al. 1998).
// Radiation is in MJ/m2 per day or hour in FAO's formulas and in W/m2 elsewhere; vapour pressure is in kPa
// throughout (Brutsaert's hPa are converted inside). `raw` checks nothing and, where it says so, takes Eigen
// arrays (the result is then an expression: assign it to an array before the arguments go away); all others
// throw RangeError outside the range they name.

#include <cmath>

namespace graftcast {

namespace raw {

/// Emissivity of a clear sky over air at `temperature_c` [degC] with `vapour_pressure_kpa` [kPa]: Brutsaert
/// 1975 (Water Resources Research 11, 742), 1.24 (e/T)^(1/7), e in hPa, T in K. Numbers or Eigen arrays.
template <class E, class T>
auto clear_sky_emissivity(const E& vapour_pressure_kpa, const T& temperature_c) {
  using std::pow;
  return 1.24 * pow(10.0 * vapour_pressure_kpa / (temperature_c + 273.15), 1.0 / 7.0);
}

/// Emissivity of a sky with `cloud_fraction` [0..1]: Campbell & Norman 1998 eq. 10.12, (1 - 0.84 c) eps +
/// 0.84 c. Numbers or Eigen arrays.
template <class E, class C>
auto cloudy_sky_emissivity(const E& clear_emissivity, const C& cloud_fraction) {
  return clear_emissivity + 0.84 * cloud_fraction * (1.0 - clear_emissivity);
}

/// Cloud fraction [0..1] behind a ratio of global radiation to that of a clear sky: Kasten & Czeplak 1980
/// (Solar Energy 24, 177) turned round, ((1 - ratio)/0.75)^(1/3.4), held within 0..1.
inline double cloud_fraction_from_clear_sky_ratio(double ratio) {
  const double power = (1.0 - ratio) / 0.75;
  if (power <= 0) return 0;
  return power >= 1 ? 1 : std::pow(power, 1.0 / 3.4);
}

/// Share of diffuse radiation [0..1] in an hour's global radiation, from the clearness index (global over
/// extraterrestrial, both on the horizontal): Erbs, Klein & Duffie 1982 (Solar Energy 28, 293).
inline double diffuse_fraction(double clearness_index) {
  const double k = clearness_index;
  if (k <= 0.22) return 1.0 - 0.09 * k;
  if (k > 0.80) return 0.165;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

}  // namespace raw

/// Share of extraterrestrial radiation that reaches `elevation_m` [m, -430..6000] under a clear sky, eq. 37.
double clear_sky_transmissivity(double elevation_m);

/// Global radiation [MJ/m2] under a clear sky from extraterrestrial radiation [MJ/m2, 0..60] at `elevation_m`
/// [m, -430..6000], eq. 37.
double clear_sky_mj_m2(double extraterrestrial_mj_m2, double elevation_m);

/// Global irradiance [W/m2] under a clear sky with the sun at `sine_of_elevation` [-1..1]: Haurwitz 1945 (J.
/// Meteorol. 2, 154). 0 with the sun at or below the horizon.
double haurwitz_clear_sky_w_m2(double sine_of_elevation);

/// Global irradiance [W/m2] with the sun at `sine_of_elevation` [-1..1] behind `cloud_fraction` [0..1] of
/// cloud: Kasten & Czeplak 1980, (910 sin(elevation) - 30) (1 - 0.75 N^3.4), never below 0.
double global_from_cloud_w_m2(double sine_of_elevation, double cloud_fraction);

/// Coefficients of eq. 35: share of extraterrestrial radiation on overcast days, and what full sunshine adds.
/// Valid: each 0..1, sum at most 1.
struct AngstromCoefficients {
  double overcast = 0.25;
  double sunshine = 0.50;
};
/// Global radiation of a day [MJ/m2] from hours of bright sunshine [h, 0..day length] out of `day_length_h`
/// [h, above 0, at most 24] and extraterrestrial radiation [MJ/m2, 0..60], eq. 35.
double global_from_sunshine_mj_m2(double sunshine_h, double day_length_h, double extraterrestrial_mj_m2,
                                  const AngstromCoefficients& coefficients = {});

/// Adjustment coefficients of eq. 50 [degC^-0.5].
inline constexpr double temperature_range_interior = 0.16;
inline constexpr double temperature_range_coastal = 0.19;
/// Global radiation of a day [MJ/m2] from its extremes of temperature [degC, -80..100, minimum <= maximum],
/// eq. 50, at most the clear sky's `clear_sky_mj_m2` [MJ/m2, 0..60]. `adjustment` [degC^-0.5] 0.05..0.3.
double global_from_temperature_range_mj_m2(double maximum_temperature_c, double minimum_temperature_c,
                                           double extraterrestrial_mj_m2, double clear_sky_mj_m2,
                                           double adjustment = temperature_range_interior);

/// Global over clear-sky radiation, both in one unit and at least 0, held at most at 1 as eq. 39 asks. Error:
/// RangeError where the clear sky itself gives nothing (night): the ratio of the last daylight then has to
/// do.
double clear_sky_ratio(double global, double clear_sky);

/// Cloud fraction [0..1] from the clear-sky ratio [0..1]; see `raw`.
double cloud_fraction_from_clear_sky_ratio(double ratio);

/// Diffuse share [0..1] from the clearness index [0..2; above 1 near sunrise by scattered light]; see `raw`.
double diffuse_fraction(double clearness_index);

/// Net short wave radiation [MJ/m2] of `global_mj_m2` [MJ/m2, 0..60] on a surface of `albedo` [0..1; the
/// grass of the reference 0.23], eq. 38.
double net_shortwave_mj_m2(double global_mj_m2, double albedo = 0.23);

/// What a day's net long wave radiation depends on.
struct LongwaveDay {
  double maximum_temperature_c;  ///< -80..100, at least the minimum.
  double minimum_temperature_c;
  double vapour_pressure_kpa;  ///< 0..20.
  double clear_sky_ratio;      ///< 0..1.
};
/// Net long wave radiation lost by the reference grass in a day [MJ m-2 d-1], eq. 39. The cloud term
/// 1.35 ratio - 0.35 is held within 0.05..1 (ASCE-EWRI 2005), since below a ratio of 0.26 it would change its
/// sign.
double net_longwave_day_mj_m2(const LongwaveDay& day);

/// The same for an hour [MJ m-2 h-1] at `temperature_c` [degC, -80..100], with sigma/24.
double net_longwave_hour_mj_m2(double temperature_c, double vapour_pressure_kpa, double clear_sky_ratio);

/// Clear sky emissivity [0..1], Brutsaert 1975. Valid: vapour pressure 0..20 kPa, -80..100 degC; held at most
/// at 1.
double clear_sky_emissivity(double vapour_pressure_kpa, double temperature_c);

/// Emissivity of a sky with cloud, both arguments 0..1; see `raw`.
double cloudy_sky_emissivity(double clear_emissivity, double cloud_fraction);

}  // namespace graftcast
