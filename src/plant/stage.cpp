#include "plant/stage.hpp"

#include <array>

namespace graftcast {

std::string_view stage_name(Stage stage) {
  constexpr std::array<std::string_view, 5> names{"fresh", "callusing", "bridged", "drinking", "firm"};
  return names[static_cast<std::size_t>(stage)];
}

StageLimits stage_limits(const Models& models, const Entry& species) {
  const Entry& healing = models.shared.at("healing");
  return {healing.value("fresh_until"), healing.value("bridged_at"),
          species.value("vascular_days") / species.value("bridge_days"), healing.value("firm_at")};
}

Stage stage_of(const StageLimits& limits, double healing) {
  if (healing >= limits.firm_from) return Stage::firm;
  if (healing >= limits.drinking_from) return Stage::drinking;
  if (healing >= limits.bridged_from) return Stage::bridged;
  if (healing >= limits.callusing_from) return Stage::callusing;
  return Stage::fresh;
}

}  // namespace graftcast
