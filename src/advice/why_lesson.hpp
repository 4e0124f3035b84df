#pragma once
// What the explanation of one graft as a lesson rests on.

#include "ensemble/graft_run.hpp"
#include "graftcast/why.hpp"
#include "loss_shares.hpp"

namespace graftcast {

/// `graft` is complete but for its lesson.
WhyLesson lesson_of(const GraftWhy& graft, const GraftRun& run, const LossShares& shares,
                    const UnionStates& last);

}  // namespace graftcast
