#include "humidity.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/air.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

/// A dew point above the air beyond rounding, both read at the one place. Hours between coarse instants, and
/// values of two places, may cross a little: those are saturated.
bool is_impossible(const QuantityHours& hours, std::size_t k) {
  constexpr double rounding_k = 0.5;
  const auto& air = hours[Quantity::air_temperature];
  const auto& dew = hours[Quantity::dew_point];
  const bool one_place = air.source.empty() || air.source[k] == dew.source[k];
  const bool both_read = air.origin[k] != Origin::filled && dew.origin[k] != Origin::filled;
  return one_place && both_read && dew.value[k] > air.value[k] + rounding_k;
}

}  // namespace

double dew_point_of(double air_temperature_c, double relative_humidity_pct) {
  const double share = std::max(relative_humidity_pct, 0.5) / 100.0;  // NaN stays: max(NaN, x) is NaN.
  return raw::dew_point_c(share * raw::saturation_vapour_pressure_kpa(air_temperature_c));
}

double humidity_of(double air_temperature_c, double dew_point_c) {
  const double share = raw::saturation_vapour_pressure_kpa(dew_point_c) /
                       raw::saturation_vapour_pressure_kpa(air_temperature_c);
  return std::min(100.0 * share, 100.0);  // NaN stays, likewise.
}

void complete_humidity(QuantityHours& hours, NoteBook& notes) {
  const auto& air = hours[Quantity::air_temperature];
  auto& dew = hours[Quantity::dew_point];
  auto& humidity = hours[Quantity::relative_humidity];
  for (std::size_t k = 0; k < hours.size(); ++k) {
    if (!std::isnan(humidity.value[k]) || std::isnan(air.value[k]) || std::isnan(dew.value[k])) continue;
    if (is_impossible(hours, k)) {
      if (notes.count("dew-above-air", tr("the dew point is above the air; it is set aside"))) {
        notes.example(tr("{time}: {dew_point:.1f} above {air:.1f} degC", "time"_a = utc_text(hours.hour(k)),
                         "dew_point"_a = dew.value[k], "air"_a = air.value[k]));
      }
      dew.value[k] = unknown;
      dew.origin[k] = Origin::missing;
      continue;
    }
    humidity.value[k] = humidity_of(air.value[k], dew.value[k]);
    humidity.origin[k] = std::max(air.origin[k], dew.origin[k]);
    if (!humidity.source.empty()) humidity.source[k] = dew.source[k];
  }
}

}  // namespace graftcast
