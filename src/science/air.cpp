#include "graftcast/air.hpp"

#include "graftcast/error.hpp"
#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr Range any_vapour_pressure{tr_later("vapour pressure"), 0, 110, "kPa"};

void require_extremes(double maximum_temperature_c, double minimum_temperature_c) {
  require_within(maximum_temperature_c, valid::temperature);
  require_within(minimum_temperature_c, valid::temperature);
  require_ordered(minimum_temperature_c, tr_later("minimum temperature"), maximum_temperature_c,
                  tr_later("maximum temperature"));
}

/// FAO-56 eq. 16, kPa/degC per kPa of pressure.
double psychrometer_coefficient_per_c(Psychrometer psychrometer) {
  switch (psychrometer) {
    case Psychrometer::ventilated:
      return 0.000662;
    case Psychrometer::natural:
      return 0.000800;
    case Psychrometer::indoor:
      return 0.001200;
  }
  throw RangeError(tr("kind of psychrometer is unknown"), tr("valid: ventilated, natural, indoor"));
}

}  // namespace

double air_pressure_kpa(double elevation_m) {
  require_within(elevation_m, valid::elevation);
  return 101.3 * std::pow((293.0 - 0.0065 * elevation_m) / 293.0, 5.26);  // eq. 7
}

double psychrometric_constant_kpa_per_c(double pressure_kpa) {
  require_within(pressure_kpa, valid::pressure);
  return 0.665e-3 * pressure_kpa;  // eq. 8
}

double saturation_vapour_pressure_kpa(double temperature_c) {
  require_within(temperature_c, valid::temperature);
  return raw::saturation_vapour_pressure_kpa(temperature_c);
}

double mean_saturation_vapour_pressure_kpa(double maximum_temperature_c, double minimum_temperature_c) {
  require_extremes(maximum_temperature_c, minimum_temperature_c);
  return (raw::saturation_vapour_pressure_kpa(maximum_temperature_c) +
          raw::saturation_vapour_pressure_kpa(minimum_temperature_c)) /
         2;  // eq. 12
}

double saturation_slope_kpa_per_c(double temperature_c) {
  return raw::saturation_slope_kpa_per_c(temperature_c, saturation_vapour_pressure_kpa(temperature_c));
}

double dew_point_c(double vapour_pressure_kpa) {
  require_within(vapour_pressure_kpa,
                 {tr_later("vapour pressure"), raw::saturation_vapour_pressure_kpa(valid::temperature.low),
                  raw::saturation_vapour_pressure_kpa(valid::temperature.high), "kPa"});
  return raw::dew_point_c(vapour_pressure_kpa);
}

double relative_humidity_pct(double temperature_c, double vapour_pressure_kpa) {
  require_within(vapour_pressure_kpa, any_vapour_pressure);
  return 100 * vapour_pressure_kpa / saturation_vapour_pressure_kpa(temperature_c);  // eq. 10
}

double vapour_pressure_deficit_kpa(double temperature_c, double vapour_pressure_kpa) {
  require_within(vapour_pressure_kpa, any_vapour_pressure);
  return saturation_vapour_pressure_kpa(temperature_c) - vapour_pressure_kpa;
}

double mole_fraction_deficit(double surface_temperature_c, double vapour_pressure_kpa, double pressure_kpa) {
  require_within(pressure_kpa, valid::pressure);
  return vapour_pressure_deficit_kpa(surface_temperature_c, vapour_pressure_kpa) / pressure_kpa;
}

double vapour_pressure_from_humidity_kpa(double temperature_c, double relative_humidity_pct) {
  require_within(relative_humidity_pct, valid::humidity);
  return saturation_vapour_pressure_kpa(temperature_c) * relative_humidity_pct / 100;  // eq. 54
}

double vapour_pressure_from_dew_point_kpa(double dew_point_c) {
  require_within(dew_point_c,
                 {tr_later("dew point"), valid::temperature.low, valid::temperature.high, "degC"});
  return raw::saturation_vapour_pressure_kpa(dew_point_c);  // eq. 14
}

double vapour_pressure_from_wet_bulb_kpa(double dry_bulb_c, double wet_bulb_c, double pressure_kpa,
                                         Psychrometer psychrometer) {
  require_within(dry_bulb_c, valid::temperature);
  require_within(wet_bulb_c, valid::temperature);
  require_within(pressure_kpa, valid::pressure);
  require_ordered(wet_bulb_c, tr_later("wet bulb"), dry_bulb_c, tr_later("dry bulb"));
  const double constant = psychrometer_coefficient_per_c(psychrometer) * pressure_kpa;  // eq. 16
  const double vapour_pressure_kpa =
      raw::saturation_vapour_pressure_kpa(wet_bulb_c) - constant * (dry_bulb_c - wet_bulb_c);  // eq. 15
  if (vapour_pressure_kpa < 0) {
    throw RangeError(tr("wet bulb is too far below the dry bulb: the air would hold less than no vapour"),
                     tr("check the wick and its water"));
  }
  return vapour_pressure_kpa;
}

double vapour_pressure_from_humidity_extremes_kpa(const DailyHumidity& day) {
  require_extremes(day.maximum_temperature_c, day.minimum_temperature_c);
  require_within(day.minimum_humidity_pct, valid::humidity);
  require_within(day.maximum_humidity_pct, valid::humidity);
  require_ordered(day.minimum_humidity_pct, tr_later("minimum humidity"), day.maximum_humidity_pct,
                  tr_later("maximum humidity"));
  return (raw::saturation_vapour_pressure_kpa(day.minimum_temperature_c) * day.maximum_humidity_pct +
          raw::saturation_vapour_pressure_kpa(day.maximum_temperature_c) * day.minimum_humidity_pct) /
         200;  // eq. 17
}

double vapour_pressure_from_maximum_humidity_kpa(double minimum_temperature_c, double maximum_humidity_pct) {
  return vapour_pressure_from_humidity_kpa(minimum_temperature_c, maximum_humidity_pct);  // eq. 18
}

double vapour_pressure_from_mean_humidity_kpa(double maximum_temperature_c, double minimum_temperature_c,
                                              double mean_humidity_pct) {
  require_within(mean_humidity_pct, valid::humidity);
  return mean_saturation_vapour_pressure_kpa(maximum_temperature_c, minimum_temperature_c) *
         mean_humidity_pct / 100;  // eq. 19
}

double vapour_pressure_from_minimum_temperature_kpa(double minimum_temperature_c, double depression_c) {
  require_within(minimum_temperature_c, valid::temperature);
  require_within(depression_c, {tr_later("dew point depression"), 0, 20, "degC"});
  return vapour_pressure_from_dew_point_kpa(minimum_temperature_c - depression_c);  // eq. 48
}

double wet_bulb_c(double temperature_c, double relative_humidity_pct) {
  require_within(temperature_c, {tr_later("air temperature"), -20, 50, "degC"});
  require_within(relative_humidity_pct, {tr_later("relative humidity"), 5, 99, "%"});
  const double t = temperature_c;
  const double r = relative_humidity_pct;
  // Stull 2011, eq. 1.
  return t * std::atan(0.151977 * std::sqrt(r + 8.313659)) + std::atan(t + r) - std::atan(r - 1.676331) +
         0.00391838 * r * std::sqrt(r) * std::atan(0.023101 * r) - 4.686035;
}

double wind_at_2m_m_s(double wind_speed_m_s, double height_m) {
  require_within(wind_speed_m_s, {tr_later("wind speed"), 0, 120, "m/s"});
  require_within(height_m, {tr_later("height of the anemometer"), 0.5, 200, "m"});
  return wind_speed_m_s * 4.87 / std::log(67.8 * height_m - 5.42);  // eq. 47
}

}  // namespace graftcast
