#pragma once
// How hot it feels to people at rest in the shade and a light wind: the heat index of the US National Weather
// Service. Full sun adds up to 8 degC, work adds more, and tunnels and bags are hotter than the air outside:
// the index is a warning, never a permission to work.

#include <string_view>

namespace graftcast {

namespace raw {
/// Rothfusz 1990 (NWS Southern Region, SR 90-23) regression alone [degF], from degF and %. The printed NWS
/// chart was made with it, without the adjustments.
constexpr double rothfusz_regression_f(double t, double r) {
  return -42.379 + 2.04901523 * t + 10.14333127 * r - 0.22475541 * t * r - 6.83783e-3 * t * t -
         5.481717e-2 * r * r + 1.22874e-3 * t * t * r + 8.5282e-4 * t * r * r - 1.99e-6 * t * t * r * r;
}
}  // namespace raw

/// Heat index [degC] at `temperature_c` [degC, -80..60] and `relative_humidity_pct` [%, 0..100]: the whole
/// NWS algorithm (wpc.ncep.noaa.gov/html/heatindex_equation.shtml): up to 40 degF the temperature itself,
/// then Steadman's simple mean 0.5 (T + 61 + 1.2 (T - 68) + 0.094 RH), and where that reaches 80 degF the
/// regression with its adjustments for dry and humid air. For 80 to 87 degF with 85 % or more the humid
/// adjustment puts it up to 2.3 degF above the older printed chart. Error: RangeError.
double heat_index_c(double temperature_c, double relative_humidity_pct);

/// NWS categories. Limits in use here: 80, 90, 103 and 125 degF (27, 32, 39 and 52 degC); an older chart has
/// 105 and 130 for the last two.
enum class HeatCaution { none, caution, extreme_caution, danger, extreme_danger };

/// Category of `heat_index_c` [degC, -80..400].
HeatCaution heat_caution(double heat_index_c);

/// `none`, `caution`, `extreme caution`, `danger`, `extreme danger`.
std::string_view heat_caution_word(HeatCaution caution);

}  // namespace graftcast
