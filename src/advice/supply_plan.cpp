#include "advice/supply_plan.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "plan_relaxation.hpp"

namespace graftcast {

namespace {

using Eigen::VectorXd;

constexpr double exact_to = 1e-9;

VectorXd used_by(const OpenPlan& plan, const std::vector<int>& grafts) {
  VectorXd used = VectorXd::Zero(plan.in_store.size());
  for (std::size_t cell = 0; cell < grafts.size(); ++cell)
    if (grafts[cell] > 0) used += plan.cells[cell].needs * grafts[cell];
  return used;
}

double worth_of(const OpenPlan& plan, const std::vector<int>& grafts) {
  double worth = 0;
  for (std::size_t cell = 0; cell < grafts.size(); ++cell) worth += plan.cells[cell].worth * grafts[cell];
  return worth;
}

class Search {
 public:
  explicit Search(const OpenPlan& plan) : plan_(plan), best_(plan.cells.size(), 0) {}

  std::vector<int> run() {
    CellBounds bounds;
    for (std::size_t row = 0; row < plan_.rows(); ++row) {
      for (std::size_t cell = plan_.row_begin[row]; cell < plan_.row_begin[row + 1]; ++cell) {
        bounds.least.push_back(0);
        bounds.most.push_back(most_alone(cell, plan_.row_count[row]));
      }
    }
    branch(bounds);
    return best_;
  }

 private:
  int most_alone(std::size_t cell, int count) const {
    double most = count;
    for (Eigen::Index i = 0; i < plan_.in_store.size(); ++i)
      if (plan_.cells[cell].needs(i) > 0)
        most = std::min(most, plan_.in_store(i) / plan_.cells[cell].needs(i) + 1e-9);
    return static_cast<int>(std::floor(most));
  }

  void branch(CellBounds bounds) {
    const Relaxed relaxed = relaxed_plan(plan_, bounds, best_worth_ + exact_to);
    if (!relaxed.feasible || relaxed.bound <= best_worth_ + exact_to) return;
    offer(rounded(relaxed, bounds));
    if (relaxed.bound <= best_worth_ + exact_to) return;
    settle(relaxed, bounds);
    const std::optional<std::size_t> cell = most_divided(relaxed.grafts, bounds);
    if (!cell) {  // The relaxation is whole but not proven: split what is still open.
      const std::optional<std::size_t> open = first_open(bounds);
      if (!open) return;
      split(bounds, *open, static_cast<int>(std::lround(relaxed.grafts[*open])));
      return;
    }
    const double grafts = relaxed.grafts[*cell];
    split(bounds, *cell, static_cast<int>(std::floor(grafts)));
  }

  /// At most `low` in a cell, or more.
  void split(const CellBounds& bounds, std::size_t cell, int low) {
    low = std::clamp(low, bounds.least[cell], bounds.most[cell] - 1);
    CellBounds above = bounds;
    above.least[cell] = low + 1;
    if (row_least(above, plan_.cells[cell].row) <= plan_.row_count[plan_.cells[cell].row]) branch(above);
    CellBounds below = bounds;
    below.most[cell] = low;
    branch(below);
  }

  int row_least(const CellBounds& bounds, std::size_t row) const {
    return std::accumulate(bounds.least.begin() + static_cast<long>(plan_.row_begin[row]),
                           bounds.least.begin() + static_cast<long>(plan_.row_begin[row + 1]), 0);
  }

  /// Cells whose one graft more or less would cost all that the bound is above the best plan known.
  void settle(const Relaxed& relaxed, CellBounds& bounds) const {
    const double gap = relaxed.bound - best_worth_ - exact_to;
    for (std::size_t row = 0; row < plan_.rows(); ++row) settle_row(relaxed.prices, gap, row, bounds);
  }

  void settle_row(const VectorXd& prices, double gap, std::size_t row, CellBounds& bounds) const {
    const std::size_t begin = plan_.row_begin[row], end = plan_.row_begin[row + 1];
    double first = 0,
           second = 0;  // Profits of the best choices for a graft that has no need to choose; none is 0.
    std::size_t chosen = end;
    int other_room = 0;
    for (std::size_t cell = begin; cell < end; ++cell) {
      if (bounds.most[cell] == bounds.least[cell]) {
        if (bounds.least[cell] > 0) return;  // Too entangled to say by one graft.
        continue;
      }
      if (bounds.least[cell] > 0 || bounds.most[cell] < plan_.row_count[row]) return;
      ++other_room;
      const double profit = plan_.cells[cell].worth - prices.dot(plan_.cells[cell].needs);
      if (profit > first) {
        second = first;
        first = profit;
        chosen = cell;
      } else {
        second = std::max(second, profit);
      }
    }
    if (other_room == 0) return;
    for (std::size_t cell = begin; cell < end; ++cell) {
      if (cell == chosen || bounds.most[cell] == 0) continue;
      const double profit = plan_.cells[cell].worth - prices.dot(plan_.cells[cell].needs);
      if (first - profit > gap) bounds.most[cell] = 0;
    }
    if (chosen != end && first - second > gap)
      bounds.least[chosen] = bounds.most[chosen] = plan_.row_count[row];
  }

  std::optional<std::size_t> most_divided(const std::vector<double>& grafts, const CellBounds& bounds) const {
    std::optional<std::size_t> most;
    double least_off = 1e-7;
    for (std::size_t cell = 0; cell < grafts.size(); ++cell) {
      if (bounds.least[cell] == bounds.most[cell]) continue;
      const double off = std::abs(grafts[cell] - std::round(grafts[cell]));
      if (off > least_off) {
        least_off = off;
        most = cell;
      }
    }
    return most;
  }

  static std::optional<std::size_t> first_open(const CellBounds& bounds) {
    for (std::size_t cell = 0; cell < bounds.least.size(); ++cell)
      if (bounds.least[cell] < bounds.most[cell]) return cell;
    return std::nullopt;
  }

  /// Whole grafts of the relaxation, then what still fits, the most profitable first.
  std::vector<int> rounded(const Relaxed& relaxed, const CellBounds& bounds) const {
    std::vector<int> grafts(plan_.cells.size());
    std::vector<int> left = plan_.row_count;
    for (std::size_t cell = 0; cell < grafts.size(); ++cell) {
      grafts[cell] = std::clamp(static_cast<int>(std::floor(relaxed.grafts[cell] + 1e-7)), bounds.least[cell],
                                bounds.most[cell]);
      left[plan_.cells[cell].row] -= grafts[cell];
    }
    std::vector<std::size_t> order(plan_.cells.size());
    std::iota(order.begin(), order.end(), 0U);
    std::vector<double> profit(order.size());
    for (std::size_t cell = 0; cell < order.size(); ++cell)
      profit[cell] = plan_.cells[cell].worth - relaxed.prices.dot(plan_.cells[cell].needs);
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return profit[a] > profit[b]; });
    VectorXd rest = plan_.in_store - used_by(plan_, grafts);
    for (const std::size_t cell : order) {
      const PlanCell& option = plan_.cells[cell];
      while (left[option.row] > 0 && option.worth > 0 && ((rest - option.needs).array() >= -1e-9).all()) {
        ++grafts[cell];
        --left[option.row];
        rest -= option.needs;
      }
    }
    return grafts;
  }

  void offer(const std::vector<int>& grafts) {
    if (((used_by(plan_, grafts) - plan_.in_store).array() > 1e-7).any()) return;
    const double worth = worth_of(plan_, grafts);
    if (worth <= best_worth_) return;
    best_worth_ = worth;
    best_ = grafts;
  }

  const OpenPlan& plan_;
  std::vector<int> best_;
  double best_worth_ = 0;
};

void check(const PlanProblem& problem) {
  const auto refuse = [](const char* name, double value) {
    throw RangeError(fmt::format("the {} {} is out of range", name, value), "give 0 or more");
  };
  for (const double store : problem.in_store)
    if (!(store >= 0)) refuse("store", store);
  for (const PlanRow& row : problem.rows) {
    if (row.count < 0) refuse("count", row.count);
    for (const PlanOption& option : row.options) {
      if (option.needs.size() != problem.in_store.size())
        throw RangeError(fmt::format("an option has {} needs", option.needs.size()),
                         fmt::format("give {}, one a resource", problem.in_store.size()));
      for (const double need : option.needs)
        if (!(need >= 0)) refuse("need", need);
    }
  }
}

OpenPlan opened(const PlanProblem& problem) {
  OpenPlan open;
  const auto resources = static_cast<Eigen::Index>(problem.in_store.size());
  open.in_store = Eigen::Map<const VectorXd>(problem.in_store.data(), resources);
  for (std::size_t row = 0; row < problem.rows.size(); ++row) {
    open.row_begin.push_back(open.cells.size());
    open.row_count.push_back(problem.rows[row].count);
    for (std::size_t option = 0; option < problem.rows[row].options.size(); ++option) {
      const PlanOption& given = problem.rows[row].options[option];
      if (given.worth > 0)
        open.cells.push_back(
            {row, option, given.worth, Eigen::Map<const VectorXd>(given.needs.data(), resources)});
    }
  }
  open.row_begin.push_back(open.cells.size());
  return open;
}

}  // namespace

Plan best_plan(const PlanProblem& problem) {
  check(problem);
  const OpenPlan open = opened(problem);
  const std::vector<int> grafts = Search(open).run();
  Plan plan;
  for (const PlanRow& row : problem.rows) plan.counts.emplace_back(row.options.size(), 0);
  for (std::size_t cell = 0; cell < grafts.size(); ++cell)
    plan.counts[open.cells[cell].row][open.cells[cell].option] = grafts[cell];
  plan.worth = worth_of(open, grafts);
  return plan;
}

}  // namespace graftcast
