#include "advice/wood_in_store.hpp"

#include <algorithm>

#include "plant/stored_wood.hpp"

namespace graftcast {

namespace {

std::string species_of(const WoodRow& wood, const std::vector<GraftRecord>& grafts) {
  if (!wood.species.empty()) return wood.species;
  const auto made =
      std::ranges::find(grafts, wood.id, [](const GraftRecord& graft) { return graft.row.scion; });
  return made == grafts.end() ? std::string() : made->row.species;
}

WoodInStore told(const WoodRow& row, const std::vector<GraftRecord>& grafts, const Models& models,
                 LocalDay today) {
  WoodInStore told{row.id, row.scion, species_of(row, grafts), row.stored, row.cut_on, row.count, {}, {}, {}};
  if (told.species.empty()) return told;
  const ScionState& state = models.scion_states.at(models.species_named(told.species).scion_state);
  const StoredWood wood{row.cut_on, row.stored, row.wrap};
  const WoodUse use = wood_use(wood, state, models);
  told.water = wood_after(wood, static_cast<double>((today - row.cut_on).count()), state, models).water;
  told.use_by = use.last_day;
  told.limit = use.limit;
  return told;
}

}  // namespace

std::vector<WoodInStore> wood_in_store(const std::vector<WoodRow>& wood,
                                       const std::vector<GraftRecord>& grafts, const Models& models,
                                       LocalDay today) {
  std::vector<WoodInStore> left;
  for (const WoodRow& row : wood)
    if (row.cut_on <= today && row.count.value_or(1) > 0) left.push_back(told(row, grafts, models, today));
  return left;
}

}  // namespace graftcast
