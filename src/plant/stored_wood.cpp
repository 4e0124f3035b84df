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

double conductance_area_mol_s(const StoredWood& wood, const Entry& scion_state, const Models& models) {
  const Entry& store = models.shared.at("wood");
  const double wrap = wood.wrap.empty() ? 1.0 : models.wraps.at(wood.wrap).value("conductance_factor");
  const double bark =
      scion_state.value("bark_conductance_mmol") * 1e-3 * wrap * store.value("stick_bark_area_cm2") * 1e-4;
  const double leaves = models.shared.at("water").value("leaf_conductance_night_mol") *
                        scion_state.value("own_leaf_area_cm2") * 1e-4;
  return bark + leaves;
}

/// Share of the full store that a day takes.
double drying_per_day(const StoredWood& wood, const Entry& scion_state, const Models& models) {
  if (in_water(wood)) return 0;
  const Entry& store = models.shared.at("wood");
  const double deficit = raw::saturation_vapour_pressure_kpa(store.value(wood.stored + "_temperature_c")) *
                         (1 - store.value(wood.stored + "_humidity")) / sea_level_kpa;
  return conductance_area_mol_s(wood, scion_state, models) * deficit * seconds_per_day * water_g_per_mol /
         store.value("stick_water_store_g");
}

double breathing_per_day(const StoredWood& wood, const Entry& scion_state, const Models& models) {
  const Entry& stores = models.shared.at("stores");
  const double above =
      models.shared.at("wood").value(wood.stored + "_temperature_c") - stores.value("reference_c");
  return std::pow(stores.value("q10"), above / 10) / scion_state.value("stores_days");
}

}  // namespace

std::string_view wood_limit_name(WoodLimit limit) {
  constexpr std::array<std::string_view, 3> names{"drying", "stores", "rot"};
  return names.at(static_cast<std::size_t>(limit));
}

WoodState wood_after(const StoredWood& wood, double days, const Entry& scion_state, const Models& models) {
  const double kept_days = std::max(0.0, days);
  return {std::clamp(1 - kept_days * drying_per_day(wood, scion_state, models), 0.0, 1.0),
          kept_days * breathing_per_day(wood, scion_state, models)};
}

WoodUse wood_use(const StoredWood& wood, const Entry& scion_state, const Models& models) {
  const Entry& store = models.shared.at("wood");
  double days = store.value("stores_share") / breathing_per_day(wood, scion_state, models);
  WoodLimit limit = WoodLimit::stores;
  const auto shorten = [&](double to, WoodLimit by) {
    if (to >= days) return;
    days = to;
    limit = by;
  };
  if (in_water(wood)) {
    shorten(store.value("water_days"), WoodLimit::rot);
  } else {
    shorten((1 - scion_state.value("full_callus_water")) / drying_per_day(wood, scion_state, models),
            WoodLimit::drying);
  }
  const auto whole = static_cast<int>(std::floor(std::min(days, longest_days)));
  return {wood.cut_on + std::chrono::days(whole), limit};
}

}  // namespace graftcast
