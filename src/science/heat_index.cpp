#include "graftcast/heat_index.hpp"

#include <cmath>

#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

double fahrenheit(double temperature_c) {
  return 1.8 * temperature_c + 32;
}
double celsius(double temperature_f) {
  return (temperature_f - 32) / 1.8;
}

/// NWS adjustments of the regression [degF] for dry and for humid air.
double adjustment_f(double t, double r) {
  if (r < 13 && t >= 80 && t <= 112) return -(13 - r) / 4 * std::sqrt((17 - std::abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) return (r - 85) / 10 * (87 - t) / 5;
  return 0;
}

double heat_index_f(double t, double r) {
  if (t <= 40) return t;
  const double simple = 0.5 * (t + 61 + 1.2 * (t - 68) + 0.094 * r);
  if (simple < 80) return simple;
  return raw::rothfusz_regression_f(t, r) + adjustment_f(t, r);
}

}  // namespace

double heat_index_c(double temperature_c, double relative_humidity_pct) {
  require_within(temperature_c, valid::air_temperature);
  require_within(relative_humidity_pct, valid::humidity);
  return celsius(heat_index_f(fahrenheit(temperature_c), relative_humidity_pct));
}

HeatCaution heat_caution(double heat_index_c) {
  require_within(heat_index_c, {tr_later("heat index"), -80, 400, "degC"});
  const double index_f = fahrenheit(heat_index_c);
  if (index_f >= 125) return HeatCaution::extreme_danger;
  if (index_f >= 103) return HeatCaution::danger;
  if (index_f >= 90) return HeatCaution::extreme_caution;
  return index_f >= 80 ? HeatCaution::caution : HeatCaution::none;
}

std::string_view heat_caution_word(HeatCaution caution) {
  switch (caution) {
    case HeatCaution::caution:
      return tr_later("caution");
    case HeatCaution::extreme_caution:
      return tr_later("extreme caution");
    case HeatCaution::danger:
      return tr_later("danger");
    case HeatCaution::extreme_danger:
      return tr_later("extreme danger");
    case HeatCaution::none:
      break;
  }
  return tr_later("none");
}

}  // namespace graftcast
