#include "plant/stored_wood.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "graftcast/air.hpp"

namespace graftcast {

namespace {

constexpr double sea_level_kpa = 101.3;
constexpr double water_g_per_mol = 18.015;
constexpr double seconds_per_day = 86400;
constexpr double longest_days = 3650;  // ten years, for what loses next to nothing

bool in_water(const StoredWood& wood) {
  return wood.stored == "water";
}

struct StoreAir {
  double temperature_c, humidity;
};

StoreAir air_of(const StoredWood& wood, const WoodConstants& store) {
  if (wood.stored == "fridge") return {store.fridge_temperature_c, store.fridge_humidity};
  if (wood.stored == "shed") return {store.shed_temperature_c, store.shed_humidity};
  // With its foot in water wood does not dry.
  if (in_water(wood)) return {store.water_temperature_c, 1};
  return {store.none_temperature_c, store.none_humidity};
}

double conductance_area_mol_s(const StoredWood& wood, const ScionState& scion_state, const Models& models) {
  const double wrap = wood.wrap.empty() ? 1.0 : models.wraps.at(wood.wrap).conductance_factor;
  const double bark =
      scion_state.bark_conductance_mmol * 1e-3 * wrap * models.wood.stick_bark_area_cm2 * 1e-4;
  const double leaves = models.water.leaf_conductance_night_mol * scion_state.own_leaf_area_cm2 * 1e-4;
  return bark + leaves;
}

/// Share of the full store that a day takes.
double drying_per_day(const StoredWood& wood, const ScionState& scion_state, const Models& models) {
  if (in_water(wood)) return 0;
  const StoreAir air = air_of(wood, models.wood);
  const double deficit =
      raw::saturation_vapour_pressure_kpa(air.temperature_c) * (1 - air.humidity) / sea_level_kpa;
  return conductance_area_mol_s(wood, scion_state, models) * deficit * seconds_per_day * water_g_per_mol /
         models.wood.stick_water_store_g;
}

double breathing_per_day(const StoredWood& wood, const ScionState& scion_state, const Models& models) {
  const double above_k = air_of(wood, models.wood).temperature_c - models.stores.reference_c;
  return std::pow(models.stores.q10, above_k / 10) / scion_state.stores_days;
}

}  // namespace

std::string_view wood_limit_name(WoodLimit limit) {
  constexpr std::array<std::string_view, 3> names{"drying", "stores", "rot"};
  return names.at(static_cast<std::size_t>(limit));
}

WoodState wood_after(const StoredWood& wood, double days, const ScionState& scion_state,
                     const Models& models) {
  const double kept_days = std::max(0.0, days);
  return {std::clamp(1 - kept_days * drying_per_day(wood, scion_state, models), 0.0, 1.0),
          kept_days * breathing_per_day(wood, scion_state, models)};
}

WoodUse wood_use(const StoredWood& wood, const ScionState& scion_state, const Models& models) {
  double days = models.wood.stores_share / breathing_per_day(wood, scion_state, models);
  WoodLimit limit = WoodLimit::stores;
  const auto shorten = [&](double to, WoodLimit by) {
    if (to >= days) return;
    days = to;
    limit = by;
  };
  if (in_water(wood)) {
    shorten(models.wood.water_days, WoodLimit::rot);
  } else {
    shorten((1 - scion_state.full_callus_water) / drying_per_day(wood, scion_state, models),
            WoodLimit::drying);
  }
  const auto whole = static_cast<int>(std::floor(std::min(days, longest_days)));
  return {wood.cut_on + std::chrono::days(whole), limit};
}

}  // namespace graftcast
