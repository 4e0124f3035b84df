#pragma once
// What the reasons for a morning's advice are drawn from.

#include <optional>
#include <vector>

#include "advice/actions.hpp"
#include "graftcast/cause.hpp"
#include "graftcast/reason.hpp"

namespace graftcast {

struct ReasonInput {
  const GraftRun& run;
  const UnionNow& now;
  const std::vector<UnionDay>& coming;
  std::optional<Cause> cause;
  double water_now, water_low;
  double bud_clock;
};

/// Whichever of drying, heat, cold and spent stores takes most; nothing below `negligible`.
std::optional<Cause> main_cause(const RiskOfTreatment& risk, double negligible);

/// The main cause with its numbers first.
std::vector<Reason> reasons(const ReasonInput& input);

}  // namespace graftcast
