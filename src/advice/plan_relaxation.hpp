#pragma once
// The linear relaxation of a supply plan: fractions of grafts may be treated.

#include <limits>
#include <vector>

#include <Eigen/Dense>

namespace graftcast {

/// One option of one row, with how many grafts get it at least and at most.
struct PlanCell {
  std::size_t row = 0, option = 0;
  double worth = 0;
  Eigen::VectorXd needs;
};

/// A plan problem without what is settled already: cells in the order of their rows.
struct OpenPlan {
  Eigen::VectorXd in_store;
  std::vector<PlanCell> cells;
  std::vector<std::size_t> row_begin;  ///< Of each row, its first cell; one more at the end.
  std::vector<int> row_count;

  std::size_t rows() const { return row_count.size(); }
};

/// Bounds on the number of grafts in each cell.
struct CellBounds {
  std::vector<int> least, most;
};

struct Relaxed {
  bool feasible = false;
  double bound = -std::numeric_limits<double>::infinity();  ///< No plan within the bounds is worth more.
  Eigen::VectorXd prices;      ///< Of each resource, 0 or more; `bound` holds for them.
  std::vector<double> grafts;  ///< In each cell.
};

/// What the rows do when each resource has a price: the best for each row by itself.
struct PricedPlan {
  double profit = 0;  ///< Worth less the price of what is used.
  double worth = 0;
  Eigen::VectorXd used;
  std::vector<int> grafts;
};
PricedPlan priced_plan(const OpenPlan& plan, const CellBounds& bounds, const Eigen::VectorXd& prices);

/// Solves the relaxation; stops early once nothing above `floor` can be found.
Relaxed relaxed_plan(const OpenPlan& plan, const CellBounds& bounds, double floor);

}  // namespace graftcast
