#include "graftcast/radiation.hpp"

#include <algorithm>
#include <limits>

#include "graftcast/error.hpp"
#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr Range sine_of_elevation_range{tr_later("sine of the sun's elevation"), -1, 1,
                                        tr_later("(dimensionless)")};
constexpr Range cloud_range{tr_later("cloud fraction"), 0, 1, tr_later("(of the sky)")};
constexpr double greatest = std::numeric_limits<double>::max();

/// The factors of eq. 39 that humidity and cloud give.
double longwave_factor(double vapour_pressure_kpa, double clear_sky_ratio) {
  require_within(vapour_pressure_kpa, valid::vapour_pressure);
  require_within(clear_sky_ratio, valid::clear_sky_ratio);
  const double net_emissivity = 0.34 - 0.14 * std::sqrt(vapour_pressure_kpa);
  return net_emissivity * std::clamp(1.35 * clear_sky_ratio - 0.35, 0.05, 1.0);
}

/// Eq. 39: 4.903e-9 MJ K-4 m-2 d-1 times K^4, with the 273.16 K that FAO's tables use.
double daily_black_body_mj_m2(double temperature_c) {
  require_within(temperature_c, valid::temperature);
  const double square = (temperature_c + 273.16) * (temperature_c + 273.16);
  return 4.903e-9 * square * square;
}

}  // namespace

double clear_sky_transmissivity(double elevation_m) {
  require_within(elevation_m, valid::elevation);
  return 0.75 + 2e-5 * elevation_m;  // eq. 37
}

double clear_sky_mj_m2(double extraterrestrial_mj_m2, double elevation_m) {
  require_within(extraterrestrial_mj_m2, valid::radiation);
  return clear_sky_transmissivity(elevation_m) * extraterrestrial_mj_m2;
}

double haurwitz_clear_sky_w_m2(double sine_of_elevation) {
  require_within(sine_of_elevation, sine_of_elevation_range);
  if (sine_of_elevation <= 0) return 0;
  return 1098 * sine_of_elevation * std::exp(-0.059 / sine_of_elevation);  // Haurwitz 1945
}

double global_from_cloud_w_m2(double sine_of_elevation, double cloud_fraction) {
  require_within(sine_of_elevation, sine_of_elevation_range);
  require_within(cloud_fraction, cloud_range);
  const double clear_sky = std::max(0.0, 910 * sine_of_elevation - 30);  // Kasten & Czeplak 1980
  return clear_sky * (1 - 0.75 * std::pow(cloud_fraction, 3.4));
}

double global_from_sunshine_mj_m2(double sunshine_h, double day_length_h, double extraterrestrial_mj_m2,
                                  const AngstromCoefficients& coefficients) {
  require_within(day_length_h, {tr_later("day length"), std::numeric_limits<double>::min(), 24, "h"});
  require_within(sunshine_h, {tr_later("sunshine"), 0, day_length_h, "h"});
  require_within(extraterrestrial_mj_m2, valid::radiation);
  require_within(coefficients.overcast,
                 {tr_later("overcast coefficient"), 0, 1, tr_later("(dimensionless)")});
  require_within(coefficients.sunshine, {tr_later("sunshine coefficient"), 0, 1 - coefficients.overcast,
                                         tr_later("(dimensionless)")});
  return (coefficients.overcast + coefficients.sunshine * sunshine_h / day_length_h) *
         extraterrestrial_mj_m2;  // eq. 35
}

double global_from_temperature_range_mj_m2(double maximum_temperature_c, double minimum_temperature_c,
                                           double extraterrestrial_mj_m2, double clear_sky_mj_m2,
                                           double adjustment) {
  require_within(maximum_temperature_c, valid::temperature);
  require_within(minimum_temperature_c, valid::temperature);
  require_ordered(minimum_temperature_c, tr_later("minimum temperature"), maximum_temperature_c,
                  tr_later("maximum temperature"));
  require_within(extraterrestrial_mj_m2, valid::radiation);
  require_within(clear_sky_mj_m2, valid::radiation);
  require_within(adjustment, {tr_later("adjustment of the temperature range"), 0.05, 0.3, "degC^-0.5"});
  const double range = std::sqrt(maximum_temperature_c - minimum_temperature_c);
  return std::min(adjustment * range * extraterrestrial_mj_m2, clear_sky_mj_m2);  // eq. 50
}

double clear_sky_ratio(double global, double clear_sky) {
  require_within(global, {tr_later("global radiation"), 0, greatest, tr_later("(any unit)")});
  require_within(clear_sky, {tr_later("clear-sky radiation"), std::numeric_limits<double>::min(), greatest,
                             tr_later("(any unit)")});
  return std::min(global / clear_sky, 1.0);
}

double cloud_fraction_from_clear_sky_ratio(double ratio) {
  require_within(ratio, valid::clear_sky_ratio);
  return raw::cloud_fraction_from_clear_sky_ratio(ratio);
}

double diffuse_fraction(double clearness_index) {
  require_within(clearness_index,
                 {tr_later("clearness index"), 0, 2, tr_later("(of extraterrestrial radiation)")});
  return raw::diffuse_fraction(clearness_index);
}

double net_shortwave_mj_m2(double global_mj_m2, double albedo) {
  require_within(global_mj_m2, valid::radiation);
  require_within(albedo, {tr_later("albedo"), 0, 1, tr_later("(dimensionless)")});
  return (1 - albedo) * global_mj_m2;  // eq. 38
}

double net_longwave_day_mj_m2(const LongwaveDay& day) {
  require_ordered(day.minimum_temperature_c, tr_later("minimum temperature"), day.maximum_temperature_c,
                  tr_later("maximum temperature"));
  const double emitted_mj_m2 = (daily_black_body_mj_m2(day.maximum_temperature_c) +
                                daily_black_body_mj_m2(day.minimum_temperature_c)) /
                               2;
  return emitted_mj_m2 * longwave_factor(day.vapour_pressure_kpa, day.clear_sky_ratio);
}

double net_longwave_hour_mj_m2(double temperature_c, double vapour_pressure_kpa, double clear_sky_ratio) {
  return daily_black_body_mj_m2(temperature_c) / 24 * longwave_factor(vapour_pressure_kpa, clear_sky_ratio);
}

double clear_sky_emissivity(double vapour_pressure_kpa, double temperature_c) {
  require_within(vapour_pressure_kpa, valid::vapour_pressure);
  require_within(temperature_c, valid::temperature);
  return std::min(raw::clear_sky_emissivity(vapour_pressure_kpa, temperature_c), 1.0);
}

double cloudy_sky_emissivity(double clear_emissivity, double cloud_fraction) {
  require_within(clear_emissivity, {tr_later("emissivity"), 0, 1, tr_later("(dimensionless)")});
  require_within(cloud_fraction, cloud_range);
  return raw::cloudy_sky_emissivity(clear_emissivity, cloud_fraction);
}

}  // namespace graftcast
