#include "weather/gaps.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"
#include "humidity.hpp"
#include "impossible.hpp"

namespace graftcast {

namespace {

/// Hours [first, past), known on both sides.
struct Hole {
  std::size_t first;
  std::size_t past;
  std::size_t length() const { return past - first; }
};

/// Calls `fill` for each short hole of `column`.
template <class Fill>
void each_short_hole(const HourlyWeather::Column& column, Fill fill) {
  const std::size_t count = column.value.size();
  std::size_t past_known = 0;
  bool any = false;
  for (std::size_t k = 0; k < count; ++k) {
    if (!column.known(k)) continue;
    if (any && k > past_known && k - past_known <= longest_filled_hole_h) fill(Hole{past_known, k});
    past_known = k + 1;
    any = true;
  }
}

void set(HourlyWeather::Column& column, std::size_t k, double value, const Hole& hole) {
  column.value[k] = value;
  column.origin[k] = Origin::filled;
  if (!column.source.empty()) column.source[k] = column.source[hole.first - 1];
}

double along(double before, double after, const Hole& hole, std::size_t k) {
  return before +
         (after - before) * static_cast<double>(k + 1 - hole.first) / static_cast<double>(hole.length() + 1);
}

void fill_straight(HourlyWeather::Column& column) {
  each_short_hole(column, [&](const Hole& hole) {
    const double before = column.value[hole.first - 1];
    const double after = column.value[hole.past];
    for (std::size_t k = hole.first; k < hole.past; ++k) set(column, k, along(before, after, hole, k), hole);
  });
}

void fill_humidity(HourlyWeather::Column& humidity, const HourlyWeather::Column& air) {
  each_short_hole(humidity, [&](const Hole& hole) {
    for (std::size_t k = hole.first - 1; k <= hole.past; ++k) {
      if (!air.known(k)) return;
    }
    const double before = dew_point_of(air.value[hole.first - 1], humidity.value[hole.first - 1]);
    const double after = dew_point_of(air.value[hole.past], humidity.value[hole.past]);
    for (std::size_t k = hole.first; k < hole.past; ++k) {
      set(humidity, k, humidity_of(air.value[k], along(before, after, hole, k)), hole);
    }
  });
}

/// Radiation as a share of the clear sky's.
class ClearSkyShare {
 public:
  ClearSkyShare(const QuantityHours& hours, const Location& location)
      : hours_(hours), location_(location), transmissivity_(clear_sky_transmissivity(location.elevation_m)) {}

  double clear_w_m2(std::size_t k) const {
    return transmissivity_ * sun_period(hours_.hour(k), location_.latitude_deg, location_.longitude_deg)
                                 .mean_extraterrestrial_w_m2;
  }
  /// Nothing where the light is too low to tell.
  std::optional<double> at(std::size_t k) const {
    constexpr double enough_light_w_m2 = 20;
    const double clear = clear_w_m2(k);
    if (clear < enough_light_w_m2 || !hours_[Quantity::shortwave].known(k)) return std::nullopt;
    return std::min(hours_[Quantity::shortwave].value[k] / clear, 1.2);
  }
  std::optional<double> last_before(std::size_t k) const {
    for (std::size_t back = 1; back <= std::min<std::size_t>(k, 24); ++back) {
      if (const auto share = at(k - back)) return share;
    }
    return std::nullopt;
  }

 private:
  const QuantityHours& hours_;
  const Location& location_;
  double transmissivity_;
};

void fill_shortwave(QuantityHours& hours, const Location& location) {
  const ClearSkyShare share(hours, location);
  auto& column = hours[Quantity::shortwave];
  each_short_hole(column, [&](const Hole& hole) {
    std::optional<double> before = share.at(hole.first - 1);
    std::optional<double> after = share.at(hole.past);
    if (!before && !after) before = share.last_before(hole.first);
    if (!before) before = after;
    if (!after) after = before;
    for (std::size_t k = hole.first; k < hole.past; ++k) {
      const double clear = share.clear_w_m2(k);
      if (clear <= 0) {
        set(column, k, 0, hole);
      } else if (before) {
        set(column, k, std::min(along(*before, *after, hole, k) * clear, brightest_hour_w_m2), hole);
      }
    }
  });
}

}  // namespace

void fill_short_gaps(QuantityHours& hours, const Location& location) {
  for (const Quantity quantity : {Quantity::air_temperature, Quantity::dew_point, Quantity::wind_speed,
                                  Quantity::pressure, Quantity::cloud_cover}) {
    fill_straight(hours[quantity]);
  }
  fill_humidity(hours[Quantity::relative_humidity], hours[Quantity::air_temperature]);
  fill_shortwave(hours, location);
}

}  // namespace graftcast
