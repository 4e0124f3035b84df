#pragma once
// Heat index chart of the US National Weather Service (srh.noaa.gov/tsa/?n=heatindex), degF, rows by air
// temperature, columns by relative humidity 40, 45 .. 100 %. 0: not printed. Seen.

#include <array>

namespace graftcast::published {

struct HeatIndexRow {
  double temperature_f;
  std::array<int, 13> index_f;
};
inline constexpr double heat_index_first_humidity_pct = 40;
inline constexpr double heat_index_humidity_step_pct = 5;
inline constexpr std::array<HeatIndexRow, 7> heat_index_chart{{
    {80, {80, 80, 81, 81, 82, 82, 83, 84, 84, 85, 86, 86, 87}},
    {86, {85, 87, 88, 89, 91, 93, 95, 97, 100, 102, 105, 108, 112}},
    {90, {91, 93, 95, 97, 100, 103, 106, 109, 113, 117, 122, 127, 132}},
    {96, {101, 104, 108, 112, 116, 121, 126, 132, 0, 0, 0, 0, 0}},
    {100, {109, 114, 118, 124, 129, 136, 0, 0, 0, 0, 0, 0, 0}},
    {104, {119, 124, 131, 137, 0, 0, 0, 0, 0, 0, 0, 0, 0}},
    {110, {136, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}},
}};

/// The whole algorithm, computed by a second program: degF, %, degF.
struct HeatIndexValue {
  double temperature_f, relative_humidity_pct, index_f;
};
inline constexpr std::array<HeatIndexValue, 7> heat_index_algorithm{{
    {90, 50, 94.60},
    {90, 70, 105.92},
    {96, 65, 121.03},
    {95, 10, 89.45},
    {82, 95, 93.97},
    {75, 60, 75.02},
    {80, 100, 89.29},
}};

}  // namespace graftcast::published
