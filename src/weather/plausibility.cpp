#include "plausibility.hpp"
#include "text/tr.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace graftcast {

namespace {

/// Means that no place on earth exceeds over a stretch of weather (common knowledge of climates, wide).
Limits usual_means(Quantity quantity, Kind kind, bool daily) {
  switch (quantity) {
    case Quantity::air_temperature:
      return kind == Kind::maximum ? Limits{-70, 48} : Limits{-70, 40};
    case Quantity::dew_point:
      return {-70, 31};
    case Quantity::relative_humidity:
      return {1.5, 100};
    case Quantity::cloud_cover:
      return {0, 100};
    case Quantity::wind_speed:
      return {0, 25};
    case Quantity::gust:
      return {0, 35};
    case Quantity::pressure:
      return {45, 110};
    case Quantity::shortwave:
      if (kind == Kind::sum) return {0, daily ? 40.0 : 4.0};
      return {0, 500};
    case Quantity::precipitation:
      return {0, daily ? 300.0 : 50.0};
  }
  return {};
}

std::vector<Unit> candidates(Quantity quantity, const Unit& stated) {
  std::vector<std::string_view> names;
  switch (stated.dimension) {
    case Dimension::temperature:
      names = {"K", "degF", "degC"};
      break;
    case Dimension::proportion:
      names = {"%", "1"};
      if (quantity == Quantity::cloud_cover) names = {"%", "1", "okta"};
      break;
    case Dimension::speed:
      names = {"m s-1", "km h-1", "mph"};
      break;
    case Dimension::pressure:
      names = {"hPa", "kPa", "Pa", "inHg", "mmHg"};
      break;
    case Dimension::exposure:
      names = {"MJ m-2", "langley", "J cm-2", "Wh m-2", "kJ m-2"};
      break;
    case Dimension::irradiance:
      names = {"W m-2", "kW m-2", "MJ m-2 h-1", "MJ m-2 day-1", "langley/day"};
      break;
    case Dimension::depth:
    case Dimension::depth_rate:
      break;
  }
  std::vector<Unit> units;
  for (const auto name : names) {
    if (name != stated.name) units.push_back(parse_unit(name));
  }
  if (stated.dimension == Dimension::temperature) {
    units.push_back({Dimension::temperature, 0.1, 0, tr_later("tenths of degC")});
  }
  return units;
}

struct Fit {
  std::size_t known = 0;
  std::size_t outside = 0;
  double sum = 0;
  double greatest = -1e300;
  double least = 1e300;
};

template <class ToOwn>
Fit fit_of(const Channel& channel, const Limits& limits, ToOwn to_own) {
  Fit fit;
  for (const double stated_value : channel.value) {
    if (std::isnan(stated_value)) continue;
    const double value = to_own(stated_value);
    ++fit.known;
    if (!limits.hold(value)) ++fit.outside;
    fit.sum += value;
    fit.greatest = std::max(fit.greatest, value);
    fit.least = std::min(fit.least, value);
  }
  return fit;
}

/// Whether daylight is too faint: some light, yet in two days never 20 W/m2 (in 24 daily means never 50
/// W/m2).
bool too_faint(const Channel& channel, const Fit& fit, bool daily) {
  if (channel.quantity != Quantity::shortwave || fit.greatest <= 0) return false;
  if (channel.kind == Kind::sum) return daily && fit.greatest < 0.5;
  return fit.known >= (daily ? 24U : 48U) && fit.greatest < (daily ? 50 : 20);
}

bool convincing(const Channel& channel, const Fit& fit, bool daily, double most_outside) {
  const double known = static_cast<double>(fit.known);
  return static_cast<double>(fit.outside) <= most_outside * known &&
         usual_means(channel.quantity, channel.kind, daily).hold(fit.sum / known) &&
         !too_faint(channel, fit, daily);
}

}  // namespace

Limits physical_limits(Quantity quantity, Kind kind, bool daily) {
  // World records with a margin (WMO archive of weather and climate extremes): -89.2 and 56.7 degC, 1825 mm
  // in a day and 305 mm in an hour, a gust of 113 m/s; pressures from sea level to 6000 m.
  switch (quantity) {
    case Quantity::air_temperature:
      return {-80, 60};
    case Quantity::dew_point:
      return {-80, 40};
    case Quantity::relative_humidity:
    case Quantity::cloud_cover:
      return {0, 100};
    case Quantity::wind_speed:
      return {0, 60};
    case Quantity::gust:
      return {0, 115};
    case Quantity::shortwave:
      if (kind == Kind::sum) return {0, daily ? 45.0 : 30.0};
      return {0, daily ? 520.0 : 1380.0};
    case Quantity::precipitation:
      return {0, daily && kind == Kind::sum ? 1900.0 : 310.0};
    case Quantity::pressure:
      return {40, 110};
  }
  return {};
}

std::optional<double> without_overshoot(Quantity quantity, Kind kind, double value) {
  if (quantity == Quantity::relative_humidity && value > 100 && value <= 105) return 100.0;
  if (quantity == Quantity::shortwave && kind != Kind::sum && value < 0 && value >= -20) return 0.0;
  return std::nullopt;
}

std::optional<LikelyUnit> likely_unit(const Channel& channel, const Unit& stated, bool daily) {
  constexpr double bearable =
      0.02;  // A share of wild values this small is a faulty sensor, not a wrong unit.
  const Limits limits = physical_limits(channel.quantity, channel.kind, daily);
  const Fit as_stated = fit_of(channel, limits, [](double value) { return value; });
  if (as_stated.known == 0 || (as_stated.known < 24 && as_stated.outside < as_stated.known))
    return std::nullopt;
  if (convincing(channel, as_stated, daily, bearable)) return std::nullopt;
  const auto raw = [&](double value) { return (value - stated.offset) / stated.scale; };
  for (const Unit& unit : candidates(channel.quantity, stated)) {
    const Fit fit = fit_of(channel, limits, [&](double value) { return unit.to_own(raw(value)); });
    if (convincing(channel, fit, daily, bearable / 20)) {
      return LikelyUnit{std::string(unit.name), raw(as_stated.least), raw(as_stated.greatest)};
    }
  }
  return std::nullopt;
}

}  // namespace graftcast
