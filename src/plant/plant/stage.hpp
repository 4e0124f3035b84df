#pragma once
// Where a union stands, by its healing.

#include "graftcast/stage.hpp"
#include "parameters/models.hpp"

namespace graftcast {

/// Healing at which each stage begins.
struct StageLimits {
  double callusing_from = 0.25, bridged_from = 1, drinking_from = 1.6, firm_from = 3;
};
/// From section "healing" of models/union.json; drinking begins at the species' vascular over bridge days.
StageLimits stage_limits(const Models& models, const Species& species);

Stage stage_of(const StageLimits& limits, double healing);

}  // namespace graftcast
