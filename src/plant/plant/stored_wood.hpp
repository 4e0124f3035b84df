#pragma once
// Scion wood in store: what it has lost by the day it is grafted, and until when it is worth using.

#include <string>

#include "graftcast/wood_limit.hpp"
#include "parameters/models.hpp"
#include "records/ledger.hpp"

namespace graftcast {

/// A stick after some days in store. Both are shares: of the full store of water, and of the sugar and starch
/// whose loss is median lethal.
struct WoodState {
  double water = 1;
  double stores_spent = 0;
};

/// `days` (0 and more) after it was cut. It dries as a scion does, by its bark's conductance under its wrap
/// and the deficit of the store's air at sea level (models/union.json, section "wood"), and breathes its
/// stores away as in section "stores"; with its foot in water it stays full.
WoodState wood_after(const StoredWood& wood, double days, const ScionState& scion_state,
                     const Models& models);

/// Until when wood is worth using.
struct WoodUse {
  LocalDay last_day{};
  WoodLimit limit = WoodLimit::stores;
};
WoodUse wood_use(const StoredWood& wood, const ScionState& scion_state, const Models& models);

}  // namespace graftcast
