#include "shift_fit.hpp"

#include <algorithm>
#include <cmath>

namespace graftcast {

namespace {

constexpr double least_chance = 1e-4;  // no weather is quite sure to spare or to kill

double logit_of(double chance) {
  const double p = std::clamp(chance, least_chance, 1 - least_chance);
  return std::log(p / (1 - p));
}

/// Weights of three values at -1, 0, 1 in the quadratic through them, and of its slope, at x.
struct QuadraticWeights {
  std::array<double, 3> value, slope;
};
QuadraticWeights quadratic_at(double x) {
  return {{0.5 * x * (x - 1), 1 - x * x, 0.5 * x * (x + 1)}, {x - 0.5, -2 * x, x + 0.5}};
}

/// Where the three numbers of a group begin.
Eigen::Index species_at(const OutcomeRow& row) {
  return static_cast<Eigen::Index>(3 * row.species);
}
Eigen::Index method_at(const OutcomeRow& row, const ShiftGroups& groups) {
  return static_cast<Eigen::Index>(3 * (groups.species + row.method));
}

Shifts shifts_for(const OutcomeRow& row, const ShiftGroups& groups, const Eigen::VectorXd& x) {
  const Eigen::Index s = species_at(row), m = method_at(row, groups);
  return {x[s] + x[m], x[s + 1] + x[m + 1], x[s + 2] + x[m + 2]};
}

/// A chance with its derivatives by pace, drying and failure.
struct ChanceBy {
  double chance;
  Eigen::Vector3d slope;
};

ChanceBy take_by(const OutcomeRow& row, const Shifts& shifts) {
  const ChanceSurface::At weather = row.weather.at(shifts.pace, shifts.drying);
  const double hand = moved_chance(row.hand, -shifts.failure);
  return {hand * weather.chance,
          {hand * weather.by_pace, hand * weather.by_drying, -hand * (1 - hand) * weather.chance}};
}

ChanceBy alive_by(const OutcomeRow& row, const Shifts& shifts) {
  const ChanceSurface::At weather = row.until_looked.at(shifts.pace, shifts.drying);
  return {weather.chance, {weather.by_pace, weather.by_drying, 0}};
}

/// Adds the log-likelihood of `yes` and `no` outcomes of one chance, with Fisher's information.
void add_outcomes(const ChanceBy& by, int yes, int no, Eigen::Index s, Eigen::Index m, PosteriorAt& sum) {
  if (yes + no == 0) return;
  const double p = std::clamp(by.chance, 1e-6, 1 - 1e-6);
  sum.log_density += yes * std::log(p) + no * std::log(1 - p);
  const Eigen::Vector3d gradient = (yes / p - no / (1 - p)) * by.slope;
  const Eigen::Matrix3d information = (yes + no) / (p * (1 - p)) * by.slope * by.slope.transpose();
  for (const Eigen::Index i : {s, m}) {
    sum.gradient.segment<3>(i) += gradient;
    for (const Eigen::Index j : {s, m}) sum.information.block<3, 3>(i, j) += information;
  }
}

Eigen::VectorXd prior_precision(const ShiftGroups& groups, const ShiftPrior& prior) {
  Eigen::VectorXd precision(groups.size());
  for (std::size_t g = 0; g < groups.species + groups.methods; ++g) {
    const Shifts& sd = g < groups.species ? prior.species : prior.method;
    precision.segment<3>(static_cast<Eigen::Index>(3 * g)) =
        Eigen::Vector3d(sd.pace, sd.drying, sd.failure).array().square().inverse();
  }
  return precision;
}

}  // namespace

ChanceSurface::ChanceSurface(const std::array<std::array<double, 3>, 3>& chances, double pace_step,
                             double drying_step)
    : pace_step_(pace_step), drying_step_(drying_step) {
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) logits_[i][j] = logit_of(chances[i][j]);
}

ChanceSurface::At ChanceSurface::at(double pace, double drying) const {
  constexpr double reach = 1.5;
  const double u = pace / pace_step_, v = drying / drying_step_;
  const QuadraticWeights a = quadratic_at(std::clamp(u, -reach, reach));
  const QuadraticWeights b = quadratic_at(std::clamp(v, -reach, reach));
  double logit = 0, by_u = 0, by_v = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      logit += a.value[i] * b.value[j] * logits_[i][j];
      by_u += a.slope[i] * b.value[j] * logits_[i][j];
      by_v += a.value[i] * b.slope[j] * logits_[i][j];
    }
  }
  const double chance = 1 / (1 + std::exp(-logit));
  const double slope = chance * (1 - chance);
  return {chance, std::abs(u) < reach ? slope * by_u / pace_step_ : 0,
          std::abs(v) < reach ? slope * by_v / drying_step_ : 0};
}

double take_chance(const OutcomeRow& row, const ShiftGroups& groups, const Eigen::VectorXd& shifts) {
  return take_by(row, shifts_for(row, groups, shifts)).chance;
}

NormalPosterior fit_shifts(std::span<const OutcomeRow> rows, const ShiftGroups& groups,
                           const ShiftPrior& prior, const Eigen::VectorXd& start, std::size_t left_out) {
  const Eigen::VectorXd precision = prior_precision(groups, prior);
  const auto posterior = [&](const Eigen::VectorXd& x) {
    PosteriorAt sum;
    sum.log_density = -0.5 * (precision.array() * x.array().square()).sum();
    sum.gradient = -(precision.array() * x.array()).matrix();
    sum.information = precision.asDiagonal();
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (i == left_out) continue;
      const OutcomeRow& row = rows[i];
      const Shifts shifts = shifts_for(row, groups, x);
      const Eigen::Index s = species_at(row), m = method_at(row, groups);
      add_outcomes(take_by(row, shifts), row.taken, row.lost, s, m, sum);
      add_outcomes(alive_by(row, shifts), row.alive, 0, s, m, sum);
    }
    return sum;
  };
  return newton_mode(posterior, start);
}

}  // namespace graftcast
