#include "graftcast/evapotranspiration.hpp"

#include <gtest/gtest.h>

#include "graftcast/air.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"

namespace graftcast {
namespace {

// FAO-56 example 13 (seen).
TEST(SoilHeatFlux, OfAMonthMatchesFaoExample13) {
  EXPECT_NEAR(soil_heat_flux_of_month_mj_m2(14.1, 18.8), 0.33, 0.005);
  EXPECT_NEAR(0.408 * soil_heat_flux_of_month_mj_m2(14.1, 18.8), 0.13, 0.005);
  EXPECT_NEAR(soil_heat_flux_of_latest_month_mj_m2(29.2, 30.2), 0.14, 0.005);  // example 17 (seen)
}

TEST(SoilHeatFlux, OfAnHourChangesItsShareAtZeroNetRadiation) {
  EXPECT_DOUBLE_EQ(soil_heat_flux_of_hour_mj_m2(2), 0.2);
  EXPECT_DOUBLE_EQ(soil_heat_flux_of_hour_mj_m2(-0.2), -0.1);
  EXPECT_EQ(soil_heat_flux_of_hour_mj_m2(0), 0);
}

// FAO-56 example 17 (seen): Bangkok in April, a month's means.
TEST(ReferenceEvapotranspiration, MatchesFaoExample17) {
  const double extraterrestrial = extraterrestrial_day_mj_m2(13.73, 105);
  const double global = global_from_sunshine_mj_m2(8.5, day_length_h(13.73, 105), extraterrestrial);
  const double clear_sky = clear_sky_mj_m2(extraterrestrial, 0);
  const double net_short = net_shortwave_mj_m2(global);
  const double net_long = net_longwave_day_mj_m2({.maximum_temperature_c = 34.8,
                                                  .minimum_temperature_c = 25.6,
                                                  .vapour_pressure_kpa = 2.85,
                                                  .clear_sky_ratio = clear_sky_ratio(global, clear_sky)});
  const double pressure_kpa = 101.3;  // as the example takes it; eq. 7 for 2 m gives 101.28
  EXPECT_NEAR(saturation_slope_kpa_per_c(30.2), 0.246, 0.0005);
  EXPECT_NEAR(psychrometric_constant_kpa_per_c(pressure_kpa), 0.0674, 0.00005);
  EXPECT_NEAR(mean_saturation_vapour_pressure_kpa(34.8, 25.6), 4.42, 0.005);
  EXPECT_NEAR(global, 22.65, 0.005);
  EXPECT_NEAR(clear_sky, 28.54, 0.005);
  EXPECT_NEAR(net_short, 17.44, 0.005);
  EXPECT_NEAR(net_long, 3.11, 0.005);
  EXPECT_NEAR(net_short - net_long, 14.33, 0.005);
  const DailyAir air{.maximum_temperature_c = 34.8,
                     .minimum_temperature_c = 25.6,
                     .vapour_pressure_kpa = 2.85,
                     .wind_2m_m_s = 2,
                     .pressure_kpa = pressure_kpa};
  const double flux = soil_heat_flux_of_latest_month_mj_m2(29.2, 30.2);
  EXPECT_NEAR(reference_evapotranspiration_day_mm(air, net_short - net_long, flux), 5.72, 0.005);
}

// FAO-56 example 18 (seen; the two saturation pressures and 3.88 recalled): Uccle, 6 July.
TEST(ReferenceEvapotranspiration, MatchesFaoExample18) {
  const double latitude_deg = 50 + 48 / 60.0;
  const double extraterrestrial = extraterrestrial_day_mj_m2(latitude_deg, 187);
  const double vapour_pressure_kpa =
      vapour_pressure_from_humidity_extremes_kpa({.maximum_temperature_c = 21.5,
                                                  .minimum_temperature_c = 12.3,
                                                  .maximum_humidity_pct = 84,
                                                  .minimum_humidity_pct = 63});
  const double global = global_from_sunshine_mj_m2(9.25, day_length_h(latitude_deg, 187), extraterrestrial);
  const double clear_sky = clear_sky_mj_m2(extraterrestrial, 100);
  const double net_short = net_shortwave_mj_m2(global);
  const double net_long = net_longwave_day_mj_m2({.maximum_temperature_c = 21.5,
                                                  .minimum_temperature_c = 12.3,
                                                  .vapour_pressure_kpa = vapour_pressure_kpa,
                                                  .clear_sky_ratio = clear_sky_ratio(global, clear_sky)});
  const DailyAir air{.maximum_temperature_c = 21.5,
                     .minimum_temperature_c = 12.3,
                     .vapour_pressure_kpa = vapour_pressure_kpa,
                     .wind_2m_m_s = wind_at_2m_m_s(10 / 3.6, 10),
                     .pressure_kpa = air_pressure_kpa(100)};
  EXPECT_NEAR(air.wind_2m_m_s, 2.078, 0.0005);
  EXPECT_NEAR(air.pressure_kpa, 100.1, 0.05);
  EXPECT_NEAR(saturation_slope_kpa_per_c(16.9), 0.122, 0.0005);
  EXPECT_NEAR(psychrometric_constant_kpa_per_c(air.pressure_kpa), 0.0666, 0.00005);
  EXPECT_NEAR(saturation_vapour_pressure_kpa(21.5), 2.564, 0.0005);
  EXPECT_NEAR(saturation_vapour_pressure_kpa(12.3), 1.431, 0.0005);
  EXPECT_NEAR(mean_saturation_vapour_pressure_kpa(21.5, 12.3), 1.997, 0.0005);
  EXPECT_NEAR(vapour_pressure_kpa, 1.409, 0.0005);
  EXPECT_NEAR(global, 22.07, 0.005);
  EXPECT_NEAR(clear_sky, 30.90, 0.005);
  EXPECT_NEAR(net_short, 17.00, 0.005);
  EXPECT_NEAR(net_long, 3.71, 0.005);
  EXPECT_NEAR(net_short - net_long, 13.28, 0.005);
  EXPECT_NEAR(reference_evapotranspiration_day_mm(air, net_short - net_long), 3.88, 0.005);
}

// FAO-56 example 19 (seen): N'Diaye, one hour by night and one by day.
TEST(ReferenceEvapotranspiration, MatchesFaoExample19) {
  const HourlyAir night{.temperature_c = 28,
                        .vapour_pressure_kpa = vapour_pressure_from_humidity_kpa(28, 90),
                        .wind_2m_m_s = 1.9,
                        .pressure_kpa = air_pressure_kpa(8)};
  const double night_net = -net_longwave_hour_mj_m2(28, night.vapour_pressure_kpa, 0.8);
  EXPECT_NEAR(saturation_slope_kpa_per_c(28), 0.220, 0.0005);
  EXPECT_NEAR(night_net, -0.100, 0.0005);
  EXPECT_NEAR(soil_heat_flux_of_hour_mj_m2(night_net), -0.050, 0.0005);
  EXPECT_NEAR(fao_evapotranspiration_hour_mm(night, night_net, soil_heat_flux_of_hour_mj_m2(night_net)), 0.00,
              0.005);

  const HourlyAir day{.temperature_c = 38,
                      .vapour_pressure_kpa = vapour_pressure_from_humidity_kpa(38, 52),
                      .wind_2m_m_s = 3.3,
                      .pressure_kpa = air_pressure_kpa(8)};
  const double clear_sky = clear_sky_mj_m2(
      extraterrestrial_period_mj_m2(16 + 13 / 60.0, 274, fao_hour_angle_rad(14.5, -15, -16.25, 274)), 8);
  const double day_net =
      net_shortwave_mj_m2(2.450) -
      net_longwave_hour_mj_m2(38, day.vapour_pressure_kpa, clear_sky_ratio(2.450, clear_sky));
  EXPECT_NEAR(saturation_slope_kpa_per_c(38), 0.358, 0.0005);
  EXPECT_NEAR(clear_sky, 2.658, 0.0005);
  EXPECT_NEAR(day_net, 1.749, 0.0005);
  EXPECT_NEAR(soil_heat_flux_of_hour_mj_m2(day_net), 0.175, 0.0005);
  EXPECT_NEAR(fao_evapotranspiration_hour_mm(day, day_net, soil_heat_flux_of_hour_mj_m2(day_net)), 0.63,
              0.005);
}

// FAO-56 example 20: Lyon, mid-July, from temperature alone. Inner terms and Hargreaves seen; es and the 4.56
// recalled.
TEST(ReferenceEvapotranspiration, MatchesFaoExample20) {
  const double extraterrestrial = extraterrestrial_day_mj_m2(45 + 43 / 60.0, 196);
  const double clear_sky = clear_sky_mj_m2(extraterrestrial, 200);
  const double global = global_from_temperature_range_mj_m2(26.6, 14.8, extraterrestrial, clear_sky);
  const DailyAir air{.maximum_temperature_c = 26.6,
                     .minimum_temperature_c = 14.8,
                     .vapour_pressure_kpa = vapour_pressure_from_minimum_temperature_kpa(14.8),
                     .wind_2m_m_s = 2,
                     .pressure_kpa = air_pressure_kpa(200)};
  EXPECT_NEAR(air.vapour_pressure_kpa, 1.68, 0.005);
  EXPECT_NEAR(extraterrestrial, 40.55, 0.005);
  EXPECT_NEAR(global, 22.29, 0.005);
  EXPECT_NEAR(mean_saturation_vapour_pressure_kpa(26.6, 14.8), 2.58, 0.005);
  const double net = net_shortwave_mj_m2(global) -
                     net_longwave_day_mj_m2({.maximum_temperature_c = 26.6,
                                             .minimum_temperature_c = 14.8,
                                             .vapour_pressure_kpa = air.vapour_pressure_kpa,
                                             .clear_sky_ratio = clear_sky_ratio(global, clear_sky)});
  EXPECT_NEAR(reference_evapotranspiration_day_mm(air, net), 4.56, 0.005);
  EXPECT_NEAR(hargreaves_evapotranspiration_day_mm(26.6, 14.8, extraterrestrial), 5.03, 0.005);
}

// Documentation of a public library for the data of FAO-56 example 17 (seen).
TEST(Hargreaves, MatchesAPublishedValue) {
  EXPECT_NEAR(hargreaves_evapotranspiration_day_mm(34.8, 25.6, extraterrestrial_day_mj_m2(13.73, 105)), 5.20,
              0.005);
}

TEST(Hargreaves, GivesNoNegativeEvaporationInDeepFrost) {
  EXPECT_EQ(hargreaves_evapotranspiration_day_mm(-20, -30, 5), 0);
  EXPECT_EQ(hargreaves_evapotranspiration_day_mm(20, 20, 30), 0);
}

constexpr HourlyAir mild_hour{
    .temperature_c = 20, .vapour_pressure_kpa = 1.2, .wind_2m_m_s = 2, .pressure_kpa = 101.3};

// ASCE-EWRI 2005, table 1 (recalled): written out with its own numbers.
TEST(AsceEvapotranspiration, FollowsTheStandardisedEquationByDayAndByNight) {
  const double slope = saturation_slope_kpa_per_c(20), gamma = 0.665e-3 * 101.3;
  const double deficit = saturation_vapour_pressure_kpa(20) - 1.2;
  const auto expected = [&](double net, double flux_share, double cd) {
    return (0.408 * slope * (1 - flux_share) * net + gamma * 37 / 293 * 2 * deficit) /
           (slope + gamma * (1 + cd * 2));
  };
  EXPECT_NEAR(asce_evapotranspiration_hour_mm(mild_hour, 1.5), expected(1.5, 0.1, 0.24), 1e-12);
  EXPECT_NEAR(asce_evapotranspiration_hour_mm(mild_hour, -0.2), expected(-0.2, 0.5, 0.96), 1e-12);
  EXPECT_NEAR(asce_evapotranspiration_hour_mm(mild_hour, 0), expected(0, 0.5, 0.96), 1e-12);
}

TEST(AsceEvapotranspiration, FromGlobalRadiationTakesNetRadiationOfTheGrass) {
  const double net = net_shortwave_mj_m2(2.0) - net_longwave_hour_mj_m2(20, 1.2, 0.9);
  EXPECT_EQ(asce_evapotranspiration_hour_mm(mild_hour, 2.0, 0.9),
            asce_evapotranspiration_hour_mm(mild_hour, net));
}

TEST(ReferenceEvapotranspiration, CountsAirAboveSaturationAsSaturated) {
  HourlyAir air = mild_hour;
  air.vapour_pressure_kpa = saturation_vapour_pressure_kpa(20);
  const double saturated = asce_evapotranspiration_hour_mm(air, 1);
  air.vapour_pressure_kpa += 0.1;
  EXPECT_EQ(asce_evapotranspiration_hour_mm(air, 1), saturated);
  air.vapour_pressure_kpa -= 0.2;
  EXPECT_GT(asce_evapotranspiration_hour_mm(air, 1), saturated);
}

TEST(ReferenceEvapotranspiration, CountsCalmAirAsHalfAMetreASecondInFaosForm) {
  HourlyAir air = mild_hour;
  air.wind_2m_m_s = 0;
  const double calm = fao_evapotranspiration_hour_mm(air, 1, 0.1);
  air.wind_2m_m_s = 0.5;
  EXPECT_EQ(fao_evapotranspiration_hour_mm(air, 1, 0.1), calm);
  air.wind_2m_m_s = 0.6;
  EXPECT_NE(fao_evapotranspiration_hour_mm(air, 1, 0.1), calm);
}

}  // namespace
}  // namespace graftcast
