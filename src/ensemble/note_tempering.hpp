#pragma once
// How the members of one union take in what was seen without ending as copies of one.

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace graftcast {

/// Importance weights of members under a likelihood that is let in by and by: as much of it at a time as
/// leaves a quarter of the members effective; then they are resampled and drawn anew. Sources: Neal (2001),
/// annealed importance sampling; Del Moral, Doucet & Jasra (2006), section 3.4, for the step chosen by the
/// effective number; Liu & West (2001), section 10.4, for the weights of what was drawn anew.
class NoteTempering {
 public:
  explicit NoteTempering(std::size_t members);

  /// Lets in as much more of the likelihood as it may. True when all of it is in.
  bool count_notes(std::span<const double> log_likelihood);
  /// Systematic resampling: each member's ancestor.
  std::vector<std::size_t> ancestors(std::uint64_t seed, std::uint64_t key) const;
  /// Members were drawn anew around `ancestors`: their weights make up for what the drawing changed.
  void redrawn(std::span<const std::size_t> ancestors, std::span<const double> log_likelihood_before,
               std::span<const double> log_likelihood_after);

  std::vector<double> weights() const;  ///< Sum 1.
  int rounds() const { return rounds_; }

 private:
  double share_ = 0;  ///< Of the likelihood let in, as its exponent.
  int rounds_ = 0;
  std::vector<double> log_weights_;
};

/// exp(`log_weights`) scaled to sum 1, safe for values far below zero.
std::vector<double> normalised(std::span<const double> log_weights);
/// Kish's effective number of members, 1 / sum of squares of weights that sum to 1.
double effective_members(std::span<const double> weights);

}  // namespace graftcast
