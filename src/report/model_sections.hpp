#pragma once
// The sections of the models in the order in which they are shown (private to the layer).

#include <array>
#include <map>
#include <string>

#include "parameters/models.hpp"
#include "text/tr.hpp"

namespace graftcast {

struct ModelSection {
  std::string heading;  ///< `covers`
  std::string one;      ///< `cover`
  const std::map<std::string, Entry>* entries;
};

inline std::array<ModelSection, 7> sections_of(const Models& models) {
  return {{{trc("section of models", "species"), tr("species"), &models.species},
           {tr("methods"), tr("method"), &models.methods},
           {tr("covers"), tr("cover"), &models.covers},
           {tr("wraps"), tr("wrap"), &models.wraps},
           {tr("scion states"), tr("scion state"), &models.scion_states},
           {tr("hazards"), tr("hazard"), &models.hazards},
           {tr("shared constants"), tr("shared constants of"), &models.shared}}};
}

}  // namespace graftcast
