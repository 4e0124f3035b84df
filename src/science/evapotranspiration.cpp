#include "graftcast/evapotranspiration.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/air.hpp"
#include "graftcast/radiation.hpp"
#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr Range wind_range{tr_later("wind speed at 2 m"), 0, 60, "m/s"};
constexpr Range daily_flux{tr_later("radiation or heat flux of the day"), -30, 40, "MJ m-2 d-1"};
constexpr Range hourly_flux{tr_later("radiation or heat flux of the hour"), -2, 5, "MJ m-2 h-1"};
constexpr double fao_least_wind_m_s = 0.5;  // FAO-56, below eq. 6

/// What the combination equation weighs, beside the air's properties.
struct Terms {
  double temperature_c;
  double available_energy_mj_m2;
  double vapour_pressure_deficit_kpa;
  double wind_2m_m_s;
  double pressure_kpa;
};
/// Cn and Cd: 900 and 0.34 for a day (FAO-56 eq. 6), 37 for an hour (eq. 53).
struct Coefficients {
  double numerator;
  double denominator;
};

double penman_monteith_mm(const Terms& terms, const Coefficients& coefficients) {
  const double slope = saturation_slope_kpa_per_c(terms.temperature_c);
  const double gamma = psychrometric_constant_kpa_per_c(terms.pressure_kpa);
  const double radiation_part = 0.408 * slope * terms.available_energy_mj_m2;
  const double wind_part = gamma * coefficients.numerator / (terms.temperature_c + 273) * terms.wind_2m_m_s *
                           terms.vapour_pressure_deficit_kpa;
  return (radiation_part + wind_part) / (slope + gamma * (1 + coefficients.denominator * terms.wind_2m_m_s));
}

/// Checked terms of an hour, the deficit held at 0.
Terms terms_of(const HourlyAir& air, double available_energy_mj_m2) {
  require_within(air.temperature_c, valid::air_temperature);
  require_within(air.vapour_pressure_kpa, valid::vapour_pressure);
  require_within(air.wind_2m_m_s, wind_range);
  const double deficit_kpa = vapour_pressure_deficit_kpa(air.temperature_c, air.vapour_pressure_kpa);
  return {.temperature_c = air.temperature_c,
          .available_energy_mj_m2 = available_energy_mj_m2,
          .vapour_pressure_deficit_kpa = std::max(0.0, deficit_kpa),
          .wind_2m_m_s = air.wind_2m_m_s,
          .pressure_kpa = air.pressure_kpa};
}

/// Checked terms of a day: the deficit from both extremes, eq. 12.
Terms terms_of(const DailyAir& air, double available_energy_mj_m2) {
  require_within(air.maximum_temperature_c, valid::air_temperature);
  require_within(air.minimum_temperature_c, valid::air_temperature);
  require_within(air.vapour_pressure_kpa, valid::vapour_pressure);
  require_within(air.wind_2m_m_s, wind_range);
  const double saturation_kpa =
      mean_saturation_vapour_pressure_kpa(air.maximum_temperature_c, air.minimum_temperature_c);
  return {.temperature_c = (air.maximum_temperature_c + air.minimum_temperature_c) / 2,  // eq. 9
          .available_energy_mj_m2 = available_energy_mj_m2,
          .vapour_pressure_deficit_kpa = std::max(0.0, saturation_kpa - air.vapour_pressure_kpa),
          .wind_2m_m_s = air.wind_2m_m_s,
          .pressure_kpa = air.pressure_kpa};
}

void require_month_temperatures(double first_c, double second_c) {
  require_within(first_c, valid::air_temperature);
  require_within(second_c, valid::air_temperature);
}

}  // namespace

double reference_evapotranspiration_day_mm(const DailyAir& air, double net_radiation_mj_m2,
                                           double soil_heat_flux_mj_m2) {
  require_within(net_radiation_mj_m2, daily_flux);
  require_within(soil_heat_flux_mj_m2, daily_flux);
  Terms terms = terms_of(air, net_radiation_mj_m2 - soil_heat_flux_mj_m2);
  terms.wind_2m_m_s = std::max(terms.wind_2m_m_s, fao_least_wind_m_s);
  return penman_monteith_mm(terms, {.numerator = 900, .denominator = 0.34});  // eq. 6
}

double fao_evapotranspiration_hour_mm(const HourlyAir& air, double net_radiation_mj_m2,
                                      double soil_heat_flux_mj_m2) {
  require_within(net_radiation_mj_m2, hourly_flux);
  require_within(soil_heat_flux_mj_m2, hourly_flux);
  Terms terms = terms_of(air, net_radiation_mj_m2 - soil_heat_flux_mj_m2);
  terms.wind_2m_m_s = std::max(terms.wind_2m_m_s, fao_least_wind_m_s);
  return penman_monteith_mm(terms, {.numerator = 37, .denominator = 0.34});  // eq. 53
}

double asce_evapotranspiration_hour_mm(const HourlyAir& air, double net_radiation_mj_m2) {
  const double available = net_radiation_mj_m2 - soil_heat_flux_of_hour_mj_m2(net_radiation_mj_m2);
  const double denominator = net_radiation_mj_m2 > 0 ? 0.24 : 0.96;  // ASCE-EWRI 2005, table 1
  return penman_monteith_mm(terms_of(air, available), {.numerator = 37, .denominator = denominator});
}

double asce_evapotranspiration_hour_mm(const HourlyAir& air, double global_mj_m2, double clear_sky_ratio) {
  require_within(global_mj_m2, {tr_later("global radiation of the hour"), 0, 5, "MJ m-2 h-1"});
  const double lost_mj_m2 =
      net_longwave_hour_mj_m2(air.temperature_c, air.vapour_pressure_kpa, clear_sky_ratio);
  return asce_evapotranspiration_hour_mm(air, net_shortwave_mj_m2(global_mj_m2) - lost_mj_m2);
}

double hargreaves_evapotranspiration_day_mm(double maximum_temperature_c, double minimum_temperature_c,
                                            double extraterrestrial_mj_m2) {
  require_within(maximum_temperature_c, valid::air_temperature);
  require_within(minimum_temperature_c, valid::air_temperature);
  require_ordered(minimum_temperature_c, tr_later("minimum temperature"), maximum_temperature_c,
                  tr_later("maximum temperature"));
  require_within(extraterrestrial_mj_m2, valid::radiation);
  const double mean_c = (maximum_temperature_c + minimum_temperature_c) / 2;
  const double range = std::sqrt(maximum_temperature_c - minimum_temperature_c);
  return std::max(0.0, 0.0023 * (mean_c + 17.8) * range * 0.408 * extraterrestrial_mj_m2);  // eq. 52
}

double soil_heat_flux_of_month_mj_m2(double previous_month_c, double next_month_c) {
  require_month_temperatures(previous_month_c, next_month_c);
  return 0.07 * (next_month_c - previous_month_c);  // eq. 43
}

double soil_heat_flux_of_latest_month_mj_m2(double previous_month_c, double this_month_c) {
  require_month_temperatures(previous_month_c, this_month_c);
  return 0.14 * (this_month_c - previous_month_c);  // eq. 44
}

double soil_heat_flux_of_hour_mj_m2(double net_radiation_mj_m2) {
  require_within(net_radiation_mj_m2, hourly_flux);
  return (net_radiation_mj_m2 > 0 ? 0.1 : 0.5) * net_radiation_mj_m2;  // eq. 45 and 46
}

}  // namespace graftcast
