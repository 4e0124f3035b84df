#pragma once
// Species and groups of species that are grafted, and what frost kills of them.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "parameters/entry.hpp"

namespace graftcast {

enum class LeafHabit { deciduous, evergreen };
constexpr std::string_view choices_of(LeafHabit) {
  return "deciduous evergreen";
}

/// Where a species is at home.
enum class HomeClimate { temperate, subtropical, tropical };
constexpr std::string_view choices_of(HomeClimate) {
  return "temperate subtropical tropical";
}

/// A species; what each number means stands in its table (species.cpp).
struct Species : KeyedEntry<Species> {
  static const KeyTable table;

  std::string scion_state;  ///< Usual state of its scion wood, an entry of `scion_states`.
  LeafHabit growth = LeafHabit::deciduous;
  bool bleeds = false;
  std::string cold_table;
  HomeClimate climate = HomeClimate::temperate;
  std::string quarantine;

  Parameter callus_lower_c, callus_optimum_c, callus_upper_c;
  Parameter bridge_days, vascular_days;
  Parameter bud_base_c, bud_push_degree_days;
  Parameter heat_reference_c;
  Parameter degree_day_base_c, degree_day_upper_c;
  Parameter window_start_doy_north, window_end_doy_north;
  std::optional<Parameter> second_window_start_doy_north, second_window_end_doy_north;
  Parameter bark_slip_degree_days, bark_slip_base_c;

  /// A season of grafting in days of the year, north of the equator; it may run over New Year.
  struct Window {
    double start_doy, end_doy;
  };
  std::vector<Window> windows_north() const;
};

/// A row of a cold table: temperatures that kill 10 % and 90 % of wood and buds from one stage on.
struct ColdRow {
  std::string stage;          ///< For people: "green tip".
  double bud_stage_from = 0;  ///< Bud clock B from which the row holds; 1 is bud push.
  Parameter t10_c, t90_c;     ///< 10 % and 90 % killed, degC; t90 is the colder.
};

}  // namespace graftcast
