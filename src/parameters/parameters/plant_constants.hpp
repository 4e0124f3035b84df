#pragma once
// Constants of the climate at the scion and of one union's hour (models/union.json). What each number means
// stands in the tables of plant_constants.cpp.

#include "parameters/entry.hpp"

namespace graftcast {

struct ClimateConstants : KeyedEntry<ClimateConstants> {
  static const KeyTable table;
  Parameter wind_floor_m_s, shade_wind_reduction;
  Parameter sky_view, sky_view_sun_offset;
  Parameter beam_sine_floor, beam_limit_w_m2, ground_reflection;
  Parameter tissue_emissivity, cloud_emissivity_weight;
  Parameter bag_diameter_mm, bag_inner_coefficient_w_m2_k, bag_saturation, bag_content_share;
  Parameter stem_diameter_mm, wood_conductivity_w_m_k, whitewash_absorptance;
};

struct WaterConstants : KeyedEntry<WaterConstants> {
  static const KeyTable table;
  Parameter base_supply_stick_per_day, base_supply_bud_per_day;
  Parameter joined_supply_stick_per_day, joined_supply_bud_per_day, joining_width;
  Parameter bare_bud_area_cm2, bare_bud_conductance_mmol;
  Parameter open_tip_area_cm2, open_tip_conductance_mmol;
  Parameter chip_edge_area_cm2, chip_edge_conductance_mmol;
  Parameter shoot_leaf_area_stick_cm2, shoot_leaf_area_bud_cm2, leaf_growth_supply;
  Parameter leaf_conductance_night_mol, leaf_conductance_open_mol;
  Parameter leaf_closing_water, leaf_closing_range, connected_relief;
};

struct HealingConstants : KeyedEntry<HealingConstants> {
  static const KeyTable table;
  Parameter stock_floor, match_floor;
  Parameter frost_callus_c, frost_setback_healing;
  Parameter match_both_a, match_both_b, match_one_a, match_one_b;
  Parameter fresh_until, bridged_at, firm_at, slit_wrap_factor;
};

struct BudConstants : KeyedEntry<BudConstants> {
  static const KeyTable table;
  Parameter leaf_out_days, leaf_water_floor, leaf_water_range, shrivel_days;
};

struct HeatConstants : KeyedEntry<HeatConstants> {
  static const KeyTable table;
  Parameter reference_c, slope_k, recovery_days, limit_ln_sd;
};

struct StoresConstants : KeyedEntry<StoresConstants> {
  static const KeyTable table;
  Parameter q10, reference_c, limit_ln_sd;
};

struct StockConstants : KeyedEntry<StockConstants> {
  static const KeyTable table;
  Parameter pot_available_share, ground_available_mm;
  Parameter crop_headed, crop_full, leaf_area_coefficient, depletion_share;
  Parameter watering_assumed_days, waterlogged_days;
};

struct WoodConstants : KeyedEntry<WoodConstants> {
  static const KeyTable table;
  Parameter fridge_temperature_c, fridge_humidity;
  Parameter shed_temperature_c, shed_humidity;
  Parameter water_temperature_c, water_days;
  Parameter none_temperature_c, none_humidity;
  Parameter stick_bark_area_cm2, stick_water_store_g, stores_share;
};

}  // namespace graftcast
