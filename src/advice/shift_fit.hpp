#pragma once
// How far a site's outcomes move the published numbers.

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "newton_mode.hpp"
#include "parameters/learned.hpp"

namespace graftcast {

/// Chance as a smooth function of the shifts of pace and drying: the logit is quadratic in each, through
/// nine runs of the model.
class ChanceSurface {
 public:
  /// Chances at (-step, 0, step) of pace (rows) and drying (columns).
  ChanceSurface(const std::array<std::array<double, 3>, 3>& chances, double pace_step, double drying_step);

  struct At {
    double chance, by_pace, by_drying;  ///< With its derivatives.
  };
  /// Beyond one and a half steps it stays what it is there.
  At at(double pace, double drying) const;

 private:
  std::array<std::array<double, 3>, 3> logits_;
  double pace_step_, drying_step_;
};

/// One row of the ledger with what became of it.
struct OutcomeRow {
  std::size_t species = 0, method = 0;  ///< Places in their lists.
  int taken = 0, lost = 0;
  int alive = 0;               ///< Still open when the batch was looked at last.
  double hand = 1;             ///< Published share that takes when the weather takes none.
  ChanceSurface weather;       ///< Survival until the union drinks.
  ChanceSurface until_looked;  ///< Survival until the batch was looked at last.
};

/// Standard deviations of a group's shifts around none.
struct ShiftPrior {
  Shifts species, method;
};

/// Species first, then methods; three numbers each: pace, drying, failure.
struct ShiftGroups {
  std::size_t species = 0, methods = 0;
  Eigen::Index size() const { return static_cast<Eigen::Index>(3 * (species + methods)); }
};

/// Chance that a graft of the row takes, under `shifts`.
double take_chance(const OutcomeRow& row, const ShiftGroups& groups, const Eigen::VectorXd& shifts);

/// Maximum a posteriori with Laplace's approximation. Rows whose `left_out` is their place are passed over.
NormalPosterior fit_shifts(std::span<const OutcomeRow> rows, const ShiftGroups& groups,
                           const ShiftPrior& prior, const Eigen::VectorXd& start,
                           std::size_t left_out = static_cast<std::size_t>(-1));

}  // namespace graftcast
