#pragma once
// How fast a living process runs at a temperature, as a share of its rate at the optimum.

#include <algorithm>
#include <cmath>
#include <type_traits>

namespace graftcast {

/// Temperatures [degC] between which a process runs. Valid: -50 <= lower < optimum < upper <= 80.
struct CardinalTemperatures {
  double lower_c;
  double optimum_c;
  double upper_c;
};

namespace raw {

/// `value` held between `low` and `high`, for a number or an Eigen array (limits: numbers, or arrays alike).
template <class T, class L, class H>
auto held_between(const T& value, const L& low, const H& high) {
  if constexpr (std::is_arithmetic_v<T>) {
    return std::clamp(value, low, high);
  } else {
    return value.max(low).min(high);
  }
}

/// Beta response, 0..1: Yan & Hunt 1999 (Annals of Botany 84, 607) in its general form with a lower limit,
///   (b - T)/(b - o) * ((T - a)/(o - a))^((o - a)/(b - o)),
/// 0 at and outside a..b, 1 at o. Checks nothing; takes numbers or Eigen arrays, the cardinals too (the
/// result is then an expression: assign it to an array before the arguments go away).
template <class T, class A, class O, class B>
auto beta_response(const T& temperature_c, const A& lower_c, const O& optimum_c, const B& upper_c) {
  using std::pow;
  return (upper_c - held_between(temperature_c, lower_c, upper_c)) / (upper_c - optimum_c) *
         pow((held_between(temperature_c, lower_c, upper_c) - lower_c) / (optimum_c - lower_c),
             (optimum_c - lower_c) / (upper_c - optimum_c));
}

}  // namespace raw

/// Beta response, 0..1, of `temperature_c` [degC, -80..100]. Error: RangeError, also for cardinals out of
/// order.
double beta_response(double temperature_c, const CardinalTemperatures& cardinals);

}  // namespace graftcast
