#include "plan_relaxation.hpp"

#include <algorithm>
#include <cmath>

namespace graftcast {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double tolerance = 1e-10;
constexpr int most_rounds = 400;

/// Hands what is left of a row's count to its cells, the most profitable first.
void fill_row(const OpenPlan& plan, const CellBounds& bounds, const std::vector<double>& profit,
              std::size_t row, std::vector<int>& grafts) {
  int left = plan.row_count[row];
  for (std::size_t cell = plan.row_begin[row]; cell < plan.row_begin[row + 1]; ++cell) {
    grafts[cell] = bounds.least[cell];
    left -= bounds.least[cell];
  }
  while (left > 0) {
    std::size_t best = plan.row_begin[row + 1];
    for (std::size_t cell = plan.row_begin[row]; cell < plan.row_begin[row + 1]; ++cell) {
      if (profit[cell] <= 0 || grafts[cell] >= bounds.most[cell]) continue;
      if (best == plan.row_begin[row + 1] || profit[cell] > profit[best]) best = cell;
    }
    if (best == plan.row_begin[row + 1]) return;
    const int more = std::min(left, bounds.most[best] - grafts[best]);
    grafts[best] += more;
    left -= more;
  }
}

/// The mixture of priced plans that is worth most within the stores: a simplex method over few rows and the
/// columns that prices bring up. The last row of the basis says that the shares of the plans add up to one.
class Mixture {
 public:
  Mixture(const VectorXd& in_store, const PricedPlan& frugal)
      : rows_(in_store.size() + 1), right_(rows_), basis_(static_cast<std::size_t>(rows_)) {
    right_ << in_store, 1.0;
    plans_.push_back(frugal);
    for (Index i = 0; i + 1 < rows_; ++i) basis_[static_cast<std::size_t>(i)] = slack(i);
    basis_.back() = 0;
    refresh();
  }

  /// Price of each resource, and last the worth that a plan must beat.
  VectorXd duals() const { return inverse_.transpose() * basis_worth(); }
  double worth() const { return basis_worth().dot(shares_); }

  /// The slack of a resource with a negative price enters first. True when one did.
  bool enter_slack(const VectorXd& duals) {
    if (rows_ == 1) return false;  // Nothing is counted, so nothing has a price.
    Index at = 0;
    if (duals.head(rows_ - 1).minCoeff(&at) > -tolerance) return false;
    return enter(slack(at));
  }

  bool enter_plan(PricedPlan plan) {
    plans_.push_back(std::move(plan));
    return enter(static_cast<long>(plans_.size()) - 1);
  }

  std::vector<double> grafts() const {
    std::vector<double> grafts(plans_.front().grafts.size(), 0.0);
    for (Index i = 0; i < rows_; ++i) {
      const long column = basis_[static_cast<std::size_t>(i)];
      if (column < 0 || shares_(i) <= 0) continue;
      const std::vector<int>& of_plan = plans_[static_cast<std::size_t>(column)].grafts;
      for (std::size_t cell = 0; cell < grafts.size(); ++cell) grafts[cell] += shares_(i) * of_plan[cell];
    }
    return grafts;
  }

 private:
  static long slack(Index resource) { return -1 - static_cast<long>(resource); }

  VectorXd column(long number) const {
    VectorXd column = VectorXd::Zero(rows_);
    if (number < 0) {
      column(static_cast<Index>(-1 - number)) = 1;
    } else {
      column << plans_[static_cast<std::size_t>(number)].used, 1.0;
    }
    return column;
  }

  VectorXd basis_worth() const {
    VectorXd worth(rows_);
    for (Index i = 0; i < rows_; ++i) {
      const long number = basis_[static_cast<std::size_t>(i)];
      worth(i) = number < 0 ? 0.0 : plans_[static_cast<std::size_t>(number)].worth;
    }
    return worth;
  }

  void refresh() {
    MatrixXd basis(rows_, rows_);
    for (Index i = 0; i < rows_; ++i) basis.col(i) = column(basis_[static_cast<std::size_t>(i)]);
    inverse_ = basis.fullPivLu().inverse();
    shares_ = (inverse_ * right_).cwiseMax(0.0);
  }

  /// False when the column leaves the basis singular or the mixture without limit.
  bool enter(long number) {
    const VectorXd change = inverse_ * column(number);
    Index leaves = -1;
    double least = std::numeric_limits<double>::infinity();
    for (Index i = 0; i < rows_; ++i) {
      if (change(i) <= tolerance) continue;
      const double ratio = shares_(i) / change(i);
      if (ratio < least - tolerance ||
          (ratio < least + tolerance && leaves >= 0 && change(i) > change(leaves))) {
        least = std::min(least, ratio);
        leaves = i;
      }
    }
    if (leaves < 0) return false;
    basis_[static_cast<std::size_t>(leaves)] = number;
    refresh();
    return true;
  }

  Index rows_;
  VectorXd right_;
  std::vector<long> basis_;  // Number of a plan, or a slack.
  std::vector<PricedPlan> plans_;
  MatrixXd inverse_;
  VectorXd shares_;
};

}  // namespace

PricedPlan priced_plan(const OpenPlan& plan, const CellBounds& bounds, const VectorXd& prices) {
  std::vector<double> profit(plan.cells.size());
  for (std::size_t cell = 0; cell < profit.size(); ++cell)
    profit[cell] = plan.cells[cell].worth - prices.dot(plan.cells[cell].needs);
  PricedPlan priced;
  priced.used = VectorXd::Zero(plan.in_store.size());
  priced.grafts.resize(profit.size());
  for (std::size_t row = 0; row < plan.rows(); ++row) fill_row(plan, bounds, profit, row, priced.grafts);
  for (std::size_t cell = 0; cell < profit.size(); ++cell) {
    if (priced.grafts[cell] == 0) continue;
    priced.profit += profit[cell] * priced.grafts[cell];
    priced.worth += plan.cells[cell].worth * priced.grafts[cell];
    priced.used += plan.cells[cell].needs * priced.grafts[cell];
  }
  return priced;
}

Relaxed relaxed_plan(const OpenPlan& plan, const CellBounds& bounds, double floor) {
  Relaxed relaxed;
  // Prices that nothing can pay leave what must be.
  const PricedPlan frugal = [&] {
    OpenPlan worthless = plan;
    for (PlanCell& cell : worthless.cells) cell.worth = 0;
    PricedPlan least = priced_plan(worthless, bounds, VectorXd::Zero(plan.in_store.size()));
    for (std::size_t cell = 0; cell < plan.cells.size(); ++cell)
      least.worth += plan.cells[cell].worth * least.grafts[cell];
    return least;
  }();
  if (((frugal.used - plan.in_store).array() > 1e-9).any()) return relaxed;
  relaxed.feasible = true;
  relaxed.bound = std::numeric_limits<double>::infinity();
  Mixture mixture(plan.in_store, frugal);
  for (int round = 0; round < most_rounds; ++round) {
    VectorXd duals = mixture.duals();
    if (mixture.enter_slack(duals)) continue;
    const VectorXd prices = duals.head(duals.size() - 1).cwiseMax(0.0);
    PricedPlan priced = priced_plan(plan, bounds, prices);
    const double bound = priced.profit + prices.dot(plan.in_store);
    if (bound < relaxed.bound) {
      relaxed.bound = bound;
      relaxed.prices = prices;
    }
    const double scale = 1 + std::abs(relaxed.bound);
    if (relaxed.bound <= floor || relaxed.bound - mixture.worth() <= 1e-11 * scale) break;
    if (priced.profit - duals(duals.size() - 1) <= 1e-12 * scale || !mixture.enter_plan(std::move(priced)))
      break;
  }
  relaxed.grafts = mixture.grafts();
  return relaxed;
}

}  // namespace graftcast
