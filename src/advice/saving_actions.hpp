#pragma once
// What could have been done, and when at the latest.

#include <vector>

#include "advice/why.hpp"

namespace graftcast {

/// Everything single that could have been done by `runs.end()` and that no rule forbade then, each done at
/// the best of the moments at which it could be (grafting, and every later change of the graft's setting). In
/// table order, `by` not yet searched for (as `from`). `days` are those of the graft.
std::vector<SavingAction> tried_actions(const Counterfactuals& runs, const GraftRecord& record,
                                        const std::vector<WhyDay>& days);

/// Of those, the ones that would have saved it, the cheapest first, with their latest moments: they take off
/// at least `saved_share` of the loss, and `worth_share` of what the best one takes off.
std::vector<SavingAction> saving_actions(const Counterfactuals& runs, const GraftRecord& record,
                                         const std::vector<WhyDay>& days, double loss);

}  // namespace graftcast
