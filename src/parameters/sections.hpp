#pragma once
// The sections of models/*.json beside the members of Models that hold them.

#include <string>
#include <type_traits>
#include <vector>

#include "parameters/models.hpp"

namespace graftcast {

/// Calls `visit` with the name and the map of each section whose entries are free.
template <typename AnyModels, typename Visit>
void for_each_map(AnyModels& models, Visit visit) {
  visit("species", models.species);
  visit("methods", models.methods);
  visit("covers", models.covers);
  visit("wraps", models.wraps);
  visit("scion_states", models.scion_states);
}

template <typename AnyModels>
using GroupsOf = std::vector<std::conditional_t<std::is_const_v<AnyModels>, const Entry*, Entry*>>;

/// The fixed groups of the section `hazards`.
template <typename AnyModels>
GroupsOf<AnyModels> hazards_of(AnyModels& m) {
  GroupsOf<AnyModels> groups{&m.heat_day,   &m.drying_day, &m.cold_day, &m.mould_day,
                             &m.soaked_day, &m.wind_day,   &m.urgency,  &m.heat_index};
  for (auto& sign : m.signs) groups.push_back(&sign);
  groups.push_back(&m.cautions);
  return groups;
}

/// The fixed groups of the section `shared`.
template <typename AnyModels>
GroupsOf<AnyModels> shared_of(AnyModels& m) {
  return {&m.climate,         &m.water,    &m.healing,     &m.buds,    &m.heat,     &m.stores,
          &m.stock,           &m.forecast, &m.observation, &m.actions, &m.learning, &m.when,
          &m.monthly_climate, &m.spots,    &m.why,         &m.wood,    &m.regraft,  &m.aftercare};
}

/// The keys of a map, in their order.
template <typename Map>
std::vector<std::string> keys_in(const Map& map) {
  std::vector<std::string> keys;
  keys.reserve(map.size());
  for (const auto& item : map) keys.emplace_back(item.first);
  return keys;
}

}  // namespace graftcast
