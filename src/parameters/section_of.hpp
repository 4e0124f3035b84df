#pragma once
// The sections of models/*.json beside the members of Models that hold them.

#include <array>

#include "model_keys.hpp"
#include "parameters/models.hpp"

namespace graftcast {

inline constexpr auto all_sections = std::to_array<model_keys::Section>(
    {model_keys::Section::species, model_keys::Section::methods, model_keys::Section::covers,
     model_keys::Section::wraps, model_keys::Section::scion_states, model_keys::Section::hazards,
     model_keys::Section::shared});

constexpr std::string_view section_name(model_keys::Section section) {
  return model_keys::sections.at(static_cast<std::size_t>(section));
}

/// The map of `models` (const or not) for a section.
template <typename AnyModels>
auto& section_of(AnyModels& models, model_keys::Section section) {
  using model_keys::Section;
  switch (section) {
    case Section::species:
      return models.species;
    case Section::methods:
      return models.methods;
    case Section::covers:
      return models.covers;
    case Section::wraps:
      return models.wraps;
    case Section::scion_states:
      return models.scion_states;
    case Section::hazards:
      return models.hazards;
    case Section::shared:
      break;
  }
  return models.shared;
}

/// The keys of a map, in their order.
template <typename Map>
std::vector<std::string> keys_in(const Map& map) {
  std::vector<std::string> keys;
  keys.reserve(map.size());
  for (const auto& item : map) keys.push_back(item.first);
  return keys;
}

}  // namespace graftcast
