#include "ensemble/distributions.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/stable_hash.hpp"

namespace graftcast {

namespace {

// Horner's rule, highest power first.
template <std::size_t N>
double polynomial(const std::array<double, N>& coefficients, double x) {
  double sum = 0;
  for (const double c : coefficients) sum = sum * x + c;
  return sum;
}

// Wichura (1988), AS 241, routine PPND16: the three rational approximations.
double central_quantile(double q) {
  constexpr std::array a{2509.0809287301226727, 33430.575583588128105, 67265.770927008700853,
                         45921.953931549871457, 13731.693765509461125, 1971.5909503065514427,
                         133.14166789178437745, 3.387132872796366608};
  constexpr std::array b{
      5226.495278852854561,  28729.085735721942674, 39307.89580009271061,  21213.794301586595867,
      5394.1960214247511077, 687.1870074920579083,  42.313330701600911252, 1.0};
  const double r = 0.180625 - q * q;
  return q * polynomial(a, r) / polynomial(b, r);
}

double near_tail_quantile(double r) {
  constexpr std::array c{7.7454501427834140764e-4, 0.0227238449892691845833, 0.24178072517745061177,
                         1.27045825245236838258,   3.64784832476320460504,   5.7694972214606914055,
                         4.6303378461565452959,    1.42343711074968357734};
  constexpr std::array d{
      1.05075007164441684324e-9, 5.475938084995344946e-4, 0.0151986665636164571966, 0.14810397642748007459,
      0.68976733498510000455,    1.6763848301838038494,   2.05319162663775882187,   1.0};
  return polynomial(c, r - 1.6) / polynomial(d, r - 1.6);
}

double far_tail_quantile(double r) {
  constexpr std::array e{2.01033439929228813265e-7, 2.71155556874348757815e-5, 0.0012426609473880784386,
                         0.026532189526576123093,   0.29656057182850489123,    1.7848265399172913358,
                         5.4637849111641143699,     6.6579046435011037772};
  constexpr std::array f{
      2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4,
      0.0148753612908506148525,   0.13692988092273580531,   0.59983220655588793769,   1.0};
  return polynomial(e, r - 5.0) / polynomial(f, r - 5.0);
}

void require_open_unit(double p, const char* what) {
  if (!(p > 0 && p < 1)) {
    throw RangeError(fmt::format("{} takes a probability between 0 and 1, got {}", what, p));
  }
}

// Continued fraction of the incomplete beta function for x below the mean, modified Lentz.
double beta_fraction(double x, double a, double b) {
  constexpr double tiny = 1e-300;
  constexpr int most_terms = 500;
  double c = 1;
  double d = 1 - (a + b) * x / (a + 1);
  d = 1 / (std::abs(d) < tiny ? tiny : d);
  double value = d;
  const auto apply = [&](double numerator) {
    d = 1 + numerator * d;
    d = 1 / (std::abs(d) < tiny ? tiny : d);
    c = 1 + numerator / c;
    if (std::abs(c) < tiny) c = tiny;
    value *= d * c;
    return d * c;
  };
  for (int m = 1; m <= most_terms; ++m) {
    apply(m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)));
    const double change = apply(-(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)));
    if (std::abs(change - 1) < std::numeric_limits<double>::epsilon()) break;
  }
  return value;
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
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425) return central_quantile(q);
  const double r = std::sqrt(-std::log(q < 0 ? p : 1 - p));
  const double z = r <= 5.0 ? near_tail_quantile(r) : far_tail_quantile(r);
  return q < 0 ? -z : z;
}

double truncated_normal_quantile(double p, double limit) {
  require_open_unit(p, "the truncated normal quantile");
  const double below = normal_cdf(-limit);
  return normal_quantile(below + p * (1 - 2 * below));
}

double beta_cdf(double x, double a, double b) {
  if (!(x >= 0 && x <= 1 && a > 0 && b > 0)) {
    throw RangeError(fmt::format(
        "the beta distribution function takes 0 <= x <= 1 and positive shapes, got x {}, a {}, b {}", x, a,
        b));
  }
  if (x == 0 || x == 1) return x;
  const double log_front =
      std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x);
  if (x < (a + 1) / (a + b + 2)) return std::exp(log_front) * beta_fraction(x, a, b) / a;
  return 1 - std::exp(log_front) * beta_fraction(1 - x, b, a) / b;
}

double beta_quantile(double p, double a, double b) {
  require_open_unit(p, "the beta quantile");
  double low = 0;
  double high = 1;
  while (high - low > 1e-12) {
    const double middle = 0.5 * (low + high);
    (beta_cdf(middle, a, b) < p ? low : high) = middle;
  }
  return 0.5 * (low + high);
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
