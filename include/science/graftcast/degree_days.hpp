#pragma once
// Degree-days: how much warmth between two thresholds a day has had.
//
// All methods are one thing: the mean over the day of `development_rate_c` along a curve of temperature,
// exact. Only the curve differs. With the horizontal cut-off they are the six-case formulas of Zalom et al.
// 1983 (University of California leaflet 21373); the sine is that of Baskerville & Emin 1969 (Ecology 50,
// 514), the double curves are those of Allen 1976 (Environmental Entomology 5, 388), `average` and
// `average-floored` without a cut-off are methods 1 and 2 of McMaster & Wilhelm 1997 (Agric. For. Meteorol.
// 87, 291). The closed forms with the intermediate and vertical cut-offs are integrals of the same curves.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast {

enum class DegreeDayMethod {
  average,          ///< The mean of the extremes, all day. Each cut-off acts on that mean.
  average_floored,  ///< Half a day at each extreme; base and cut-off act on each (horizontal: the "corn"
                    ///< rule).
  triangle,         ///< Straight from the minimum to the maximum and back.
  double_triangle,  ///< The second half of the day falls to the next day's minimum.
  sine,             ///< A sine between the extremes.
  double_sine,      ///< The second half of the day falls to the next day's minimum.
  hourly,           ///< The day's own hours.
};

/// What warmth above the upper threshold does.
enum class Cutoff {
  none,          ///< Rate keeps rising.
  horizontal,    ///< Rate stays at that of the upper threshold.
  intermediate,  ///< Rate falls by as much as the temperature exceeds the upper threshold, to 0 at the least.
  vertical,      ///< Rate is 0 above the upper threshold (at it, full).
};

/// Words: `average`, `average-floored`, `triangle`, `double-triangle`, `sine`, `double-sine`, `hourly`;
/// `none`, `horizontal`, `intermediate`, `vertical`. Parsing anything else gives nothing.
std::string_view degree_day_method_word(DegreeDayMethod method);
std::string_view cutoff_word(Cutoff cutoff);
std::optional<DegreeDayMethod> parse_degree_day_method(std::string_view word);
std::optional<Cutoff> parse_cutoff(std::string_view word);
/// All words, for hints.
std::vector<std::string> degree_day_method_words();
std::vector<std::string> cutoff_words();

/// Between which temperatures [degC] warmth counts. Valid: -50 <= base <= 60; upper above base and at most
/// 100, not looked at without a cut-off.
struct DegreeDayRule {
  DegreeDayMethod method = DegreeDayMethod::hourly;
  Cutoff cutoff = Cutoff::horizontal;
  double base_c = 0;
  double upper_c = 100;
};

/// Degrees [degC] that count at `temperature_c` [degC, -90..100]. Error: RangeError, also for thresholds out
/// of order.
double development_rate_c(double temperature_c, const DegreeDayRule& rule);

/// A day's extremes of temperature [degC, -90..100], minimum <= maximum.
struct DailyExtremes {
  double minimum_c;
  double maximum_c;
  /// Next day's minimum; only the double methods look at it. One above this day's maximum is taken as it is:
  /// the second half of the day then rises to it.
  double next_minimum_c;
};

/// Degree-days [degC d] of a day from its extremes. Error: RangeError, also for the method `hourly`.
double degree_days(const DailyExtremes& day, const DegreeDayRule& rule);

/// Degree-days [degC d] of any number of hours (23 and 25 on the days the clocks change): each counts a 24th
/// of a day. `rule.method` is not looked at. Error: RangeError; a missing (NaN) hour is one.
double degree_days_of_hours(std::span<const double> temperatures_c, const DegreeDayRule& rule);

}  // namespace graftcast
