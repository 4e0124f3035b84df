// Every checked function takes its limits, refuses what lies beyond them and whatever is no number, and never
// answers with something that is no number.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <limits>
#include <ostream>
#include <string>
#include <vector>

#include "graftcast/air.hpp"
#include "graftcast/convection.hpp"
#include "graftcast/degree_days.hpp"
#include "graftcast/error.hpp"
#include "graftcast/evapotranspiration.hpp"
#include "graftcast/heat_index.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"
#include "graftcast/temperature_response.hpp"

namespace graftcast {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// An argument: a value at which all others may take their limits, and those it may take itself.
struct Argument {
  double usual, low, high;
};
struct Checked {
  std::string name;
  std::function<double(const std::vector<double>&)> call;
  std::vector<Argument> arguments;
};

/// How the test framework shows one.
void PrintTo(const Checked& checked, std::ostream* out) {
  *out << checked.name;
}

using Values = const std::vector<double>&;

const Argument temperature{20, -80, 100};
const Argument air_temperature{20, -80, 60};
const Argument pressure{100, 40, 110};
const Argument humidity{50, 0, 100};
const Argument vapour_pressure{1, 0, 20};
const Argument any_vapour_pressure{1, 0, 110};
const Argument share{0.5, 0, 1};
const Argument radiation{20, 0, 60};
const Argument latitude{40, -90, 90};
const Argument longitude{10, -180, 180};
const Argument elevation{100, -430, 6000};
const Argument wind{2, 0, 60};

std::vector<Checked> air_functions() {
  return {
      {"air_pressure_kpa", [](Values v) { return air_pressure_kpa(v[0]); }, {elevation}},
      {"psychrometric_constant", [](Values v) { return psychrometric_constant_kpa_per_c(v[0]); }, {pressure}},
      {"saturation_vapour_pressure",
       [](Values v) { return saturation_vapour_pressure_kpa(v[0]); },
       {temperature}},
      {"mean_saturation",
       [](Values v) { return mean_saturation_vapour_pressure_kpa(v[0], v[1]); },
       {{50, 10, 100}, {10, -80, 50}}},
      {"saturation_slope", [](Values v) { return saturation_slope_kpa_per_c(v[0]); }, {temperature}},
      {"dew_point", [](Values v) { return dew_point_c(v[0]); }, {{1, 9.3627e-5, 102.215}}},
      {"relative_humidity",
       [](Values v) { return relative_humidity_pct(v[0], v[1]); },
       {temperature, any_vapour_pressure}},
      {"deficit",
       [](Values v) { return vapour_pressure_deficit_kpa(v[0], v[1]); },
       {temperature, any_vapour_pressure}},
      {"mole_fraction_deficit",
       [](Values v) { return mole_fraction_deficit(v[0], v[1], v[2]); },
       {temperature, any_vapour_pressure, pressure}},
      {"from_humidity",
       [](Values v) { return vapour_pressure_from_humidity_kpa(v[0], v[1]); },
       {temperature, humidity}},
      {"from_dew_point", [](Values v) { return vapour_pressure_from_dew_point_kpa(v[0]); }, {temperature}},
      {"from_humidity_extremes",
       [](Values v) {
         return vapour_pressure_from_humidity_extremes_kpa({.maximum_temperature_c = v[0],
                                                            .minimum_temperature_c = v[1],
                                                            .maximum_humidity_pct = v[2],
                                                            .minimum_humidity_pct = v[3]});
       },
       {{30, 10, 100}, {10, -80, 30}, {80, 40, 100}, {40, 0, 80}}},
      {"from_maximum_humidity",
       [](Values v) { return vapour_pressure_from_maximum_humidity_kpa(v[0], v[1]); },
       {temperature, humidity}},
      {"from_mean_humidity",
       [](Values v) { return vapour_pressure_from_mean_humidity_kpa(v[0], v[1], v[2]); },
       {{30, 10, 100}, {10, -80, 30}, humidity}},
      {"from_minimum_temperature",
       [](Values v) { return vapour_pressure_from_minimum_temperature_kpa(v[0], v[1]); },
       {{10, -80, 100}, {0, 0, 20}}},
      {"wet_bulb", [](Values v) { return wet_bulb_c(v[0], v[1]); }, {{20, -20, 50}, {50, 5, 99}}},
      {"wind_at_2m", [](Values v) { return wind_at_2m_m_s(v[0], v[1]); }, {{3, 0, 120}, {10, 0.5, 200}}},
  };
}

const std::chrono::sys_seconds some_instant = std::chrono::sys_days(std::chrono::year(2024) / 5 / 6);

std::vector<Checked> sun_functions() {
  return {
      {"sunset_hour_angle", [](Values v) { return sunset_hour_angle_rad(v[0], 100); }, {latitude}},
      {"day_length", [](Values v) { return day_length_h(v[0], 100); }, {latitude}},
      {"extraterrestrial_day", [](Values v) { return extraterrestrial_day_mj_m2(v[0], 100); }, {latitude}},
      {"fao_hour_angle",
       [](Values v) { return fao_hour_angle_rad(v[0], v[1], v[2], 100); },
       {{12, 0, 24}, longitude, longitude}},
      {"extraterrestrial_period",
       [](Values v) { return extraterrestrial_period_mj_m2(v[0], 100, v[1], v[2]); },
       {latitude, {0, -1e6, 1e6}, {1, 1e-6, 24}}},
      {"true_solar_time", [](Values v) { return true_solar_time_h(some_instant, v[0]); }, {longitude}},
      {"sun_position",
       [](Values v) { return sun_position(some_instant, v[0], v[1]).azimuth_deg; },
       {latitude, longitude}},
      {"sun_times",
       [](Values v) { return sun_times(some_instant, v[0], v[1]).noon_elevation_deg; },
       {latitude, longitude}},
      {"sun_period",
       [](Values v) { return sun_period(some_instant, v[0], v[1]).mean_extraterrestrial_w_m2; },
       {latitude, longitude}},
  };
}

std::vector<Checked> radiation_functions() {
  return {
      {"clear_sky_transmissivity", [](Values v) { return clear_sky_transmissivity(v[0]); }, {elevation}},
      {"clear_sky", [](Values v) { return clear_sky_mj_m2(v[0], v[1]); }, {radiation, elevation}},
      {"haurwitz", [](Values v) { return haurwitz_clear_sky_w_m2(v[0]); }, {{0.5, -1, 1}}},
      {"from_cloud", [](Values v) { return global_from_cloud_w_m2(v[0], v[1]); }, {{0.5, -1, 1}, share}},
      {"from_sunshine",
       [](Values v) {
         return global_from_sunshine_mj_m2(v[0], v[1], v[2], {.overcast = v[3], .sunshine = v[4]});
       },
       {{5, 0, 12}, {12, 5, 24}, radiation, {0.25, 0, 0.5}, {0.5, 0, 0.75}}},
      {"from_temperature_range",
       [](Values v) { return global_from_temperature_range_mj_m2(v[0], v[1], v[2], v[3], v[4]); },
       {{30, 10, 100}, {10, -80, 30}, radiation, radiation, {0.16, 0.05, 0.3}}},
      {"clear_sky_ratio",
       [](Values v) { return clear_sky_ratio(v[0], v[1]); },
       {{1, 0, std::numeric_limits<double>::max()}, {1, 1e-300, std::numeric_limits<double>::max()}}},
      {"cloud_fraction", [](Values v) { return cloud_fraction_from_clear_sky_ratio(v[0]); }, {share}},
      {"diffuse_fraction", [](Values v) { return diffuse_fraction(v[0]); }, {{0.5, 0, 2}}},
      {"net_shortwave", [](Values v) { return net_shortwave_mj_m2(v[0], v[1]); }, {radiation, share}},
      {"net_longwave_day",
       [](Values v) {
         return net_longwave_day_mj_m2({.maximum_temperature_c = v[0],
                                        .minimum_temperature_c = v[1],
                                        .vapour_pressure_kpa = v[2],
                                        .clear_sky_ratio = v[3]});
       },
       {{30, 10, 100}, {10, -80, 30}, vapour_pressure, share}},
      {"net_longwave_hour",
       [](Values v) { return net_longwave_hour_mj_m2(v[0], v[1], v[2]); },
       {temperature, vapour_pressure, share}},
      {"clear_sky_emissivity",
       [](Values v) { return clear_sky_emissivity(v[0], v[1]); },
       {vapour_pressure, temperature}},
      {"cloudy_sky_emissivity", [](Values v) { return cloudy_sky_emissivity(v[0], v[1]); }, {share, share}},
  };
}

HourlyAir hourly_air(Values v) {
  return {.temperature_c = v[0], .vapour_pressure_kpa = v[1], .wind_2m_m_s = v[2], .pressure_kpa = v[3]};
}

std::vector<Checked> evapotranspiration_functions() {
  const Argument daily_flux{10, -30, 40};
  const Argument hourly_flux{1, -2, 5};
  return {
      {"day",
       [](Values v) {
         return reference_evapotranspiration_day_mm({.maximum_temperature_c = v[0],
                                                     .minimum_temperature_c = v[1],
                                                     .vapour_pressure_kpa = v[2],
                                                     .wind_2m_m_s = v[3],
                                                     .pressure_kpa = v[4]},
                                                    v[5], v[6]);
       },
       {{30, 10, 60}, {10, -80, 30}, vapour_pressure, wind, pressure, daily_flux, daily_flux}},
      {"fao_hour",
       [](Values v) { return fao_evapotranspiration_hour_mm(hourly_air(v), v[4], v[5]); },
       {air_temperature, vapour_pressure, wind, pressure, hourly_flux, hourly_flux}},
      {"asce_hour",
       [](Values v) { return asce_evapotranspiration_hour_mm(hourly_air(v), v[4]); },
       {air_temperature, vapour_pressure, wind, pressure, hourly_flux}},
      {"asce_hour_from_global",
       [](Values v) { return asce_evapotranspiration_hour_mm(hourly_air(v), v[4], v[5]); },
       {air_temperature, vapour_pressure, wind, pressure, {1, 0, 5}, share}},
      {"hargreaves",
       [](Values v) { return hargreaves_evapotranspiration_day_mm(v[0], v[1], v[2]); },
       {{30, 10, 60}, {10, -80, 30}, radiation}},
      {"soil_heat_month",
       [](Values v) { return soil_heat_flux_of_month_mj_m2(v[0], v[1]); },
       {air_temperature, air_temperature}},
      {"soil_heat_latest_month",
       [](Values v) { return soil_heat_flux_of_latest_month_mj_m2(v[0], v[1]); },
       {air_temperature, air_temperature}},
      {"soil_heat_hour", [](Values v) { return soil_heat_flux_of_hour_mj_m2(v[0]); }, {hourly_flux}},
  };
}

std::vector<Checked> other_functions() {
  const auto days = [](DegreeDayMethod method) {
    return [method](Values v) {
      return degree_days({.minimum_c = v[0], .maximum_c = v[1], .next_minimum_c = v[2]},
                         {.method = method, .cutoff = Cutoff::horizontal, .base_c = v[3], .upper_c = v[4]});
    };
  };
  const std::vector<Argument> day{
      {5, -90, 20}, {20, 5, 100}, {8, -90, 100}, {10, -50, 30 - 1e-9}, {30, 10 + 1e-9, 100}};
  return {
      {"beta_response",
       [](Values v) { return beta_response(v[0], {.lower_c = v[1], .optimum_c = 25, .upper_c = v[2]}); },
       {temperature, {5, -50, 25 - 1e-9}, {35, 25 + 1e-9, 80}}},
      {"air_film", [](Values v) { return air_film(v[0], v[1]).prandtl; }, {temperature, pressure}},
      {"cylinder_nusselt",
       [](Values v) { return cylinder_nusselt(v[0], v[1]); },
       {{100, 0.2 / 0.7 + 1e-6, 1e7}, {0.7, 0.1, 1000}}},
      {"cylinder_heat_transfer",
       [](Values v) { return cylinder_heat_transfer_w_m2_k(v[0], v[1], v[2], v[3]); },
       {{2, 0.01, 60}, {0.02, 0.0005, 2}, temperature, pressure}},
      {"vapour_conductance", [](Values v) { return vapour_conductance_mol_m2_s(v[0]); }, {{30, 0, 10000}}},
      {"radiative_coefficient",
       [](Values v) { return radiative_coefficient_w_m2_k(v[0], v[1]); },
       {share, temperature}},
      {"double_sine", days(DegreeDayMethod::double_sine), day},
      {"double_triangle", days(DegreeDayMethod::double_triangle), day},
      {"development_rate", [](Values v) { return development_rate_c(v[0], {}); }, {{20, -90, 100}}},
      {"degree_days_of_hours",
       [](Values v) { return degree_days_of_hours(v, {}); },
       {{20, -90, 100}, {20, -90, 100}}},
      {"heat_index", [](Values v) { return heat_index_c(v[0], v[1]); }, {air_temperature, humidity}},
      {"heat_caution", [](Values v) { return static_cast<double>(heat_caution(v[0])); }, {{20, -80, 400}}},
  };
}

class CheckedFunction : public ::testing::TestWithParam<Checked> {};

std::vector<double> usual_values(const Checked& checked) {
  std::vector<double> values;
  for (const auto& argument : checked.arguments) values.push_back(argument.usual);
  return values;
}

TEST_P(CheckedFunction, AnswersWithANumberUpToTheLimitsOfEachArgument) {
  const Checked& checked = GetParam();
  for (std::size_t i = 0; i < checked.arguments.size(); ++i) {
    for (const double value :
         {checked.arguments[i].low, checked.arguments[i].usual, checked.arguments[i].high}) {
      std::vector<double> values = usual_values(checked);
      values[i] = value;
      EXPECT_TRUE(std::isfinite(checked.call(values))) << "argument " << i << " = " << value;
    }
  }
}

TEST_P(CheckedFunction, RefusesWhatLiesBeyondTheLimitsAndWhatIsNoNumber) {
  const Checked& checked = GetParam();
  for (std::size_t i = 0; i < checked.arguments.size(); ++i) {
    const auto [usual, low, high] = checked.arguments[i];
    const double below = low - 1e-4 * (1 + std::abs(low)), above = high + 1e-4 * (1 + std::abs(high));
    for (const double value : {below, above, infinity, -infinity, std::nan("")}) {
      std::vector<double> values = usual_values(checked);
      values[i] = value;
      EXPECT_THROW(checked.call(values), RangeError) << "argument " << i << " = " << value;
    }
  }
}

std::string checked_name(const ::testing::TestParamInfo<Checked>& info) {
  return info.param.name;
}

INSTANTIATE_TEST_SUITE_P(Air, CheckedFunction, ::testing::ValuesIn(air_functions()), checked_name);
INSTANTIATE_TEST_SUITE_P(Sun, CheckedFunction, ::testing::ValuesIn(sun_functions()), checked_name);
INSTANTIATE_TEST_SUITE_P(Radiation, CheckedFunction, ::testing::ValuesIn(radiation_functions()),
                         checked_name);
INSTANTIATE_TEST_SUITE_P(Evapotranspiration, CheckedFunction,
                         ::testing::ValuesIn(evapotranspiration_functions()), checked_name);
INSTANTIATE_TEST_SUITE_P(Other, CheckedFunction, ::testing::ValuesIn(other_functions()), checked_name);

TEST(RangeErrors, NameTheQuantityTheValueTheLimitsAndTheUnit) {
  try {
    vapour_pressure_from_humidity_kpa(20, 130);
    FAIL() << "130 % was taken";
  } catch (const RangeError& error) {
    EXPECT_THAT(error.what(), ::testing::AllOf(::testing::HasSubstr("relative humidity 130 %"),
                                               ::testing::HasSubstr("0 to 100 %")));
  }
}

TEST(RangeErrors, MeetDaysThatNoYearHas) {
  for (const int day : {-1, 0, 367}) {
    EXPECT_THROW(inverse_relative_distance(day), RangeError);
    EXPECT_THROW(fao_declination_rad(day), RangeError);
    EXPECT_THROW(seasonal_correction_h(day), RangeError);
    EXPECT_THROW(extraterrestrial_day_mj_m2(40, day), RangeError);
  }
  using std::chrono::year;
  EXPECT_THROW(day_of_year(year(2025) / 2 / 30), RangeError);
  EXPECT_THROW(sun_coordinates(std::chrono::sys_days(year(1700) / 1 / 1)), RangeError);
  EXPECT_THROW(sun_times(std::chrono::sys_days(year(2300) / 1 / 1), 40, 10), RangeError);
  EXPECT_THROW(sun_period(some_instant, 40, 10, std::chrono::seconds(0)), RangeError);
  EXPECT_THROW(sun_period(some_instant, 40, 10, std::chrono::seconds(86401)), RangeError);
}

TEST(RangeErrors, MeetAWetBulbThatCannotBe) {
  for (const double bulb : {-81.0, 101.0, infinity, std::nan("")}) {
    EXPECT_THROW(vapour_pressure_from_wet_bulb_kpa(bulb, 10, 101.3), RangeError);
    EXPECT_THROW(vapour_pressure_from_wet_bulb_kpa(20, bulb, 101.3), RangeError);
  }
  EXPECT_THROW(vapour_pressure_from_wet_bulb_kpa(20, 20.1, 101.3), RangeError);
  EXPECT_THROW(vapour_pressure_from_wet_bulb_kpa(20, 15, 39), RangeError);
  EXPECT_THROW(vapour_pressure_from_wet_bulb_kpa(20, 15, std::nan("")), RangeError);
  // Dry air of 30 degC at 101.3 kPa has its wet bulb between 10 and 11 degC.
  EXPECT_THROW(vapour_pressure_from_wet_bulb_kpa(30, 10, 101.3), RangeError);
  EXPECT_GT(vapour_pressure_from_wet_bulb_kpa(30, 11, 101.3), 0);
}

}  // namespace
}  // namespace graftcast
