#include "plant/stage.hpp"

#include <array>

namespace graftcast {

std::string_view stage_name(Stage stage) {
  constexpr std::array<std::string_view, 5> names{"fresh", "callusing", "bridged", "drinking", "firm"};
  return names[static_cast<std::size_t>(stage)];
}

StageLimits stage_limits(const Models& models, const Species& species) {
  return {models.healing.fresh_until, models.healing.bridged_at, species.vascular_days / species.bridge_days,
          models.healing.firm_at};
}

Stage stage_of(const StageLimits& limits, double healing) {
  if (healing >= limits.firm_from) return Stage::firm;
  if (healing >= limits.drinking_from) return Stage::drinking;
  if (healing >= limits.bridged_from) return Stage::bridged;
  if (healing >= limits.callusing_from) return Stage::callusing;
  return Stage::fresh;
}

}  // namespace graftcast
