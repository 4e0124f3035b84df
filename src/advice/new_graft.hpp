#pragma once
// What a graft made anew would come to.

#include "advice/wait_or_regraft.hpp"
#include "ensemble/graft_run.hpp"

namespace graftcast {

/// The same graft as `run`'s, of fresh wood, made tomorrow where it stands now and under the cover it began
/// with; without the windows.
NewGraft new_graft(const GraftRun& run, const GraftRow& row);

}  // namespace graftcast
