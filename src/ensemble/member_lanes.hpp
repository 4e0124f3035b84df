#pragma once
// Members of a pack as lanes (private to the layer).

#include "plant/union_hour.hpp"
#include "science/lanes.hpp"

namespace graftcast {

/// Some lanes of a pack, the first of them `first`.
template <int width>
UnionMember<Lanes<width>> lanes_of(const UnionMember<Pack>& pack, int first) {
  const auto of = [first](const Pack& values) { return Lanes<width>::load(values.data() + first); };
  return {of(pack.bridge_days),
          of(pack.vascular_healing),
          of(pack.callus_lower_c),
          of(pack.callus_optimum_c),
          of(pack.callus_upper_c),
          of(pack.base_supply_per_day),
          of(pack.joined_supply_per_day),
          of(pack.cambium_match),
          of(pack.bark_conductance_mol),
          of(pack.bark_area_m2),
          of(pack.bare_conductance_area),
          of(pack.bare_area_m2),
          of(pack.own_leaf_area_m2),
          of(pack.shoot_leaf_area_m2),
          of(pack.water_store_mol),
          of(pack.stops_water),
          of(pack.full_water),
          of(pack.bud_base_c),
          of(pack.bud_push_degree_days),
          of(pack.heat_recovery_days),
          of(pack.stores_days)};
}

}  // namespace graftcast
