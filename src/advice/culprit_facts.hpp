#pragma once
// The figures behind each culprit.

#include "ensemble/graft_run.hpp"
#include "graftcast/why.hpp"

namespace graftcast {

/// What speaks for `culprit`: the day that shows it best, in the open and at the graft. `graft` has its days,
/// dates and state.
CulpritFact culprit_fact(const GraftWhy& graft, const GraftRun& run, Culprit culprit);

}  // namespace graftcast
