#pragma once
// The mode of a log posterior and the normal distribution that fits it there.

#include <functional>

#include <Eigen/Core>

namespace graftcast {

/// A log posterior at one place. `information` is minus its curvature, or what stands in for it; positive
/// definite.
struct PosteriorAt {
  double log_density = 0;
  Eigen::VectorXd gradient;
  Eigen::MatrixXd information;
};

/// Laplace's approximation.
struct NormalPosterior {
  Eigen::VectorXd mean;
  Eigen::MatrixXd covariance;
  bool converged = false;
};

/// Newton's method with halved steps from `start`. Source: Gelman et al., Bayesian Data Analysis (3rd ed.
/// 2013), sections 13.1 and 13.3.
NormalPosterior newton_mode(const std::function<PosteriorAt(const Eigen::VectorXd&)>& posterior,
                            Eigen::VectorXd start);

}  // namespace graftcast
