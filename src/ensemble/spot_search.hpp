#pragma once
// Least squares for the shares of a spot: Levenberg-Marquardt within 0..1 (private to the layer).

#include <array>
#include <vector>

#include <Eigen/Dense>

#include "ensemble/spot_fit.hpp"
#include "paired_hours.hpp"

namespace graftcast {

/// Places of the unknowns: sun share, wind share, the thermometer's offset [K].
inline constexpr Eigen::Index sun_at = 0, wind_at = 1, offset_at = 2, unknowns = 3;
using Unknowns3 = Eigen::Vector3d;

/// The search for the shares.
class SpotSearch {
 public:
  SpotSearch(const PairedHours& pairs, const Spot& spot, const SpotSensor& sensor, const Models& models)
      : pairs_(pairs), spot_(spot), sensor_(sensor), models_(models) {}

  /// Least squares from `start` over those that are free.
  void search(const Unknowns3& start, const std::array<bool, unknowns>& free);

  const Unknowns3& found() const { return at_; }
  const Eigen::ArrayXd& left() const { return left_; }
  double square_sum() const { return left_.square().sum(); }
  Eigen::ArrayXd residuals(const Unknowns3& at) const { return pairs_.seen_c - predicted(at); }

  /// Of those that are free and within their limits; others have rows and columns of zero.
  Eigen::Matrix3d covariance(double independent_hours) const;
  /// How the sun share would answer to another wind share: d sun / d wind.
  double sun_by_wind() const;

 private:
  Eigen::ArrayXd predicted(const Unknowns3& at) const;
  Eigen::MatrixXd jacobian(const Unknowns3& at, bool of_all = false) const;
  /// Those that may move: not held, and not pressed against a limit.
  std::vector<Eigen::Index> free_within(const Eigen::MatrixXd& slopes, const Eigen::ArrayXd& left) const;
  Unknowns3 stepped(const Eigen::MatrixXd& slopes, const Eigen::ArrayXd& left, double damping) const;

  const PairedHours& pairs_;
  const Spot& spot_;
  const SpotSensor& sensor_;
  const Models& models_;
  std::array<bool, unknowns> free_{true, true, true};
  Unknowns3 at_ = Unknowns3::Zero();
  Eigen::ArrayXd left_;
};

}  // namespace graftcast
