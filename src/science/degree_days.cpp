#include "graftcast/degree_days.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "graftcast/error.hpp"
#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr Range counted_temperature{tr_later("temperature"), -90, 100, "degC"};

void require_thresholds(const DegreeDayRule& rule) {
  require_within(rule.base_c, {tr_later("base temperature"), -50, 60, "degC"});
  if (rule.cutoff == Cutoff::none) return;
  require_within(rule.upper_c,
                 {tr_later("upper threshold (above the base)"),
                  std::nextafter(rule.base_c, std::numeric_limits<double>::infinity()), 100, "degC"});
}

/// What lies of a curve of temperature above a threshold.
struct Excess {
  double area_c;  ///< Mean of max(0, T - threshold) over the curve.
  double share;   ///< Share of its time above the threshold.
};

Excess excess_of_constant(double temperature_c, double threshold_c) {
  if (temperature_c <= threshold_c) return {.area_c = 0, .share = 0};
  return {.area_c = temperature_c - threshold_c, .share = 1};
}

/// Straight lines between `low_c` and `high_c`: Zalom et al. 1983.
Excess excess_of_triangle(double low_c, double high_c, double threshold_c) {
  if (high_c <= threshold_c) return {.area_c = 0, .share = 0};
  if (low_c >= threshold_c) return {.area_c = (low_c + high_c) / 2 - threshold_c, .share = 1};
  const double share = (high_c - threshold_c) / (high_c - low_c);
  return {.area_c = share * (high_c - threshold_c) / 2, .share = share};
}

/// Half a period of a sine between `low_c` and `high_c`: Baskerville & Emin 1969.
Excess excess_of_sine(double low_c, double high_c, double threshold_c) {
  constexpr double pi = std::numbers::pi;
  if (high_c <= threshold_c) return {.area_c = 0, .share = 0};
  const double mean_c = (low_c + high_c) / 2;
  if (low_c >= threshold_c) return {.area_c = mean_c - threshold_c, .share = 1};
  const double amplitude_c = (high_c - low_c) / 2;
  const double theta = std::asin(std::clamp((threshold_c - mean_c) / amplitude_c, -1.0, 1.0));
  return {.area_c = ((mean_c - threshold_c) * (pi / 2 - theta) + amplitude_c * std::cos(theta)) / pi,
          .share = 0.5 - theta / pi};
}

/// Mean of the development rate along a curve, of which `excess_above(threshold)` is known: the rate is a sum
/// of ramps and steps, so its mean is a sum of excesses.
template <class ExcessAbove>
double mean_rate_c(const DegreeDayRule& rule, ExcessAbove excess_above) {
  const double warmth_c = excess_above(rule.base_c).area_c;
  if (rule.cutoff == Cutoff::none) return warmth_c;
  const Excess over = excess_above(rule.upper_c);
  const double span_c = rule.upper_c - rule.base_c;
  switch (rule.cutoff) {
    case Cutoff::intermediate:  // up, down, and level again where the rate has fallen to 0
      return std::max(0.0, warmth_c - 2 * over.area_c + excess_above(rule.upper_c + span_c).area_c);
    case Cutoff::vertical:
      return std::max(0.0, warmth_c - over.area_c - span_c * over.share);
    default:
      return std::max(0.0, warmth_c - over.area_c);
  }
}

double rate_c(double temperature_c, const DegreeDayRule& rule) {
  return mean_rate_c(rule,
                     [=](double threshold_c) { return excess_of_constant(temperature_c, threshold_c); });
}

/// Degrees of a whole day whose curve between one low and one high is `Curve`.
template <class Curve>
double single_c(double first_c, double second_c, const DegreeDayRule& rule, Curve curve) {
  const auto [low_c, high_c] = std::minmax(first_c, second_c);
  return mean_rate_c(
      rule, [=, low = low_c, high = high_c](double threshold_c) { return curve(low, high, threshold_c); });
}

/// Half the day from the minimum to the maximum, half from there to the next minimum: Allen 1976.
template <class Curve>
double double_c(const DailyExtremes& day, const DegreeDayRule& rule, Curve curve) {
  return (single_c(day.minimum_c, day.maximum_c, rule, curve) +
          single_c(day.next_minimum_c, day.maximum_c, rule, curve)) /
         2;
}

void require_extremes(const DailyExtremes& day, DegreeDayMethod method) {
  require_within(day.minimum_c, counted_temperature);
  require_within(day.maximum_c, counted_temperature);
  require_ordered(day.minimum_c, tr_later("minimum temperature"), day.maximum_c,
                  tr_later("maximum temperature"));
  if (method == DegreeDayMethod::double_triangle || method == DegreeDayMethod::double_sine) {
    require_within(day.next_minimum_c, {tr_later("next day's minimum temperature"), counted_temperature.low,
                                        counted_temperature.high, "degC"});
  }
}

}  // namespace

double development_rate_c(double temperature_c, const DegreeDayRule& rule) {
  require_thresholds(rule);
  require_within(temperature_c, counted_temperature);
  return rate_c(temperature_c, rule);
}

double degree_days(const DailyExtremes& day, const DegreeDayRule& rule) {
  require_thresholds(rule);
  require_extremes(day, rule.method);
  switch (rule.method) {
    case DegreeDayMethod::average:
      return rate_c((day.minimum_c + day.maximum_c) / 2, rule);
    case DegreeDayMethod::average_floored:
      return (rate_c(day.minimum_c, rule) + rate_c(day.maximum_c, rule)) / 2;
    case DegreeDayMethod::triangle:
      return single_c(day.minimum_c, day.maximum_c, rule, excess_of_triangle);
    case DegreeDayMethod::double_triangle:
      return double_c(day, rule, excess_of_triangle);
    case DegreeDayMethod::sine:
      return single_c(day.minimum_c, day.maximum_c, rule, excess_of_sine);
    case DegreeDayMethod::double_sine:
      return double_c(day, rule, excess_of_sine);
    case DegreeDayMethod::hourly:
      break;
  }
  throw RangeError(tr("method hourly cannot work from a day's extremes"), tr("give it the day's hours"));
}

double degree_days_of_hours(std::span<const double> temperatures_c, const DegreeDayRule& rule) {
  require_thresholds(rule);
  double sum_c = 0;
  for (const double temperature_c : temperatures_c) {
    require_within(temperature_c, counted_temperature);
    sum_c += rate_c(temperature_c, rule);
  }
  return sum_c / 24;
}

}  // namespace graftcast
