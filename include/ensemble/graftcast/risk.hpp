#pragma once
// A chance of loss with its band.

namespace graftcast {

/// Chance that a graft that lives at one moment is lost to weather by a later one; all are 0..1.
struct Risk {
  double p = 0;  ///< 1 - sum w S(later) / sum w S(then), S the survival of a member, w its weight.
  double low = 0, high = 0;  ///< Weighted 10 % and 90 % quantiles of 1 - S(later)/S(then) over members.
  double error = 0;          ///< Monte Carlo standard error of p.
};

}  // namespace graftcast
