#pragma once
// The sections of the models in the order in which they are shown (private to the layer).

#include <array>
#include <map>
#include <string>
#include <string_view>

#include "parameters/models.hpp"

namespace graftcast {

struct ModelSection {
  std::string_view heading;  ///< "covers"
  std::string_view one;      ///< "cover"
  const std::map<std::string, Entry>* entries;
};

inline std::array<ModelSection, 7> sections_of(const Models& models) {
  return {{{"species", "species", &models.species},
           {"methods", "method", &models.methods},
           {"covers", "cover", &models.covers},
           {"wraps", "wrap", &models.wraps},
           {"scion states", "scion state", &models.scion_states},
           {"hazards", "hazard", &models.hazards},
           {"shared constants", "shared constants of", &models.shared}}};
}

}  // namespace graftcast
