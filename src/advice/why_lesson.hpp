#pragma once
// The explanation of one graft as a lesson: the reasoning step by step, with the sources of its numbers.

#include <vector>

#include "advice/why.hpp"
#include "ensemble/graft_run.hpp"
#include "loss_shares.hpp"

namespace graftcast {

/// `graft` is complete but for its lesson.
std::vector<LessonStep> lesson_of(const GraftWhy& graft, const GraftRun& run, const LossShares& shares,
                                  const UnionStates& last);

}  // namespace graftcast
