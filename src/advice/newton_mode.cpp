#include "newton_mode.hpp"

#include <Eigen/Cholesky>

namespace graftcast {

NormalPosterior newton_mode(const std::function<PosteriorAt(const Eigen::VectorXd&)>& posterior,
                            Eigen::VectorXd start) {
  constexpr int most_steps = 100, most_halvings = 30;
  constexpr double close = 1e-9, no_gain = 1e-9;
  NormalPosterior mode{std::move(start), {}, false};
  PosteriorAt here = posterior(mode.mean);
  for (int step = 0; step < most_steps && !mode.converged; ++step) {
    const Eigen::VectorXd towards = here.information.ldlt().solve(here.gradient);
    double share = 1;
    for (int halving = 0; halving <= most_halvings; ++halving, share *= 0.5) {
      const Eigen::VectorXd next = mode.mean + share * towards;
      PosteriorAt there = posterior(next);
      if (there.log_density < here.log_density && halving < most_halvings) continue;
      mode.converged = (next - mode.mean).norm() < close || there.log_density - here.log_density < no_gain;
      if (there.log_density >= here.log_density) {
        mode.mean = next;
        here = std::move(there);
      }
      break;
    }
  }
  const auto size = mode.mean.size();
  mode.covariance = here.information.ldlt().solve(Eigen::MatrixXd::Identity(size, size));
  return mode;
}

}  // namespace graftcast
