#pragma once
// How sure a rate is.

namespace graftcast {

struct RateInterval {
  double low, high;
};

/// Interval of a rate of which `successes` of `trials` were seen, `z` standard normal deviations wide (1.96:
/// 95 %). Valid: 0 <= successes <= trials, trials > 0, z > 0. Error: RangeError.
/// Source: Wilson (1927), J. Am. Stat. Assoc. 22:209; form of Newcombe (1998), Stat. Med. 17:857, method 3.
RateInterval wilson_interval(double successes, double trials, double z = 1.959964);

}  // namespace graftcast
