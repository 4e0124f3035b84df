#include "spot_search.hpp"

#include <algorithm>
#include <cmath>

namespace graftcast {

namespace {

constexpr double share_step = 0.01;      // Of the differences that stand for the derivatives.
constexpr double share_accuracy = 1e-5;  // Below which a step ends the search.
constexpr int most_steps = 60;

Eigen::MatrixXd columns_of(const Eigen::MatrixXd& slopes, const std::vector<Eigen::Index>& which) {
  Eigen::MatrixXd part(slopes.rows(), static_cast<Eigen::Index>(which.size()));
  for (std::size_t j = 0; j < which.size(); ++j)
    part.col(static_cast<Eigen::Index>(j)) = slopes.col(which[j]);
  return part;
}

}  // namespace

void SpotSearch::search(const Unknowns3& start, const std::array<bool, unknowns>& free) {
  free_ = free;
  at_ = start;
  Eigen::ArrayXd left = residuals(at_);
  double damping = 1e-3;
  for (int step = 0; step < most_steps && damping < 1e9; ++step) {
    const Eigen::MatrixXd slopes = jacobian(at_);
    const Unknowns3 next = stepped(slopes, left, damping);
    const Eigen::ArrayXd next_left = residuals(next);
    const bool is_better = next_left.square().sum() <= left.square().sum();
    const double length = (next - at_).norm();
    damping *= is_better ? 0.2 : 5;
    if (!is_better) continue;
    at_ = next;
    left = next_left;
    if (length < share_accuracy) break;
  }
  left_ = left;
}

Eigen::Matrix3d SpotSearch::covariance(double independent_hours) const {
  const Eigen::MatrixXd slopes = jacobian(at_);
  const std::vector<Eigen::Index> open = free_within(slopes, left_);
  const auto k = static_cast<Eigen::Index>(open.size());
  const Eigen::MatrixXd part = columns_of(slopes, open);
  const auto n = static_cast<double>(slopes.rows());
  const double variance = square_sum() / std::max(1.0, n - static_cast<double>(k));
  // What the log does not tell at all gets an error without end rather than none.
  Eigen::MatrixXd normal = part.transpose() * part;
  normal.diagonal().array() += 1e-9 * std::max(1.0, normal.trace());
  const Eigen::MatrixXd inverse =
      normal.ldlt().solve(Eigen::MatrixXd::Identity(k, k)) * variance * n / std::max(1.0, independent_hours);
  Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
  for (Eigen::Index i = 0; i < k; ++i) {
    for (Eigen::Index j = 0; j < k; ++j)
      covariance(open[static_cast<std::size_t>(i)], open[static_cast<std::size_t>(j)]) = inverse(i, j);
  }
  return covariance;
}

double SpotSearch::sun_by_wind() const {
  const Eigen::MatrixXd slopes = jacobian(at_, true);
  Eigen::MatrixXd part(slopes.rows(), 2);
  part.col(0) = slopes.col(sun_at);
  part.col(1) = slopes.col(offset_at);
  return -part.colPivHouseholderQr().solve(slopes.col(wind_at))[0];
}

Eigen::ArrayXd SpotSearch::predicted(const Unknowns3& at) const {
  Spot spot = spot_;
  spot.sun_share = at[sun_at];
  spot.wind_share = at[wind_at];
  const Eigen::ArrayXd all = sensor_temperatures_c(pairs_.ambient, spot, sensor_, models_);
  Eigen::ArrayXd used(static_cast<Eigen::Index>(pairs_.used.size()));
  for (Eigen::Index i = 0; i < used.size(); ++i) used[i] = all[pairs_.used[static_cast<std::size_t>(i)]];
  return used + at[offset_at];
}

Eigen::MatrixXd SpotSearch::jacobian(const Unknowns3& at, bool of_all) const {
  Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(pairs_.seen_c.size(), unknowns);
  slopes.col(offset_at).setOnes();
  for (const Eigen::Index j : {sun_at, wind_at}) {
    if (!free_[static_cast<std::size_t>(j)] && !of_all) continue;
    Unknowns3 low = at, high = at;
    low[j] = std::max(0.0, at[j] - share_step);
    high[j] = std::min(1.0, at[j] + share_step);
    slopes.col(j) = ((predicted(high) - predicted(low)) / (high[j] - low[j])).matrix();
  }
  return slopes;
}

std::vector<Eigen::Index> SpotSearch::free_within(const Eigen::MatrixXd& slopes,
                                                  const Eigen::ArrayXd& left) const {
  std::vector<Eigen::Index> open;
  for (Eigen::Index j = 0; j < unknowns; ++j) {
    if (!free_[static_cast<std::size_t>(j)]) continue;
    const double pull = slopes.col(j).dot(left.matrix());
    const bool is_pressed = j != offset_at && ((at_[j] <= 0 && pull <= 0) || (at_[j] >= 1 && pull >= 0));
    if (!is_pressed) open.push_back(j);
  }
  return open;
}

Unknowns3 SpotSearch::stepped(const Eigen::MatrixXd& slopes, const Eigen::ArrayXd& left,
                              double damping) const {
  Unknowns3 next = at_;
  const std::vector<Eigen::Index> open = free_within(slopes, left);
  const auto k = static_cast<Eigen::Index>(open.size());
  const Eigen::MatrixXd part = columns_of(slopes, open);
  Eigen::MatrixXd normal = part.transpose() * part;
  normal.diagonal() += damping * (normal.diagonal().array() + 1e-9).matrix();
  const Eigen::VectorXd move = normal.ldlt().solve(part.transpose() * left.matrix());
  for (Eigen::Index j = 0; j < k; ++j) {
    const Eigen::Index which = open[static_cast<std::size_t>(j)];
    next[which] += move[j];
    if (which != offset_at) next[which] = std::clamp(next[which], 0.0, 1.0);
  }
  return next;
}

}  // namespace graftcast
