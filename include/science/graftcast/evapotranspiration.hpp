#pragma once
// Reference evapotranspiration of short grass.
//
// Equation numbers are those of FAO Irrigation and Drainage Paper 56 (Allen et al. 1998). Net radiation and
// soil heat flux are in MJ/m2 per day or hour. Errors: RangeError outside the ranges named.

namespace graftcast {

/// The air of a day.
struct DailyAir {
  double maximum_temperature_c;  ///< -80..60, at least the minimum.
  double minimum_temperature_c;
  double vapour_pressure_kpa;  ///< Actual, 0..20. Above saturation counts as saturated.
  double wind_2m_m_s;          ///< 0..60.
  double pressure_kpa;         ///< 40..110.
};

/// Reference evapotranspiration of a day [mm/d] by Penman and Monteith, eq. 6, from net radiation [MJ m-2
/// d-1, -30..40] and soil heat flux [MJ m-2 d-1, -30..40]. Wind counts as at least 0.5 m/s, as FAO advises.
/// The ASCE-EWRI 2005 daily form for short grass is the same equation. May be slightly negative: dew.
double reference_evapotranspiration_day_mm(const DailyAir& air, double net_radiation_mj_m2,
                                           double soil_heat_flux_mj_m2 = 0);

/// The air of an hour.
struct HourlyAir {
  double temperature_c;        ///< -80..60.
  double vapour_pressure_kpa;  ///< Actual, 0..20. Above saturation counts as saturated.
  double wind_2m_m_s;          ///< 0..60.
  double pressure_kpa;         ///< 40..110.
};

/// Reference evapotranspiration of an hour [mm/h], eq. 53, from net radiation and soil heat flux [MJ m-2 h-1,
/// -2..5]. Wind counts as at least 0.5 m/s.
double fao_evapotranspiration_hour_mm(const HourlyAir& air, double net_radiation_mj_m2,
                                      double soil_heat_flux_mj_m2);

/// Reference evapotranspiration of an hour [mm/h] for short grass, ASCE-EWRI 2005 eq. 1 with Cn 37: by day
/// (net radiation above 0) Cd 0.24 and soil heat flux 0.1 of net radiation, else 0.96 and 0.5. Net radiation
/// [MJ m-2 h-1, -2..5]. May be slightly negative: dew.
double asce_evapotranspiration_hour_mm(const HourlyAir& air, double net_radiation_mj_m2);

/// The same from global radiation [MJ m-2 h-1, 0..5] and the clear-sky ratio [0..1]; by night the ratio of
/// the hours before sunset.
double asce_evapotranspiration_hour_mm(const HourlyAir& air, double global_mj_m2, double clear_sky_ratio);

/// Reference evapotranspiration of a day [mm/d] from temperature alone: Hargreaves, eq. 52. Temperatures
/// [degC, -80..60, minimum <= maximum], extraterrestrial radiation [MJ m-2 d-1, 0..60]. Never below 0.
double hargreaves_evapotranspiration_day_mm(double maximum_temperature_c, double minimum_temperature_c,
                                            double extraterrestrial_mj_m2);

/// Soil heat flux of a month [MJ m-2 d-1] from the mean temperatures [degC, -80..60] of its neighbours,
/// eq. 43.
double soil_heat_flux_of_month_mj_m2(double previous_month_c, double next_month_c);

/// The same where only the previous month's and its own mean are known, eq. 44.
double soil_heat_flux_of_latest_month_mj_m2(double previous_month_c, double this_month_c);

/// Soil heat flux of an hour [MJ m-2 h-1] from net radiation [MJ m-2 h-1, -2..5]: 0.1 of it by day (above 0),
/// eq. 45, 0.5 by night, eq. 46. That of a whole day is taken as 0, eq. 42.
double soil_heat_flux_of_hour_mj_m2(double net_radiation_mj_m2);

}  // namespace graftcast
