#pragma once
// Tables of FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes & Smith 1998), annex 2.
// Seen: read in copies of the tables (not in the paper's own pages). Recalled: from memory of the
// paper, and in agreement with the printed formula to all digits.

#include <array>

namespace graftcast::published {

struct Pair {
  double at;
  double value;
};

/// Table 2.2, psychrometric constant [kPa/degC] by elevation [m]. Seen.
inline constexpr std::array<Pair, 7> fao_psychrometric_constant{
    {{0, 0.067}, {500, 0.064}, {1000, 0.060}, {1800, 0.054}, {2000, 0.053}, {3000, 0.047}, {4000, 0.041}}};

/// Table 2.3, saturation vapour pressure [kPa] by temperature [degC]. 15 and 25 seen, the others recalled; 35
/// and 40 computed with eq. 11 by a second program.
inline constexpr std::array<Pair, 9> fao_saturation{{{1, 0.657},
                                                     {5, 0.872},
                                                     {10, 1.228},
                                                     {15, 1.705},
                                                     {20, 2.338},
                                                     {25, 3.168},
                                                     {30, 4.243},
                                                     {35, 5.623},
                                                     {40, 7.376}}};

/// Table 2.4, slope of the saturation curve [kPa/degC] by temperature [degC]. Recalled.
inline constexpr std::array<Pair, 8> fao_slope{
    {{1, 0.047}, {10, 0.082}, {15, 0.110}, {20, 0.145}, {25, 0.189}, {30, 0.243}, {35, 0.311}, {40, 0.393}}};

/// Table 2.8, black body radiation [MJ m-2 d-1] by temperature [degC]. Seen.
inline constexpr std::array<Pair, 7> fao_black_body{
    {{1, 27.70}, {10, 31.52}, {20, 36.21}, {25, 38.75}, {30, 41.41}, {40, 47.15}, {48.5, 52.49}}};

/// Days of the year for the 15th of each month in tables 2.6 and 2.7.
inline constexpr std::array<int, 12> mid_month_days{15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};

struct YearAtLatitude {
  double latitude_deg;
  std::array<double, 12> months;
};

/// Table 2.6, extraterrestrial radiation [MJ m-2 d-1]. Seen; rows in which two copies agree. The
/// table is up to 0.09 above the paper's own eq. 21 from September to November.
inline constexpr double fao_extraterrestrial_tolerance = 0.1;
inline constexpr std::array<YearAtLatitude, 7> fao_extraterrestrial{{
    {60, {3.3, 8.3, 16.6, 27.5, 36.6, 41.2, 39.2, 31.3, 20.6, 10.9, 4.4, 2.2}},
    {50, {8.9, 14.4, 22.2, 31.5, 38.5, 41.7, 40.2, 34.4, 25.7, 16.9, 10.2, 7.5}},
    {40, {15.0, 20.4, 27.2, 34.7, 39.7, 41.9, 40.8, 36.7, 30.0, 22.5, 16.3, 13.6}},
    {20, {26.8, 30.6, 34.7, 37.9, 39.3, 39.5, 39.3, 38.3, 35.8, 31.8, 27.7, 25.6}},
    {0, {36.2, 37.5, 37.9, 36.8, 34.8, 33.4, 33.9, 35.7, 37.2, 37.4, 36.3, 35.6}},
    {-20, {41.9, 40.0, 36.6, 31.3, 26.6, 24.1, 25.0, 28.9, 34.2, 38.6, 41.2, 42.1}},
    {-40, {43.4, 38.1, 30.9, 22.3, 15.8, 12.8, 13.9, 19.1, 27.1, 35.3, 41.8, 44.6}},
}};

/// Table 2.7, day length [h]. Seen.
inline constexpr double fao_day_length_tolerance = 0.06;
inline constexpr std::array<YearAtLatitude, 4> fao_day_length{{
    {60, {6.4, 8.8, 11.4, 14.2, 16.8, 18.4, 17.7, 15.3, 12.5, 9.7, 7.1, 5.6}},
    {50, {8.3, 9.8, 11.6, 13.5, 15.2, 16.1, 15.7, 14.3, 12.3, 10.4, 8.7, 7.9}},
    {40, {9.5, 10.5, 11.7, 13.1, 14.2, 14.8, 14.6, 13.6, 12.2, 10.9, 9.7, 9.2}},
    {20, {10.9, 11.3, 11.9, 12.5, 12.9, 13.2, 13.1, 12.7, 12.1, 11.5, 11.0, 10.8}},
}};

}  // namespace graftcast::published
