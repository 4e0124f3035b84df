#pragma once
// Pressure and moisture of the air.
//
// The equation numbers are those of FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes & Smith 1998).
// Functions in `raw` check nothing: they also take Lanes and Eigen arrays (the result is then an expression:
// assign it to an array before the arguments go away). All others throw RangeError outside the range they
// name.

#include <cmath>

namespace graftcast {

/// Water vapour pressures are over liquid water, also below 0 degC; there they exceed those over ice, by 22 %
/// at -20 degC. A dew point below 0 degC is therefore the dew point, not the frost point.
namespace raw {

/// Saturation vapour pressure [kPa] at `temperature_c` [degC], eq. 11.
template <class T>
auto saturation_vapour_pressure_kpa(const T& temperature_c) {
  using std::exp;
  return 0.6108 * exp(17.27 * temperature_c / (temperature_c + 237.3));
}

/// Slope of the saturation curve [kPa/degC] at `temperature_c` [degC], given its saturation vapour pressure
/// `saturation_kpa` [kPa], eq. 13.
template <class T, class E>
auto saturation_slope_kpa_per_c(const T& temperature_c, const E& saturation_kpa) {
  return 4098.0 * saturation_kpa / ((temperature_c + 237.3) * (temperature_c + 237.3));
}

/// Dew point [degC] of air with `vapour_pressure_kpa` [kPa] > 0: the exact inverse of eq. 11.
/// (Eq. 3-11 of annex 3 is a rounded form of it and differs by 0.01 degC.)
template <class T>
auto dew_point_c(const T& vapour_pressure_kpa) {
  using std::log;
  return 237.3 * log(vapour_pressure_kpa / 0.6108) / (17.27 - log(vapour_pressure_kpa / 0.6108));
}

/// Heat that evaporates one mole of water [J/mol] at `temperature_c` [degC]: 2.501 - 0.002361 T MJ/kg (FAO-56
/// annex 3 eq. 3-1, Harrison 1963) times 0.018015 kg/mol.
template <class T>
auto molar_heat_of_vaporisation_j_mol(const T& temperature_c) {
  return 18015.0 * (2.501 - 0.002361 * temperature_c);
}

}  // namespace raw

/// Air temperatures that the checked functions accept [degC].
inline constexpr double lowest_air_temperature_c = -80;
inline constexpr double highest_air_temperature_c = 100;

/// Mean air pressure [kPa] at `elevation_m` [m above sea level, -430..6000], eq. 7.
double air_pressure_kpa(double elevation_m);

/// Psychrometric constant [kPa/degC] at `pressure_kpa` [kPa, 40..110], eq. 8.
double psychrometric_constant_kpa_per_c(double pressure_kpa);

/// Saturation vapour pressure [kPa] at `temperature_c` [degC, -80..100], eq. 11.
double saturation_vapour_pressure_kpa(double temperature_c);

/// Saturation vapour pressure of a day [kPa] from its extremes [degC, -80..100, minimum <= maximum], eq. 12.
/// It exceeds the saturation vapour pressure of the mean temperature.
double mean_saturation_vapour_pressure_kpa(double maximum_temperature_c, double minimum_temperature_c);

/// Slope of the saturation curve [kPa/degC] at `temperature_c` [degC, -80..100], eq. 13.
double saturation_slope_kpa_per_c(double temperature_c);

/// Dew point [degC] of air with `vapour_pressure_kpa` [kPa, that of -80..100 degC: 9.4e-5..102], inverse of
/// eq. 11.
double dew_point_c(double vapour_pressure_kpa);

/// Relative humidity [%] of air at `temperature_c` [degC, -80..100] with `vapour_pressure_kpa` [kPa, 0..110],
/// eq. 10. Above 100 where the air is supersaturated or the two readings do not fit; the caller decides what
/// that means.
double relative_humidity_pct(double temperature_c, double vapour_pressure_kpa);

/// What the air at `temperature_c` [degC, -80..100] with `vapour_pressure_kpa` [kPa, 0..110] lacks to
/// saturation [kPa]; below zero where it is supersaturated.
double vapour_pressure_deficit_kpa(double temperature_c, double vapour_pressure_kpa);

/// The same between a wet surface at `surface_temperature_c` [degC, -80..100] and the air, as a difference of
/// mole fractions [mol/mol] at `pressure_kpa` [kPa, 40..110]: what a molar conductance multiplies. Below
/// zero: dew.
double mole_fraction_deficit(double surface_temperature_c, double vapour_pressure_kpa, double pressure_kpa);

/// Actual vapour pressure [kPa] of air at `temperature_c` [degC, -80..100] with `relative_humidity_pct` [%,
/// 0..100], eq. 54 (an hour's means).
double vapour_pressure_from_humidity_kpa(double temperature_c, double relative_humidity_pct);

/// Actual vapour pressure [kPa] from the dew point [degC, -80..100], eq. 14.
double vapour_pressure_from_dew_point_kpa(double dew_point_c);

/// How a psychrometer is aired: about 5 m/s, about 1 m/s, or not at all (indoors). Coefficients of eq. 16.
enum class Psychrometer { ventilated, natural, indoor };

/// Actual vapour pressure [kPa] from dry and wet bulb [degC, -80..100, wet <= dry] at `pressure_kpa`
/// [kPa, 40..110], eq. 15 and 16. Error: RangeError also where the two bulbs leave no vapour at all.
double vapour_pressure_from_wet_bulb_kpa(double dry_bulb_c, double wet_bulb_c, double pressure_kpa,
                                         Psychrometer psychrometer = Psychrometer::ventilated);

/// A day's extremes as a station logs them: degC, -80..100, and %, 0..100, minimum <= maximum.
struct DailyHumidity {
  double maximum_temperature_c;
  double minimum_temperature_c;
  double maximum_humidity_pct;
  double minimum_humidity_pct;
};
/// Actual vapour pressure of a day [kPa] from both extremes of humidity, eq. 17: the best of 17 to 19.
double vapour_pressure_from_humidity_extremes_kpa(const DailyHumidity& day);

/// Actual vapour pressure of a day [kPa] from the maximum humidity [%, 0..100], taken at the minimum
/// temperature [degC, -80..100], eq. 18: where low readings of the sensor are doubtful.
double vapour_pressure_from_maximum_humidity_kpa(double minimum_temperature_c, double maximum_humidity_pct);

/// Actual vapour pressure of a day [kPa] from its mean humidity [%, 0..100] and its extremes of temperature
/// [degC, -80..100], eq. 19.
double vapour_pressure_from_mean_humidity_kpa(double maximum_temperature_c, double minimum_temperature_c,
                                              double mean_humidity_pct);

/// Actual vapour pressure of a day [kPa] without any measure of humidity: the dew point is taken as the
/// minimum temperature [degC, -80..100] less `depression_c` [degC, 0..20; 2 in arid places, annex 6], eq. 48.
double vapour_pressure_from_minimum_temperature_kpa(double minimum_temperature_c, double depression_c = 0);

/// Wet bulb temperature [degC] at sea level from `temperature_c` [degC, -20..50] and `relative_humidity_pct`
/// [%, 5..99]: Stull 2011 (J. Appl. Meteorol. Climatol. 50, 2267), error -1..+0.65 degC; poor where both cold
/// and dry.
double wet_bulb_c(double temperature_c, double relative_humidity_pct);

/// Wind at 2 m [m/s] from `wind_speed_m_s` [m/s, 0..120] measured at `height_m` [m, 0.5..200] over short
/// grass, eq. 47.
double wind_at_2m_m_s(double wind_speed_m_s, double height_m);

}  // namespace graftcast
