// Turns sections of models/union.json into the plain structs that the model's functions take.

#include "plant/ambient.hpp"
#include "plant/scion_climate.hpp"
#include "plant/stock_water.hpp"

namespace graftcast {

ClimateConstants climate_constants(const Models& models) {
  const Entry& c = models.shared.at("climate");
  ClimateConstants constants{};
  constants.wind_floor_m_s = c.value("wind_floor_m_s");
  constants.shade_wind_reduction = c.value("shade_wind_reduction");
  constants.sky_view = c.value("sky_view");
  constants.sky_view_sun_offset = c.value("sky_view_sun_offset");
  constants.ground_reflection = c.value("ground_reflection");
  constants.tissue_emissivity = c.value("tissue_emissivity");
  constants.bag_diameter_m = c.value("bag_diameter_mm") * 1e-3;
  constants.bag_inner_w_m2_k = c.value("bag_inner_coefficient_w_m2_k");
  constants.bag_saturation = c.value("bag_saturation");
  constants.bag_content_share = c.value("bag_content_share");
  constants.wood_conductivity_w_m_k = c.value("wood_conductivity_w_m_k");
  return constants;
}

SkyConstants sky_constants(const Models& models) {
  const Entry& c = models.shared.at("climate");
  return {c.value("beam_sine_floor"), c.value("beam_limit_w_m2"), c.value("cloud_emissivity_weight")};
}

RateConstants rate_constants(const Models& models) {
  const Entry& stores = models.shared.at("stores");
  const Entry& heat = models.shared.at("heat");
  return {heat.value("reference_c"), heat.value("slope_k"), stores.value("q10"), stores.value("reference_c")};
}

StockConstants stock_constants(const Models& models) {
  const Entry& s = models.shared.at("stock");
  return {s.value("pot_available_share"), s.value("ground_available_mm"),   s.value("crop_headed"),
          s.value("crop_full"),           s.value("leaf_area_coefficient"), s.value("depletion_share"),
          s.value("waterlogged_days")};
}

CoverOptics cover_optics(const Entry& cover) {
  CoverOptics optics;
  optics.wall = cover.value("wall") > 0;
  optics.light_passed = cover.value("light_passed");
  optics.light_absorbed = cover.value("light_absorbed");
  const std::string vapour = cover.word("vapour");
  // A paper bag keeps the wall's warmth but lets vapour out; a vented bag loses half of both.
  optics.vapour_kept = cover.value("closed");
  optics.heat_kept = vapour == "half" ? cover.value("closed") : 1.0;
  return optics;
}

}  // namespace graftcast
