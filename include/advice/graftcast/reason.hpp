#pragma once
// Why a graft stands where it does on the morning's list: what is coming, what was noted, what is assumed.

#include <string>
#include <variant>
#include <vector>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// Most likely it is dead.
struct LikelyLost {
  double alive = 0;  ///< Chance that it lives, 0..1.
};
struct HeatAhead {
  double tissue_c = 0, air_c = 0;  ///< Greatest of the hottest day [degC].
  LocalDay day{};
  std::string cover;  ///< What it stands under, a key of models/covers.json.
};
/// Water as share of the full store, 0..1.
struct DryingAhead {
  double water_now = 0, water_low = 0;
  double lost_water = 0;  ///< At which half are lost.
  LocalDay day{};         ///< The day that takes most.
};
struct ColdAhead {
  double tissue_c = 0;  ///< Least [degC].
  LocalDay day{};
};
/// Its stores run out before the vessels join.
struct StoresRunOut {};
/// Wind that can break or shift it.
struct GustsAhead {
  double gust_m_s = 0;
  LocalDay day{};
};
/// The buds move before the vessels join.
struct BudsBeforeVessels {};
struct PotIsDry {
  double water = 0;  ///< Share of what the pot holds, 0..1.
};
/// What was noted does not fit the weather that it had.
struct NotesContradict {};
/// No watering is noted: watered at grafting and weekly is assumed.
struct WateringAssumed {};
struct CellsAssumed {
  std::vector<std::string> columns;  ///< Of grafts.csv: empty, and they matter.
};
/// Nothing that may be done changes much.
struct NothingHelps {};

using Reason =
    std::variant<LikelyLost, HeatAhead, DryingAhead, ColdAhead, StoresRunOut, GustsAhead, BudsBeforeVessels,
                 PotIsDry, NotesContradict, WateringAssumed, CellsAssumed, NothingHelps>;

}  // namespace graftcast
