#pragma once

#include <string>
#include <vector>

#include "advice/actions.hpp"
#include "advice/morning.hpp"

namespace graftcast {

/// What the sentences about one graft are drawn from.
struct ReasonInput {
  const GraftRun& run;
  const UnionNow& now;
  const std::vector<UnionDay>& coming;
  const RiskOfTreatment& risk;
  const std::string& cause;
  double water_now, water_low;
  double bud_clock;
};

/// `drying`, `heat`, `cold` or `spent-stores`, whichever takes most; empty below `negligible`.
std::string main_cause(const RiskOfTreatment& risk, double negligible);

/// Why, in sentences: the main cause with its numbers first.
std::vector<std::string> reasons(const ReasonInput& input);

}  // namespace graftcast
