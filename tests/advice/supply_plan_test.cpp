#include "advice/supply_plan.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "repetitions.hpp"

namespace graftcast {
namespace {

/// Every way to hand the options of a row to its grafts, one row after the other: the best by trying all.
class Exhaustive {
 public:
  explicit Exhaustive(const PlanProblem& problem) : problem_(problem) {}
  double best() const { return from_row(0, problem_.in_store); }

 private:
  double from_row(std::size_t row, const std::vector<double>& left) const {
    return row == problem_.rows.size() ? 0.0 : from_option(row, 0, problem_.rows[row].count, left);
  }

  double from_option(std::size_t row, std::size_t option, int grafts, std::vector<double> left) const {
    if (option == problem_.rows[row].options.size()) return from_row(row + 1, left);
    const PlanOption& given = problem_.rows[row].options[option];
    double best = 0;
    for (int n = 0; n <= grafts; ++n) {
      best = std::max(best, n * given.worth + from_option(row, option + 1, grafts - n, left));
      for (std::size_t i = 0; i < left.size(); ++i) left[i] -= given.needs[i];
      if (std::ranges::any_of(left, [](double l) { return l < -1e-9; })) break;
    }
    return best;
  }

  const PlanProblem& problem_;
};

class MadeProblems {
 public:
  explicit MadeProblems(std::uint64_t seed) : generator_(seed) {}

  /// `supplies` kinds of cover, and minutes on top when `minutes`.
  PlanProblem next(int rows, int largest_batch, int supplies, bool minutes) {
    PlanProblem problem;
    for (int i = 0; i < supplies; ++i) problem.in_store.push_back(whole(0, rows * largest_batch / 6 + 2));
    if (minutes) problem.in_store.push_back(whole(0, 1 + rows * largest_batch));
    for (int r = 0; r < rows; ++r) problem.rows.push_back(row(largest_batch, supplies, minutes));
    return problem;
  }

 private:
  PlanRow row(int largest_batch, int supplies, bool minutes) {
    PlanRow row{whole(1, largest_batch), {}};
    const double stake = uniform(0, 2);
    const int options = whole(1, 4);
    for (int k = 0; k < options; ++k) {
      PlanOption option{stake * uniform(-0.1, 1),
                        std::vector<double>(static_cast<std::size_t>(supplies), 0.0)};
      for (int takes = whole(0, 3); takes > 0; --takes)
        option.needs[static_cast<std::size_t>(whole(0, supplies - 1))] = 1;
      if (minutes) option.needs.push_back(whole(1, 8) / 2.0);
      row.options.push_back(std::move(option));
    }
    return row;
  }

  double uniform(double low, double high) { return std::uniform_real_distribution<>(low, high)(generator_); }
  int whole(int low, int high) { return std::uniform_int_distribution<>(low, high)(generator_); }

  std::mt19937_64 generator_;
};

double worth_of(const PlanProblem& problem, const Plan& plan) {
  double worth = 0;
  for (std::size_t row = 0; row < problem.rows.size(); ++row)
    for (std::size_t k = 0; k < plan.counts[row].size(); ++k)
      worth += plan.counts[row][k] * problem.rows[row].options[k].worth;
  return worth;
}

void expect_within_means(const PlanProblem& problem, const Plan& plan) {
  std::vector<double> left = problem.in_store;
  for (std::size_t row = 0; row < problem.rows.size(); ++row) {
    int grafts = 0;
    for (std::size_t k = 0; k < plan.counts[row].size(); ++k) {
      EXPECT_GE(plan.counts[row][k], 0);
      grafts += plan.counts[row][k];
      for (std::size_t i = 0; i < left.size(); ++i)
        left[i] -= plan.counts[row][k] * problem.rows[row].options[k].needs[i];
    }
    EXPECT_LE(grafts, problem.rows[row].count);
  }
  for (const double l : left) EXPECT_GE(l, -1e-7);
}

TEST(SupplyPlan, EqualsTheBestOfAllAssignmentsOnSmallSites) {
  MadeProblems problems(20250609);
  for (int k = 0; k < testing::repetitions(300); ++k) {
    const PlanProblem problem = problems.next(1 + k % 5, 1 + k % 3, 1 + k % 4, k % 2 == 1);
    const Plan plan = best_plan(problem);
    EXPECT_NEAR(plan.worth, Exhaustive(problem).best(), 1e-8) << "problem " << k;
    EXPECT_NEAR(worth_of(problem, plan), plan.worth, 1e-9);
    expect_within_means(problem, plan);
  }
}

TEST(SupplyPlan, GivesTwoSuppliesToOneWhereThatSavesMost) {
  // A bag alone saves 0.5, with paper 0.9; two grafts, two bags, one paper: by hand 0.9 + 0.5.
  const PlanProblem problem{{2, 1}, {{2, {{0.5, {1, 0}}, {0.9, {1, 1}}}}}};
  const Plan plan = best_plan(problem);
  EXPECT_DOUBLE_EQ(plan.worth, 1.4);
  EXPECT_EQ(plan.counts, (std::vector<std::vector<int>>{{1, 1}}));
}

TEST(SupplyPlan, LeavesOutWhatIsWorthNothing) {
  const PlanProblem problem{{5}, {{3, {{0.0, {1}}, {-0.2, {0}}}}}};
  EXPECT_EQ(best_plan(problem).counts, (std::vector<std::vector<int>>{{0, 0}}));
}

TEST(SupplyPlan, OfNothingIsNothing) {
  EXPECT_EQ(best_plan({}).worth, 0);
  EXPECT_EQ(best_plan({{0.0, 0.0}, {{4, {{0.3, {1, 0}}}}}}).worth, 0);
  EXPECT_EQ(best_plan({{}, {{4, {{0.25, {}}}}}}).worth, 1);
}

TEST(SupplyPlan, NeverSavesLessWithOneMoreOfASupply) {
  MadeProblems problems(7);
  for (int k = 0; k < testing::repetitions(30); ++k) {
    PlanProblem problem = problems.next(40, 6, 5, k % 2 == 1);
    const double before = best_plan(problem).worth;
    for (std::size_t i = 0; i < problem.in_store.size(); ++i) {
      ++problem.in_store[i];
      EXPECT_GE(best_plan(problem).worth, before - 1e-9);
      --problem.in_store[i];
    }
  }
}

TEST(SupplyPlan, IsTheSameForRowsInAnotherOrder) {
  MadeProblems problems(11);
  for (int k = 0; k < testing::repetitions(20); ++k) {
    PlanProblem problem = problems.next(120, 8, 5, false);
    const double worth = best_plan(problem).worth;
    std::ranges::reverse(problem.rows);
    EXPECT_NEAR(best_plan(problem).worth, worth, 1e-8 * worth);
  }
}

TEST(SupplyPlan, IsFoundForThousandsOfRowsAndFiveKindsOfCover) {
  MadeProblems problems(3);
  const PlanProblem problem = problems.next(2000, 1, 5, true);
  const Plan plan = best_plan(problem);
  expect_within_means(problem, plan);
  EXPECT_GT(plan.worth, 0);
}

TEST(SupplyPlan, RefusesWhatIsNoProblem) {
  EXPECT_THROW(best_plan({{-1.0}, {}}), RangeError);
  EXPECT_THROW(best_plan({{std::nan("")}, {}}), RangeError);
  EXPECT_THROW(best_plan({{1.0}, {{1, {{1.0, {}}}}}}), RangeError);
  EXPECT_THROW(best_plan({{1.0}, {{-1, {}}}}), RangeError);
  EXPECT_THROW(best_plan({{1.0}, {{1, {{1.0, {-1.0}}}}}}), RangeError);
}

}  // namespace
}  // namespace graftcast
