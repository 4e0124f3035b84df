#pragma once
// Published degree-days.

#include <array>
#include <limits>

namespace graftcast::published {

/// Zalom et al. 1983 (University of California leaflet 21373), table 7, degF days between 55 and 90 degF.
/// Seen, as carried in a library of the University of California.
struct ZalomRow {
  double minimum_f, maximum_f, next_minimum_f;
  double triangle, double_triangle, sine, double_sine;
};
inline constexpr double zalom_base_f = 55;
inline constexpr double zalom_upper_f = 90;
/// Prints 24.88 for the double triangle of 60-100-75, where the leaflet's own half-day formulas give 27.125
/// and its double sine fits those: taken for a misprint and left out.
inline constexpr double zalom_misprint = std::numeric_limits<double>::quiet_NaN();
inline constexpr std::array<ZalomRow, 12> zalom_table{{
    {96, 110, 91, 35.00, 35.00, 35.00, 35.00},
    {91, 105, 96, 35.00, 35.00, 35.00, 35.00},
    {45, 54, 38, 0, 0, 0, 0},
    {38, 50, 45, 0, 0, 0, 0},
    {60, 80, 75, 15.00, 18.75, 15.00, 18.75},
    {75, 88, 60, 26.50, 22.75, 26.50, 22.75},
    {50, 82, 45, 11.39, 10.62, 11.85, 11.31},
    {45, 70, 50, 4.50, 5.06, 5.31, 5.70},
    {60, 100, 75, 23.75, zalom_misprint, 22.82, 26.26},
    {75, 95, 60, 29.38, 25.76, 28.91, 25.30},
    {50, 101, 48, 19.56, 19.19, 18.95, 18.69},
    {48, 95, 50, 16.76, 17.13, 16.96, 17.23},
}};

/// McMaster & Wilhelm 1997 (Agric. For. Meteorol. 87, 291), table 1, base 0 degC. Seen, as carried in the
/// same library.
struct McMasterRow {
  double maximum_c, minimum_c, method_1, method_2;
};
inline constexpr std::array<McMasterRow, 10> mcmaster_table{{
    {20, 10, 15.0, 15.0},
    {10, 1, 5.5, 5.5},
    {8, -2, 3.0, 4.0},
    {6, 0, 3.0, 3.0},
    {10, 5, 7.5, 7.5},
    {5, -5, 0.0, 2.5},
    {-2, -7, 0, 0},
    {-5, -10, 0, 0},
    {10, -2, 4.0, 5.0},
    {15, 2, 8.5, 8.5},
}};

/// The cut-offs beyond the printed horizontal one. Computed by a second program, and by numerical
/// integration.
struct CutoffRow {
  double minimum_c, maximum_c;
  double sine_horizontal, sine_intermediate, sine_vertical;
  double triangle_horizontal, triangle_intermediate, triangle_vertical;
};
/// Between 10 and 30 degC.
inline constexpr std::array<CutoffRow, 7> cutoff_table{{
    {31, 38, 20.0000, 15.5000, 0.0000, 20.0000, 15.5000, 0.0000},
    {-2, 8, 0, 0, 0, 0, 0, 0},
    {15, 25, 10.0000, 10.0000, 10.0000, 10.0000, 10.0000, 10.0000},
    {4, 22, 4.5255, 4.5255, 4.5255, 4.0000, 4.0000, 4.0000},
    {8, 12, 0.6366, 0.6366, 0.6366, 0.5000, 0.5000, 0.5000},
    {12, 36, 12.6920, 11.3841, 6.0254, 13.2500, 12.5000, 8.2500},
    {5, 35, 10.0000, 9.1184, 4.6456, 10.0000, 9.5833, 6.6667},
}};
/// The same in degF, between 55 and 90 degF.
inline constexpr std::array<CutoffRow, 3> cutoff_table_f{{
    {60, 100, 22.8200, 20.6401, 11.1534, 23.7500, 22.5000, 15.0000},
    {50, 101, 18.9526, 16.7341, 8.1910, 19.5588, 18.3725, 12.0098},
    {48, 95, 16.9647, 16.2649, 9.5618, 16.7553, 16.4894, 13.0319},
}};

}  // namespace graftcast::published
