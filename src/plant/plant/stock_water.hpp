#pragma once
// The rootstock's water, hour by hour: a pot that dries in days or ground that dries in weeks.

#include <optional>
#include <span>
#include <vector>

#include "parameters/plant_constants.hpp"

namespace graftcast {

/// One hour of weather and care for the stock.
struct StockHour {
  double et0_mm = 0;          ///< Reference evapotranspiration; dew (negative) counts as nothing.
  double rain_mm = 0;         ///< What falls on the pot or ground; 0 under a roof.
  bool full_head = false;     ///< The stock still has its leaves.
  bool watered_full = false;  ///< Watered to capacity.
  double watered_l = 0;       ///< Or by so many litres (a pot), or millimetres' worth on one m2 (ground).
};

/// Water in the stock after each hour.
struct StockWater {
  std::vector<double> stress;     ///< FAO-56 Ks, 0..1 (Kst of the model).
  std::vector<double> depletion;  ///< Share of the available water that is gone, 0..1.
  bool waterlogged = false;       ///< Above capacity at the end, for longer than the constants allow.
};

/// Steps the store through `hours`, starting full. Loss: Kc max(ET0, 0) times the leaf area of a pot, or per
/// area of ground. Stress: Ks = (TAW - Dr) / ((1 - p) TAW) where Dr exceeds p TAW, else 1 (FAO-56, Allen et
/// al. 1998, eq. 84). Valid: pot_litres > 0 (RangeError otherwise); absent pot_litres means ground.
StockWater stock_water(const StockConstants& constants, std::optional<double> pot_litres,
                       std::span<const StockHour> hours);

}  // namespace graftcast
