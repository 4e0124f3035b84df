#pragma once
// The few distributions the ensemble needs, and its counter-based random numbers.

#include <cstdint>
#include <string_view>

namespace graftcast {

/// Standard normal distribution function, absolute error below 1e-15 (C library erfc).
double normal_cdf(double z) noexcept;

/// Inverse of normal_cdf. Valid: 0 < p < 1. Error: RangeError outside.
/// Relative accuracy about 1e-15 (Boost.Math).
double normal_quantile(double p);

/// Quantile of a standard normal truncated to [-limit, limit]. Valid: 0 < p < 1, limit > 0.
double truncated_normal_quantile(double p, double limit);

/// Quantile of Beta(a, b), to about 1e-14 (Boost.Math). Valid: 0 < p < 1, a > 0, b > 0. Error: RangeError
/// outside.
double beta_quantile(double p, double a, double b);

/// What a random number is for: equal purposes give equal numbers on every graft history and action.
enum class Purpose : std::uint32_t {
  stratum = 1,
  within_stratum = 2,
  forecast_temperature = 3,
  forecast_dew_point = 4,
  forecast_wind = 5,
  forecast_radiation = 6,
  past_year = 7,
  jitter = 8,
  resampling = 9,
  climate_course = 10,
};

/// 64 well-mixed bits that depend on nothing but the arguments (a counter-based generator), so that results
/// do not depend on the order or the number of threads. Mixing: splitmix64 finaliser (Steele, Lea & Flood
/// 2014), chained.
std::uint64_t random_bits(std::uint64_t seed, Purpose purpose, std::uint64_t a, std::uint64_t b = 0) noexcept;

/// Uniform in the open interval (0, 1) from random_bits.
double random_uniform(std::uint64_t seed, Purpose purpose, std::uint64_t a, std::uint64_t b = 0) noexcept;

/// Stable 64-bit hash of a name (FNV-1a), to key random numbers by graft id.
std::uint64_t name_key(std::string_view name) noexcept;

}  // namespace graftcast
