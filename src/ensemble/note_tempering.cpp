#include "note_tempering.hpp"

#include <algorithm>
#include <cmath>

#include "ensemble/distributions.hpp"

namespace graftcast {

namespace {

constexpr double least_effective_share = 0.25;
constexpr int most_rounds = 12;
constexpr int halvings = 30;

std::vector<double> with_more(std::span<const double> log_weights, std::span<const double> log_likelihood,
                              double share) {
  std::vector<double> sum(log_weights.begin(), log_weights.end());
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += share * log_likelihood[i];
  return sum;
}

}  // namespace

std::vector<double> normalised(std::span<const double> log_weights) {
  const double largest = *std::max_element(log_weights.begin(), log_weights.end());
  std::vector<double> weights;
  weights.reserve(log_weights.size());
  double sum = 0;
  for (const double l : log_weights) {
    weights.push_back(std::exp(l - largest));
    sum += weights.back();
  }
  for (double& w : weights) w /= sum;
  return weights;
}

double effective_members(std::span<const double> weights) {
  double squares = 0;
  for (const double w : weights) squares += w * w;
  return 1 / squares;
}

NoteTempering::NoteTempering(std::size_t members) : log_weights_(members, 0.0) {}

bool NoteTempering::count_notes(std::span<const double> log_likelihood) {
  const auto enough = [&](double more) {
    const auto weights = normalised(with_more(log_weights_, log_likelihood, more));
    return effective_members(weights) >= least_effective_share * static_cast<double>(weights.size());
  };
  const double left = 1 - share_;
  if (enough(left) || rounds_ == most_rounds) {
    log_weights_ = with_more(log_weights_, log_likelihood, left);
    share_ = 1;
    return true;
  }
  // The last round allowed takes what is left, so each takes its part at least.
  double low = left / (most_rounds - rounds_ + 1), high = left;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (enough(middle) ? low : high) = middle;
  }
  log_weights_ = with_more(log_weights_, log_likelihood, low);
  share_ += low;
  return false;
}

std::vector<std::size_t> NoteTempering::ancestors(std::uint64_t seed, std::uint64_t key) const {
  const std::vector<double> w = weights();
  const auto n = static_cast<double>(w.size());
  const double offset = random_uniform(seed, Purpose::resampling, key, static_cast<std::uint64_t>(rounds_));
  std::vector<std::size_t> chosen;
  chosen.reserve(w.size());
  double cumulated = w.front();
  std::size_t at = 0;
  for (std::size_t i = 0; i < w.size(); ++i) {
    const double mark = (static_cast<double>(i) + offset) / n;
    while (cumulated < mark && at + 1 < w.size()) cumulated += w[++at];
    chosen.push_back(at);
  }
  return chosen;
}

void NoteTempering::redrawn(std::span<const std::size_t> ancestors,
                            std::span<const double> log_likelihood_before,
                            std::span<const double> log_likelihood_after) {
  for (std::size_t i = 0; i < log_weights_.size(); ++i) {
    log_weights_[i] = share_ * (log_likelihood_after[i] - log_likelihood_before[ancestors[i]]);
  }
  ++rounds_;
}

std::vector<double> NoteTempering::weights() const {
  return normalised(log_weights_);
}

}  // namespace graftcast
