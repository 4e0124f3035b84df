#pragma once
// What of a loss falls to which factor.

#include <vector>

#include "ensemble/counterfactual.hpp"

namespace graftcast {

/// One factor tried by itself.
struct FactorTrial {
  Factor factor{};
  double without = 0;  ///< Loss with it alone made harmless.
  double alone = 0;    ///< Loss with it alone as it was and all others harmless.
};

struct FactorShare {
  Factor factor{};
  double share = 0;
};

struct LossShares {
  double all = 0;                   ///< Loss as it was.
  double none = 0;                  ///< Loss with every factor harmless.
  std::vector<FactorTrial> trials;  ///< One a factor.
  std::vector<FactorShare> shares;  ///< Of those that apply; they add up to all - none.
};

/// Exact Shapley values over the factors that apply: those that move the loss by `applies_loss` when made
/// harmless by themselves, or when they alone stay as they were (two that each suffice move nothing by
/// themselves), and further ones where these together leave a gap as wide to the loss as it was. Factors that
/// do not apply are harmless throughout, save in the loss as it was.
LossShares loss_shares(const Counterfactuals& runs, double applies_loss, int threads);

}  // namespace graftcast
