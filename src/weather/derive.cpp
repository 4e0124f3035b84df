#include "weather/derive.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/air.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"
#include "humidity.hpp"
#include "impossible.hpp"
#include "local_hours.hpp"

namespace graftcast {

namespace {

using Column = HourlyWeather::Column;

/// `air` is the temperature that the value goes with; its source stands for the derived value too.
void set_derived(Column& column, const Column& air, std::size_t k, double value) {
  column.value[k] = value;
  column.origin[k] = Origin::derived;
  if (!column.source.empty()) column.source[k] = air.source[k];
}

/// True when `column` lacks an hour in which the temperature is known.
bool lacks(const QuantityHours& hours, const Column& column) {
  const Column& air = hours[Quantity::air_temperature];
  for (std::size_t k = 0; k < hours.size(); ++k) {
    if (air.known(k) && !column.known(k)) return true;
  }
  return false;
}

void derive_constant(QuantityHours& hours, Quantity quantity, double value) {
  const Column& air = hours[Quantity::air_temperature];
  Column& column = hours[quantity];
  for (std::size_t k = 0; k < hours.size(); ++k) {
    if (air.known(k) && !column.known(k)) set_derived(column, air, k, value);
  }
}

/// Extremes of temperature over some hours.
struct Extremes {
  double minimum_c = 1e9;
  double maximum_c = -1e9;
  std::size_t known = 0;

  void add(const Column& air, std::size_t k) {
    if (!air.known(k)) return;
    minimum_c = std::min(minimum_c, air.value[k]);
    maximum_c = std::max(maximum_c, air.value[k]);
    ++known;
  }
};

/// Extremes of hours [first, past), with hours borrowed to either side where too few of them are known.
Extremes extremes_about(const Column& air, std::size_t first, std::size_t past) {
  constexpr std::size_t enough_h = 20;
  constexpr std::size_t farthest_h = 24;
  Extremes extremes;
  for (std::size_t k = first; k < past; ++k) extremes.add(air, k);
  if (extremes.known >= enough_h) return extremes;
  for (std::size_t away = 1; away <= farthest_h && extremes.known < 24; ++away) {
    if (first >= away) extremes.add(air, first - away);
    if (past + away <= air.value.size()) extremes.add(air, past + away - 1);
  }
  return extremes;
}

/// Calls `visit(first, past, extremes)` for each local day with a known temperature.
template <class Visit>
void each_day(const QuantityHours& hours, const Clock& clock, Visit visit) {
  std::size_t first = 0;
  while (first < hours.size()) {
    const Hour end = hours_of(day_of_hour(hours.hour(first), clock), clock).past;
    const auto past = std::min(hours.size(), static_cast<std::size_t>((end - hours.start).count()));
    const Extremes extremes = extremes_about(hours[Quantity::air_temperature], first, past);
    if (extremes.known > 0) visit(first, past, extremes);
    first = past;
  }
}

void derive_humidity(QuantityHours& hours, const Clock& clock) {
  const Column& air = hours[Quantity::air_temperature];
  Column& humidity = hours[Quantity::relative_humidity];
  each_day(hours, clock, [&](std::size_t first, std::size_t past, const Extremes& extremes) {
    for (std::size_t k = first; k < past; ++k) {
      if (!air.known(k) || humidity.known(k)) continue;
      set_derived(humidity, air, k,
                  humidity_of(air.value[k], std::min(extremes.minimum_c, highest_dew_point_c)));
    }
  });
}

double shortwave_under_cloud(const SunPeriod& sun, double cloud_cover_pct) {
  if (sun.sunlit_share <= 0) return 0;
  const double sine = std::min(1.0, sun.mean_sine_of_elevation / sun.sunlit_share);
  return sun.sunlit_share * global_from_cloud_w_m2(sine, cloud_cover_pct / 100.0);
}

void derive_shortwave(QuantityHours& hours, const Location& location, const Clock& clock) {
  const Column& air = hours[Quantity::air_temperature];
  const Column& cloud = hours[Quantity::cloud_cover];
  Column& shortwave = hours[Quantity::shortwave];
  const double clear = clear_sky_transmissivity(location.elevation_m);
  each_day(hours, clock, [&](std::size_t first, std::size_t past, const Extremes& extremes) {
    // Eq. 50 for one unit of extraterrestrial radiation gives the share that reaches the ground.
    const double share =
        global_from_temperature_range_mj_m2(extremes.maximum_c, extremes.minimum_c, 1.0, clear);
    for (std::size_t k = first; k < past; ++k) {
      if (!air.known(k) || shortwave.known(k)) continue;
      const SunPeriod sun = sun_period(hours.hour(k), location.latitude_deg, location.longitude_deg);
      set_derived(shortwave, air, k,
                  cloud.known(k) ? shortwave_under_cloud(sun, cloud.value[k])
                                 : share * sun.mean_extraterrestrial_w_m2);
    }
  });
}

}  // namespace

std::vector<Variable> derive_missing(QuantityHours& hours, const Location& location, const Clock& clock) {
  std::vector<Variable> derived;
  if (lacks(hours, hours[Quantity::relative_humidity])) {
    derive_humidity(hours, clock);
    derived.push_back(Variable::relative_humidity);
  }
  if (lacks(hours, hours[Quantity::wind_speed])) {
    derive_constant(hours, Quantity::wind_speed, assumed_wind_m_s);
    derived.push_back(Variable::wind_speed);
  }
  if (lacks(hours, hours[Quantity::shortwave])) {
    derive_shortwave(hours, location, clock);
    derived.push_back(Variable::shortwave);
  }
  if (lacks(hours, hours[Quantity::pressure])) {
    derive_constant(hours, Quantity::pressure, air_pressure_kpa(location.elevation_m));
    derived.push_back(Variable::pressure);
  }
  return derived;
}

}  // namespace graftcast
