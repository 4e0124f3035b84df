#pragma once
// One number of the model with where it comes from.

#include <string>

namespace graftcast {

/// A number of models/*.json. It reads as its value wherever a double is asked for.
struct Parameter {
  double value = 0;
  std::string unit;
  double low = 0, high = 0;  ///< Plausible range, low <= value <= high.
  /// Spread over ensemble members: `normal` (sd absolute; low and high truncate), `lognormal` (sd of the
  /// logarithm), or none.
  enum class Spread { none, normal, lognormal } spread = Spread::none;
  double sd = 0;
  std::string source;
  char grade = 'C';  ///< A published, B published but transferred, C judgement.

  operator double() const { return value; }  // NOLINT(google-explicit-constructor)
};

}  // namespace graftcast
