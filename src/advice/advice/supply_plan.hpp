#pragma once
// Who gets which cover when there is not enough for all: the exact best assignment of limited supplies.

#include <vector>

namespace graftcast {

/// One way to treat a graft of a row. `worth` is what it saves for one graft (any unit, above 0 to be worth
/// doing); `needs` is how much of each resource it takes for one graft, in the order of
/// `PlanProblem::in_store`, each 0 or more.
struct PlanOption {
  double worth = 0;
  std::vector<double> needs;
};

/// Grafts that are alike: each of the `count` gets one of the options or none.
struct PlanRow {
  int count = 1;
  std::vector<PlanOption> options;
};

struct PlanProblem {
  std::vector<double> in_store;  ///< Of each resource, 0 or more.
  std::vector<PlanRow> rows;
};

/// `counts[row][option]` grafts of a row get an option.
struct Plan {
  double worth = 0;
  std::vector<std::vector<int>> counts;
};

/// The plan of greatest worth, exact to within 1e-9 of it: a branch and bound over the linear relaxation,
/// which column generation solves (Dantzig & Wolfe 1960, Decomposition principle for linear programs,
/// Operations Research 8:101-111). Error: RangeError for a negative count, need or store, or a row whose
/// needs are not as many as the resources.
Plan best_plan(const PlanProblem& problem);

}  // namespace graftcast
