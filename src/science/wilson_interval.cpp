#include "graftcast/wilson_interval.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

RateInterval wilson_interval(double successes, double trials, double z) {
  if (!(trials > 0 && successes >= 0 && successes <= trials && z > 0))
    throw RangeError(tr("{successes} successes of {trials} trials, z {z}", "successes"_a = successes,
                        "trials"_a = trials, "z"_a = z),
                     tr("0 to as many successes as trials, at least one trial, z above 0"));
  const double rate = successes / trials;
  const double square = z * z;
  const double middle = successes + 0.5 * square;
  const double half = z * std::sqrt(trials * rate * (1 - rate) + 0.25 * square);
  return {std::max(0.0, (middle - half) / (trials + square)),
          std::min(1.0, (middle + half) / (trials + square))};
}

}  // namespace graftcast
