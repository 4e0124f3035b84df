#include "ensemble/distributions.hpp"

#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/erf.hpp>

#include "graftcast/error.hpp"
#include "text/stable_hash.hpp"

namespace graftcast {

namespace {

/// Doubles stay doubles: other machines would give other bits.
using Policy = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

void require_open_unit(double p, const char* what) {
  if (!(p > 0 && p < 1)) {
    throw RangeError(fmt::format("{} takes a probability between 0 and 1, got {}", what, p));
  }
}

constexpr std::uint64_t mixed(std::uint64_t z) noexcept {
  z += 0x9e3779b97f4a7c15U;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31U);
}

}  // namespace

double normal_cdf(double z) noexcept {
  return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

double normal_quantile(double p) {
  require_open_unit(p, "the normal quantile");
  return -std::numbers::sqrt2 * boost::math::erfc_inv(2 * p, Policy());
}

double truncated_normal_quantile(double p, double limit) {
  require_open_unit(p, "the truncated normal quantile");
  const double below = normal_cdf(-limit);
  return normal_quantile(below + p * (1 - 2 * below));
}

double beta_quantile(double p, double a, double b) {
  require_open_unit(p, "the beta quantile");
  if (!(a > 0 && b > 0 && std::isfinite(a + b)))
    throw RangeError(fmt::format("shapes {} and {} of a beta distribution", a, b), "two numbers above 0");
  return boost::math::ibeta_inv(a, b, p, Policy());
}

std::uint64_t random_bits(std::uint64_t seed, Purpose purpose, std::uint64_t a, std::uint64_t b) noexcept {
  return mixed(mixed(mixed(mixed(seed) ^ static_cast<std::uint64_t>(purpose)) ^ a) ^ b);
}

double random_uniform(std::uint64_t seed, Purpose purpose, std::uint64_t a, std::uint64_t b) noexcept {
  // 53 bits plus a half keep the value strictly inside (0, 1).
  return (static_cast<double>(random_bits(seed, purpose, a, b) >> 11U) + 0.5) * 0x1p-53;
}

std::uint64_t name_key(std::string_view name) noexcept {
  return stable_hash(name);
}

}  // namespace graftcast
