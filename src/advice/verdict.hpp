#pragma once
// Wait, check or graft again: from what was seen, what is overdue and what a look is worth.

#include "ensemble/graft_run.hpp"
#include "graftcast/since.hpp"

namespace graftcast {

/// What the notes of a graft say of its life.
struct SignsOfLife {
  bool moved = false;                  ///< Buds or leaves were seen, and no sign of failing since.
  int shrivelled = 0;                  ///< Of the open ones, with no green seen since.
  std::optional<double> alive_at_age;  ///< Age in days at the last sign of life.
  std::optional<LocalDay>
      looked_on;           ///< Last note `green` from week three on: the bark or bud was looked at.
  bool scratched = false;  ///< A stick: all that are open were.
};
SignsOfLife signs_of_life(const GraftRun& run);

/// Chance that the hand made it well, after the signs of life; and of the badly made ones that none was seen
/// of since, the share that would show it today.
struct Workmanship {
  double hand = 1;
  std::vector<double> shown_shares;  ///< Today, in a week, in two ...
};
Workmanship workmanship(const GraftRun& run, const SignsOfLife& signs, double age_days);

/// Fills in `overdue`, `worth` and `ground`, from what stands in `graft` before.
void give_verdict(const GraftRun& run, const GraftRow& row, const SignsOfLife& signs, const Workmanship& work,
                  GraftSince& graft);

}  // namespace graftcast
