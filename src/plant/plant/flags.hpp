#pragma once
// Flags of a union's day: what made it a hard one.

#include "graftcast/calendar_time.hpp"
#include "graftcast/day_flag.hpp"
#include "parameters/models.hpp"
#include "plant/stage.hpp"

namespace graftcast {

/// A local day as one graft lived it, beside the air in the open.
struct UnionDay {
  LocalDay day{};
  Stage stage = Stage::fresh;
  double tissue_max_c = 0, tissue_min_c = 0;
  double air_max_c = 0, air_min_c = 0;
  double vpd_max_kpa = 0;   ///< In the open.
  double net_loss = 0;      ///< Share of the full water store that the day took (negative: gained).
  double mouldy_hours = 0;  ///< Hours bagged, wet and within the mould's temperatures.
  double rain_mm = 0;       ///< Reaching the graft.
  double gust_m_s = 0;
  bool union_unsealed = false;  ///< Rain can run into the union.
  double shoot_share = 0;       ///< Leaf share of the shoot, what the wind takes hold of.
  bool staked = false;          ///< Tied to a stake or splint.
  bool warm_species = false;
};

/// The flags that apply; thresholds by stage from models/hazards.json.
DayFlags day_flags(const UnionDay& day, const Models& models);

}  // namespace graftcast
