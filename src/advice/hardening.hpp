#pragma once
// Hardening a graft off: from under its bag into the open, in steps that heat and dry air postpone.

#include <span>
#include <vector>

#include "advice/aftercare.hpp"
#include "ensemble/graft_run.hpp"

namespace graftcast {

/// The steps still to come of a graft that stands under a bag, or whose bag came off within the last days, as
/// far as they fall before hour `end` of the season. Each falls on the first day, two days or so after the
/// one before it, on which the union drinks and which, with the day after it, gives neither a heat nor a
/// drying flag with the step taken: the graft is run again with it. Shade stays until a week after the bag.
std::vector<HardeningStep> hardening_steps(const GraftRun& run, const UnionNow& now,
                                           std::span<const DiaryLine> lines, std::size_t end);

}  // namespace graftcast
