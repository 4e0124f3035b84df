#include "model_keys.hpp"

namespace graftcast::model_keys {
namespace {

constexpr auto heat_day_hazard = std::to_array<NumberKey>({
    {"fresh_c", "degC"},
    {"callusing_c", "degC"},
    {"bridged_c", "degC"},
    {"drinking_c", "degC"},
    {"firm_c", "degC"},
    {"warm_species_k", "K"},
});

constexpr auto drying_day_hazard = std::to_array<NumberKey>({
    {"fresh_share_per_day", "d-1"},
    {"callusing_share_per_day", "d-1"},
    {"bridged_share_per_day", "d-1"},
    {"drinking_share_per_day", "d-1"},
    {"firm_share_per_day", "d-1"},
});

constexpr auto cold_day_hazard = std::to_array<NumberKey>({
    {"fresh_c", "degC"},
    {"callusing_c", "degC"},
    {"bridged_c", "degC"},
    {"drinking_c", "degC"},
    {"firm_c", "degC"},
});

constexpr auto mould_day_hazard = std::to_array<NumberKey>({
    {"hours", "h"},
    {"low_c", "degC"},
    {"high_c", "degC"},
    {"damp_air_share", "share"},
    {"wet_share", "share"},
});

constexpr auto soaked_day_hazard = std::to_array<NumberKey>({
    {"rain_mm", "mm"},
});

constexpr auto wind_day_hazard = std::to_array<NumberKey>({
    {"fresh_m_s", "m s-1"},
    {"callusing_m_s", "m s-1"},
    {"bridged_m_s", "m s-1"},
    {"drinking_m_s", "m s-1"},
    {"firm_m_s", "m s-1"},
    {"shoot_share", "share"},
    {"stake_factor", "1", Ask::positive},
});

constexpr auto urgency_hazard = std::to_array<NumberKey>({
    {"now_p", "share"},
    {"soon_p", "share"},
    {"watch_p", "share"},
    {"now_h", "h"},
    {"likely_lost_p", "share"},
});

constexpr auto heat_index_hazard = std::to_array<NumberKey>({
    {"caution_c", "degC"},
    {"extreme_caution_c", "degC"},
    {"danger_c", "degC"},
    {"extreme_danger_c", "degC"},
    {"sun_adds_k", "K"},
});

// P(sign | cause) of the symptoms.
constexpr auto sign = std::to_array<NumberKey>({
    {"heat", "share"},
    {"dry_air", "share"},
    {"wind", "share"},
    {"cover_sun", "share"},
    {"missing_cover", "share"},
    {"dry_stock", "share"},
    {"cold", "share"},
    {"slow_callus", "share"},
    {"early_push", "share"},
    {"match", "share"},
    {"not_weather", "share"},
});

constexpr auto cautions = std::to_array<WordKey>({
    {"heat_illness", ""},
    {"knives", ""},
    {"hygiene", ""},
    {"quarantine", ""},
    {"products", ""},
    {"local_rules", ""},
    {"sap", ""},
    {"disease", ""},
    {"model", ""},
});

constexpr auto climate_shared = std::to_array<NumberKey>({
    {"wind_floor_m_s", "m s-1", Ask::positive},
    {"shade_wind_reduction", "share"},
    {"sky_view", "share"},
    {"sky_view_sun_offset", "share"},
    {"beam_sine_floor", "1", Ask::positive},
    {"beam_limit_w_m2", "W m-2", Ask::positive},
    {"ground_reflection", "1"},
    {"tissue_emissivity", "1", Ask::positive},
    {"cloud_emissivity_weight", "1"},
    {"bag_diameter_mm", "mm", Ask::positive},
    {"bag_inner_coefficient_w_m2_k", "W m-2 K-1", Ask::positive},
    {"bag_saturation", "share", Ask::positive},
    {"stem_diameter_mm", "mm", Ask::positive},
    {"wood_conductivity_w_m_k", "W m-1 K-1", Ask::positive},
    {"whitewash_absorptance", "share"},
    {"bag_content_share", "share"},
});

constexpr auto water_shared = std::to_array<NumberKey>({
    {"base_supply_stick_per_day", "d-1", Ask::positive},
    {"base_supply_bud_per_day", "d-1", Ask::positive},
    {"joined_supply_stick_per_day", "d-1", Ask::positive},
    {"joined_supply_bud_per_day", "d-1", Ask::positive},
    {"leaf_growth_supply", "1"},
    {"joining_width", "1", Ask::positive},
    {"bare_bud_area_cm2", "cm2"},
    {"bare_bud_conductance_mmol", "mmol m-2 s-1", Ask::positive},
    {"open_tip_area_cm2", "cm2"},
    {"open_tip_conductance_mmol", "mmol m-2 s-1", Ask::positive},
    {"chip_edge_area_cm2", "cm2"},
    {"chip_edge_conductance_mmol", "mmol m-2 s-1", Ask::positive},
    {"shoot_leaf_area_stick_cm2", "cm2"},
    {"shoot_leaf_area_bud_cm2", "cm2"},
    {"leaf_conductance_night_mol", "mol m-2 s-1", Ask::positive},
    {"leaf_conductance_open_mol", "mol m-2 s-1"},
    {"leaf_closing_water", "1"},
    {"leaf_closing_range", "1", Ask::positive},
    {"connected_relief", "1"},
});

constexpr auto healing_shared = std::to_array<NumberKey>({
    {"stock_floor", "share"},
    {"match_floor", "share"},
    {"frost_callus_c", "degC"},
    {"frost_setback_healing", "1"},
    {"match_both_a", "1", Ask::positive},
    {"match_both_b", "1", Ask::positive},
    {"match_one_a", "1", Ask::positive},
    {"match_one_b", "1", Ask::positive},
    {"fresh_until", "1", Ask::positive},
    {"bridged_at", "1", Ask::positive},
    {"slit_wrap_factor", "1", Ask::positive},
    {"firm_at", "1", Ask::positive},
});

constexpr auto buds_shared = std::to_array<NumberKey>({
    {"leaf_out_days", "d", Ask::positive},
    {"leaf_water_floor", "1"},
    {"leaf_water_range", "1", Ask::positive},
    {"shrivel_days", "d", Ask::positive},
});

constexpr auto heat_shared = std::to_array<NumberKey>({
    {"reference_c", "degC"},
    {"slope_k", "K", Ask::positive},
    {"recovery_days", "d", Ask::positive},
    {"limit_ln_sd", "1", Ask::positive},
});

constexpr auto stores_shared = std::to_array<NumberKey>({
    {"q10", "1", Ask::positive},
    {"reference_c", "degC"},
    {"limit_ln_sd", "1", Ask::positive},
});

constexpr auto stock_shared = std::to_array<NumberKey>({
    {"pot_available_share", "share", Ask::positive},
    {"ground_available_mm", "mm", Ask::positive},
    {"crop_headed", "1"},
    {"crop_full", "1"},
    {"leaf_area_coefficient", "m2", Ask::positive},
    {"depletion_share", "share", Ask::positive},
    {"watering_assumed_days", "d", Ask::positive},
    {"waterlogged_days", "d", Ask::positive},
});

constexpr auto forecast_shared = std::to_array<NumberKey>({
    {"temperature_sd_start", "K"},
    {"temperature_sd_per_day", "K d-1"},
    {"temperature_sd_limit", "K", Ask::positive},
    {"hourly_correlation", "1"},
    {"dew_point_correlation", "1"},
    {"ln_wind_sd", "1"},
    {"radiation_sd_start", "1"},
    {"radiation_sd_per_day", "d-1"},
    {"radiation_sd_limit", "1"},
});

constexpr auto observation_shared = std::to_array<NumberKey>({
    {"callus_healing", "1"},
    {"callus_sd", "1", Ask::positive},
    {"bud_sd", "1", Ask::positive},
    {"leaf_share", "share"},
    {"leaf_sd", "1", Ask::positive},
    {"wilt_water", "1"},
    {"wilt_sd", "1", Ask::positive},
    {"shrivel_water", "1"},
    {"shrivel_sd", "1", Ask::positive},
    {"reliability", "share"},
});

constexpr auto when_shared = std::to_array<NumberKey>({
    {"good_share", "share", Ask::positive},
    {"near_best_share", "share", Ask::positive},
    {"least_season_share", "share", Ask::positive},
    {"slips_note_days", "d", Ask::positive},
    {"bleeding_note_days", "d", Ask::positive},
    {"flushing_note_days", "d", Ask::positive},
});

constexpr auto monthly_climate_shared = std::to_array<NumberKey>({
    {"least_days", "d", Ask::positive},
    {"dew_point_with_minimum", "share"},
    {"dew_point_persistence", "share"},
    {"wind_with_minimum", "share"},
    {"wind_persistence", "share"},
});

constexpr auto spots_shared = std::to_array<NumberKey>({
    {"black_absorptance", "share", Ask::positive},
    {"sensor_diameter_mm", "mm", Ask::positive},
    {"sunny_w_m2", "W m-2", Ask::positive},
    {"least_hours", "h", Ask::positive},
    {"told_sun_se", "share", Ask::positive},
    {"told_wind_se", "share", Ask::positive},
    {"guessed_wind_sd", "share", Ask::positive},
});

constexpr auto why_shared = std::to_array<NumberKey>({
    {"applies_loss", "share", Ask::positive},
    {"explained_loss", "share", Ask::positive},
    {"harmless_humidity_share", "share", Ask::positive},
    {"harmless_wind_m_s", "m s-1", Ask::positive},
    {"near_share", "share", Ask::positive},
    {"saved_share", "share", Ask::positive},
    {"minutes_wrap", "min"},
});

constexpr auto wood_shared = std::to_array<NumberKey>({
    {"fridge_temperature_c", "degC"},
    {"fridge_humidity", "share", Ask::positive},
    {"shed_temperature_c", "degC", Ask::positive},
    {"shed_humidity", "share", Ask::positive},
    {"water_temperature_c", "degC", Ask::positive},
    {"water_days", "d", Ask::positive},
    {"none_temperature_c", "degC", Ask::positive},
    {"none_humidity", "share", Ask::positive},
    {"stick_bark_area_cm2", "cm2", Ask::positive},
    {"stick_water_store_g", "g", Ask::positive},
    {"stores_share", "share", Ask::positive},
});

constexpr auto regraft_shared = std::to_array<NumberKey>({
    {"stock_week_cost", "share"},
    {"look_cost", "share"},
    {"graft_cost", "share"},
    {"first_look_days", "d", Ask::positive},
    {"patience_days", "d", Ask::positive},
    {"shown_from_share", "share", Ask::positive},
});

constexpr auto aftercare_shared = std::to_array<NumberKey>({
    {"suckers_from_days", "d", Ask::positive},
    {"suckers_every_days", "d", Ask::positive},
    {"suckers_bud_clock", "1", Ask::positive},
    {"suckers_last_days", "d", Ask::positive},
    {"thin_leaf_share", "share", Ask::positive},
    {"tie_leaf_share", "share", Ask::positive},
    {"remove_wrap_after_days", "d", Ask::positive},
    {"vent_step_days", "d", Ask::positive},
    {"harden_search_days", "d", Ask::positive},
    {"keep_shade_days", "d", Ask::positive},
    {"given_up_days", "d", Ask::positive},
    {"spring_heading_days", "d", Ask::positive},
});

constexpr auto actions_shared = std::to_array<NumberKey>({
    {"shade_cloth_share", "share"},
    {"frost_cover_gain_k", "K"},
    {"harm_limit", "1"},
    {"harm_share", "share"},
    {"worth_share", "share", Ask::positive},
    {"undo_share", "share", Ask::positive},
    {"minutes_shade_cloth", "min"},
    {"minutes_clear_bag", "min"},
    {"minutes_paper", "min"},
    {"minutes_foil", "min"},
    {"minutes_vent", "min"},
    {"minutes_water", "min"},
    {"minutes_move", "min"},
    {"minutes_stake", "min"},
    {"minutes_whitewash", "min"},
    {"sunny_share", "share"},
    {"minutes_frost_cover", "min"},
});

constexpr std::array<Group, 16> hazards_groups{{
    {"heat-day", {heat_day_hazard, {}}},
    {"drying-day", {drying_day_hazard, {}}},
    {"cold-day", {cold_day_hazard, {}}},
    {"mould-day", {mould_day_hazard, {}}},
    {"soaked-day", {soaked_day_hazard, {}}},
    {"wind-day", {wind_day_hazard, {}}},
    {"urgency", {urgency_hazard, {}}},
    {"heat-index", {heat_index_hazard, {}}},
    {"sign-shrivelled", {sign, {}}},
    {"sign-wilted", {sign, {}}},
    {"sign-blackened", {sign, {}}},
    {"sign-mould", {sign, {}}},
    {"sign-bleeding", {sign, {}}},
    {"sign-callus", {sign, {}}},
    {"sign-buds-moving", {sign, {}}},
    {"cautions", {{}, cautions}},
}};

constexpr auto learning_shared = std::to_array<NumberKey>({
    {"pace_sd", "1", Ask::positive},
    {"drying_sd", "1", Ask::positive},
    {"failure_sd", "1", Ask::positive},
    {"least_outcomes", "1", Ask::positive},
});

constexpr std::array<Group, 18> shared_groups{{
    {"climate", {climate_shared, {}}},
    {"water", {water_shared, {}}},
    {"healing", {healing_shared, {}}},
    {"buds", {buds_shared, {}}},
    {"heat", {heat_shared, {}}},
    {"stores", {stores_shared, {}}},
    {"stock", {stock_shared, {}}},
    {"forecast", {forecast_shared, {}}},
    {"observation", {observation_shared, {}}},
    {"actions", {actions_shared, {}}},
    {"learning", {learning_shared, {}}},
    {"when", {when_shared, {}}},
    {"monthly-climate", {monthly_climate_shared, {}}},
    {"spots", {spots_shared, {}}},
    {"why", {why_shared, {}}},
    {"wood", {wood_shared, {}}},
    {"regraft", {regraft_shared, {}}},
    {"aftercare", {aftercare_shared, {}}},
}};
}  // namespace

std::span<const Group> groups_of(Section section) {
  if (section == Section::hazards) return hazards_groups;
  if (section == Section::shared) return shared_groups;
  return {};
}

}  // namespace graftcast::model_keys
