#include "model_keys.hpp"

namespace graftcast::model_keys {
namespace {

constexpr auto species_numbers = std::to_array<NumberKey>({
    {"callus_lower_c", "degC"},
    {"callus_optimum_c", "degC"},
    {"callus_upper_c", "degC"},
    {"bridge_days", "d", Ask::positive},
    {"vascular_days", "d", Ask::positive},
    {"bud_base_c", "degC"},
    {"bud_push_degree_days", "degC d", Ask::positive},
    {"heat_reference_c", "degC"},
    {"degree_day_base_c", "degC"},
    {"degree_day_upper_c", "degC"},
    {"window_start_doy_north", "day of year"},
    {"window_end_doy_north", "day of year"},
    {"second_window_start_doy_north", "day of year", Ask::optional},
    {"second_window_end_doy_north", "day of year", Ask::optional},
    {"bark_slip_degree_days", "degC d", Ask::positive},
    {"bark_slip_base_c", "degC"},
});

constexpr auto species_words = std::to_array<WordKey>({
    {"scion_state", "dormant leafless-evergreen leafy"},
    {"growth", "deciduous evergreen"},
    {"bleeds", "yes no"},
    {"cold_table", ""},
    {"climate", "temperate subtropical tropical"},
    {"quarantine", ""},
});

constexpr auto methods_numbers = std::to_array<NumberKey>({
    {"rate_factor", "1", Ask::positive},
    {"diameter_mm", "mm", Ask::positive},
    {"length_mm", "mm", Ask::positive},
    {"bark_area_cm2", "cm2", Ask::positive},
    {"water_store_g", "g", Ask::positive},
    {"buds", "1", Ask::positive},
    {"take_share", "share", Ask::positive},
    {"bag_off_days", "d", Ask::optional},
    {"wrap_slit_days", "d", Ask::positive},
    {"doubtful_days", "d", Ask::positive},
    {"failed_days", "d", Ask::positive},
    {"break_gust_m_s", "m s-1", Ask::positive},
    {"sever_days", "d", Ask::optional},
});

constexpr auto methods_words = std::to_array<WordKey>({
    {"organ", "stick bud"},
    {"needs_slip", "yes no"},
    {"stock_head", "headed full"},
    {"usual_wrap", ""},
    {"usual_cover", ""},
    {"usual_cover_evergreen", ""},
    {"scion_stays_rooted", "yes no"},
});

constexpr auto covers_numbers = std::to_array<NumberKey>({
    {"light_passed", "share"},
    {"light_absorbed", "share"},
    {"closed", "share"},
    {"wall", "1"},
});

constexpr auto covers_words = std::to_array<WordKey>({
    {"vapour", "outside half closed"},
    {"needs", ""},
});

constexpr auto wraps_numbers = std::to_array<NumberKey>({
    {"conductance_factor", "1", Ask::positive},
    {"short_wave_absorptance", "share"},
});

constexpr auto wraps_words = std::to_array<WordKey>({
    {"bud_bare", "yes no"},
    {"tip_sealed", "yes no as-given"},
    {"cut_edges_sealed", "yes no"},
});

constexpr auto scion_states_numbers = std::to_array<NumberKey>({
    {"bark_conductance_mmol", "mmol m-2 s-1", Ask::positive},
    {"water_share_fresh", "share", Ask::positive},
    {"stops_callus_water", "1"},
    {"full_callus_water", "1"},
    {"lost_water", "1"},
    {"lost_water_sd", "1", Ask::positive},
    {"stores_days", "d", Ask::positive},
    {"own_leaf_area_cm2", "cm2"},
});

constexpr auto scion_states_words = std::to_array<WordKey>({
    {"leaves", "yes no"},
});

// Smallest and greatest sensible number in each unit of models/*.json.
struct UnitLimits {
  std::string_view unit;
  Limits limits;
};
constexpr auto units = std::to_array<UnitLimits>({
    {"1", {0, 100}},
    {"share", {0, 1}},
    {"degC", {-60, 80}},
    {"K", {0, 60}},
    {"K d-1", {0, 10}},
    {"d", {0, 400}},
    {"d-1", {0, 100}},
    {"h", {0, 72}},
    {"min", {0, 1440}},
    {"degC d", {0, 5000}},
    {"day of year", {1, 366}},
    {"mm", {0, 2000}},
    {"cm2", {0, 5000}},
    {"m2", {0, 10}},
    {"g", {0, 1000}},
    {"m s-1", {0, 60}},
    {"mmol m-2 s-1", {0, 1000}},
    {"mol m-2 s-1", {0, 5}},
    {"W m-2", {0, 2000}},
    {"W m-2 K-1", {0, 1000}},
    {"W m-1 K-1", {0, 10}},
});
}  // namespace

Limits limits_of(std::string_view unit) {
  for (const auto& known : units)
    if (known.unit == unit) return known.limits;
  return {};
}

EntryKeys keys_of(Section section, std::string_view name) {
  switch (section) {
    case Section::species:
      return {species_numbers, species_words};
    case Section::methods:
      return {methods_numbers, methods_words};
    case Section::covers:
      return {covers_numbers, covers_words};
    case Section::wraps:
      return {wraps_numbers, wraps_words};
    case Section::scion_states:
      return {scion_states_numbers, scion_states_words};
    case Section::hazards:
    case Section::shared:
      break;
  }
  for (const auto& group : groups_of(section))
    if (group.name == name) return group.keys;
  return {};
}

std::vector<std::string> fixed_names(Section section) {
  std::vector<std::string> names;
  for (const auto& group : groups_of(section)) names.emplace_back(group.name);
  return names;
}

}  // namespace graftcast::model_keys
