#include "plant/stock_water.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "graftcast/error.hpp"

namespace graftcast {

namespace {

/// A store in litres for a pot, in millimetres for ground, with the factor that turns millimetres into its
/// unit.
struct Store {
  double capacity;
  double per_mm;
};

Store store_of(const StockConstants& constants, std::optional<double> pot_litres) {
  if (!pot_litres) return {constants.ground_available_mm, 1.0};
  if (!(*pot_litres > 0)) {
    throw RangeError(fmt::format("a pot of {} litres", *pot_litres),
                     "pot_litres above 0, or empty for a stock in the ground");
  }
  return {constants.pot_available_share * *pot_litres,
          constants.leaf_area_coefficient * std::cbrt(*pot_litres * *pot_litres)};
}

}  // namespace

StockWater stock_water(const StockConstants& constants, std::optional<double> pot_litres,
                       std::span<const StockHour> hours) {
  const Store store = store_of(constants, pot_litres);
  StockWater result;
  result.stress.reserve(hours.size());
  result.depletion.reserve(hours.size());
  double held = store.capacity;
  double hours_above_capacity = 0;
  for (const StockHour& hour : hours) {
    const double crop = hour.full_head ? constants.crop_full : constants.crop_headed;
    if (hour.watered_full) held = std::max(held, store.capacity);
    held += hour.watered_l + hour.rain_mm * store.per_mm - crop * std::max(hour.et0_mm, 0.0) * store.per_mm;
    // Water above capacity drains within the hour; only that it came again is remembered.
    hours_above_capacity = held > store.capacity ? hours_above_capacity + 1 : 0;
    held = std::clamp(held, 0.0, store.capacity);
    const double share = held / store.capacity;
    result.depletion.push_back(1.0 - share);
    result.stress.push_back(std::min(1.0, share / (1.0 - constants.depletion_share)));
  }
  result.waterlogged = hours_above_capacity >= 24 * constants.waterlogged_days;
  return result;
}

}  // namespace graftcast
