#pragma once
// The ensemble's members: which numbers of the model each one believes.

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "plant/graft_case.hpp"
#include "plant/union_hour.hpp"

namespace graftcast {

/// What is uncertain about a union, beside the weather.
enum class Uncertain : std::uint8_t {
  pace,
  bark_conductance,
  wrap_factor,
  bare_bud,
  base_supply,
  joined_supply,
  cambium_match,
  callus_lower,
  callus_optimum,
  callus_upper,
  bud_push,
  heat_recovery,
};
inline constexpr std::size_t uncertain_count = 12;

/// Members are stepped some at a time, on the widest processors eight.
inline constexpr int member_multiple = 8;

/// A Latin hypercube over the uncertain numbers: for each of them every member sits in a stratum of its own.
/// Depends on seed and size only, so that grafts and actions share it (common random numbers).
class MemberQuantiles {
 public:
  /// `members` is rounded up to a multiple of `member_multiple`. Valid: 1..65536 (RangeError otherwise).
  MemberQuantiles(std::uint64_t seed, int members);

  int members() const { return members_; }
  /// Uniform quantiles in (0, 1), one a member.
  const Eigen::ArrayXd& uniform(Uncertain what) const { return uniform_[static_cast<std::size_t>(what)]; }
  /// The same as standard normal quantiles truncated at two standard deviations.
  const Eigen::ArrayXd& normal(Uncertain what) const { return normal_[static_cast<std::size_t>(what)]; }
  /// Shares of cambium that meet when both sides match, and when one does.
  const Eigen::ArrayXd& match(bool one_side) const { return one_side ? match_one_ : match_both_; }
  /// Shapes of the two beta distributions; from section "healing" of models/union.json.
  void set_match_shapes(const Models& models);

  /// Members drawn anew around `ancestors` (one a member), so that few good ones do not become many alike:
  /// every normal quantile is drawn towards the weighted mean by `shrinkage` and jittered so that the
  /// weighted mean and variance stay what they are. Source: Liu & West (2001), eq. 10.3.8. `key` and `round`
  /// tell the random numbers of one union and one drawing from those of others.
  MemberQuantiles redrawn(std::span<const std::size_t> ancestors, std::span<const double> weights,
                          double shrinkage, std::uint64_t seed, std::uint64_t key, std::uint64_t round) const;

 private:
  MemberQuantiles() = default;
  void map_match();

  struct MatchShapes {
    double both_a = 1, both_b = 1, one_a = 1, one_b = 1;
  };
  int members_ = 0;
  MatchShapes match_shapes_;
  std::array<Eigen::ArrayXd, uncertain_count> uniform_, normal_;
  Eigen::ArrayXd match_both_, match_one_;
};

/// The numbers of every member of one graft under one setting: `members.bridge_days[i]` is member i's.
struct UnionMembers : UnionMember<Eigen::ArrayXd> {
  std::size_t members() const { return static_cast<std::size_t>(bridge_days.size()); }
};
UnionMembers union_members(const GraftCase& graft, const Setting& setting, const Models& models,
                           const MemberQuantiles& quantiles);

/// Constants of the union from models/union.json.
UnionConstants union_constants(const Models& models);

}  // namespace graftcast
