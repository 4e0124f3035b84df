#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "graftcast/sun.hpp"
#include "published/fao56.hpp"

namespace graftcast {
namespace {

using namespace std::chrono_literals;
constexpr double pi = std::numbers::pi;

TEST(DayOfYear, CountsLeapDays) {
  EXPECT_EQ(day_of_year(2023y / 1 / 1), 1);
  EXPECT_EQ(day_of_year(2023y / 12 / 31), 365);
  EXPECT_EQ(day_of_year(2024y / 12 / 31), 366);
  EXPECT_EQ(day_of_year(2024y / 3 / 1), 61);
  EXPECT_EQ(day_of_year(2025y / 7 / 6), 187);   // FAO-56 example 18
  EXPECT_EQ(day_of_year(2025y / 10 / 1), 274);  // FAO-56 example 19
}

// FAO-56 example 8 and 9 (seen), 20 S on 3 September.
TEST(FaoSun, MatchesExamples8And9) {
  EXPECT_NEAR(inverse_relative_distance(246), 0.985, 0.0005);
  EXPECT_NEAR(fao_declination_rad(246), 0.120, 0.0005);
  EXPECT_NEAR(sunset_hour_angle_rad(-20, 246), 1.527, 0.0005);
  EXPECT_NEAR(extraterrestrial_day_mj_m2(-20, 246), 32.2, 0.05);
  EXPECT_NEAR(0.408 * extraterrestrial_day_mj_m2(-20, 246), 13.1, 0.05);
  EXPECT_NEAR(day_length_h(-20, 246), 11.7, 0.05);
}

// FAO-56 examples 10, 15, 17 and 18 (seen).
TEST(FaoSun, MatchesTheOtherExamplesOfDays) {
  EXPECT_NEAR(extraterrestrial_day_mj_m2(-22.9, 135), 25.1, 0.05);
  EXPECT_NEAR(day_length_h(-22.9, 135), 10.9, 0.05);
  EXPECT_NEAR(extraterrestrial_day_mj_m2(45 + 43 / 60.0, 196), 40.55, 0.005);
  EXPECT_NEAR(extraterrestrial_day_mj_m2(13.73, 105), 38.06, 0.005);
  EXPECT_NEAR(day_length_h(13.73, 105), 12.31, 0.005);
  EXPECT_NEAR(extraterrestrial_day_mj_m2(50 + 48 / 60.0, 187), 41.09, 0.005);
  EXPECT_NEAR(day_length_h(50 + 48 / 60.0, 187), 16.1, 0.05);
}

// Computed by a second program.
TEST(FaoSun, MatchesASecondProgram) {
  EXPECT_NEAR(extraterrestrial_day_mj_m2(45, 15), 11.9313, 5e-5);
  EXPECT_NEAR(day_length_h(45, 15), 8.9551, 5e-5);
  EXPECT_NEAR(extraterrestrial_day_mj_m2(52, 172), 41.6952, 5e-5);
  EXPECT_NEAR(day_length_h(52, 172), 16.4928, 5e-5);
  EXPECT_NEAR(extraterrestrial_day_mj_m2(0, 1), 35.7460, 5e-5);
  EXPECT_NEAR(day_length_h(0, 1), 12.0000, 5e-5);
}

TEST(FaoSun, MatchesTable26) {
  for (const auto& [latitude_deg, months] : published::fao_extraterrestrial) {
    for (std::size_t i = 0; i < 12; ++i) {
      EXPECT_NEAR(extraterrestrial_day_mj_m2(latitude_deg, published::mid_month_days[i]), months[i],
                  published::fao_extraterrestrial_tolerance)
          << latitude_deg << " month " << i + 1;
    }
  }
}

TEST(FaoSun, MatchesTable27) {
  for (const auto& [latitude_deg, months] : published::fao_day_length) {
    for (std::size_t i = 0; i < 12; ++i) {
      EXPECT_NEAR(day_length_h(latitude_deg, published::mid_month_days[i]), months[i],
                  published::fao_day_length_tolerance)
          << latitude_deg << " month " << i + 1;
    }
  }
}

// FAO-56 example 19, N'Diaye, 16 deg 13' N, 16 deg 15' W, zone meridian 15 W, 1 October (hour angle and
// radiation seen, the inner terms computed by a second program). FAO counts degrees west as positive; here
// they are negative.
TEST(FaoSun, MatchesExample19) {
  EXPECT_NEAR(seasonal_correction_h(274), 0.188942, 5e-7);
  EXPECT_NEAR(inverse_relative_distance(274), 1.000142, 5e-7);
  EXPECT_NEAR(fao_declination_rad(274), -0.075274, 5e-7);
  const double latitude_deg = 16 + 13 / 60.0;
  const double night = fao_hour_angle_rad(2.5, -15, -16.25, 274);
  const double day = fao_hour_angle_rad(14.5, -15, -16.25, 274);
  EXPECT_NEAR(night, -2.46, 0.005);
  EXPECT_NEAR(day, 0.682, 0.0005);
  EXPECT_EQ(extraterrestrial_period_mj_m2(latitude_deg, 274, night), 0);
  EXPECT_NEAR(extraterrestrial_period_mj_m2(latitude_deg, 274, day), 3.543, 0.0005);
}

TEST(FaoSun, MirrorsAcrossTheEquatorHalfADeclinationAway) {
  for (int j = 1; j <= 366; j += 5) {
    for (double latitude_deg = 0; latitude_deg <= 90; latitude_deg += 7.5) {
      EXPECT_NEAR(day_length_h(latitude_deg, j) + day_length_h(-latitude_deg, j), 24, 1e-9);
    }
  }
}

TEST(FaoSun, KnowsPolarDayAndPolarNightAndWhatLiesBetween) {
  // cos of the sunset angle is -tan(latitude) tan(declination): the edge lies at 90 degrees less declination.
  const double declination_deg = fao_declination_rad(172) * 180 / pi;
  EXPECT_EQ(day_length_h(90 - declination_deg + 0.01, 172), 24);
  EXPECT_EQ(day_length_h(-90 + declination_deg - 0.01, 172), 0);
  EXPECT_LT(day_length_h(90 - declination_deg - 0.01, 172), 24);
  EXPECT_GT(day_length_h(-90 + declination_deg + 0.01, 172), 0);
  EXPECT_EQ(extraterrestrial_day_mj_m2(-80, 172), 0);
  EXPECT_GT(extraterrestrial_day_mj_m2(80, 172), 40);
  for (const double pole : {-90.0, 90.0}) {
    for (int j = 1; j <= 366; ++j) EXPECT_TRUE(day_length_h(pole, j) == 0 || day_length_h(pole, j) == 24);
  }
}

TEST(FaoSun, HoursOfADayAddUpToTheDay) {
  std::mt19937_64 generator(2);
  std::uniform_real_distribution<double> latitude(-90, 90), shift(-20, 20);
  std::uniform_int_distribution<int> day(1, 366), pieces(1, 48);
  for (int i = 0; i < 2000; ++i) {
    const double latitude_deg = latitude(generator), begin_rad = shift(generator);
    const int j = day(generator), count = pieces(generator);
    double sum = 0;
    for (int k = 0; k < count; ++k) {
      sum += extraterrestrial_period_mj_m2(latitude_deg, j, begin_rad + 2 * pi * (k + 0.5) / count,
                                           24.0 / count);
    }
    EXPECT_NEAR(sum, extraterrestrial_day_mj_m2(latitude_deg, j), 1e-9) << latitude_deg << " " << j;
  }
}

TEST(FaoSun, AnHourThatHoldsSunsetCountsOnlyItsSunlitPart) {
  const double sunset = sunset_hour_angle_rad(40, 100);
  const double width = pi / 12;
  const double whole = extraterrestrial_period_mj_m2(40, 100, sunset - width / 2, 1);
  EXPECT_GT(whole, 0);
  // A quarter before and three quarters after sunset: the same light as the quarter alone.
  EXPECT_NEAR(extraterrestrial_period_mj_m2(40, 100, sunset + width / 4, 1),
              extraterrestrial_period_mj_m2(40, 100, sunset - width / 8, 0.25), 1e-12);
  EXPECT_EQ(extraterrestrial_period_mj_m2(40, 100, sunset + width / 2 + 1e-9, 1), 0);
  EXPECT_NEAR(extraterrestrial_period_mj_m2(40, 100, -sunset - width / 4, 1),
              extraterrestrial_period_mj_m2(40, 100, sunset + width / 4, 1), 1e-12);
}

TEST(FaoSun, APeriodAboutMidnightNearThePolarDaySeesBothDays) {
  // 66 N at the solstice: the sun is down for less than an hour and a half about midnight.
  const double dark_h = 24 - day_length_h(66, 172);
  ASSERT_GT(dark_h, 0.5);
  ASSERT_LT(dark_h, 3);
  const double about = extraterrestrial_period_mj_m2(66, 172, pi, 4);
  EXPECT_NEAR(about,
              extraterrestrial_period_mj_m2(66, 172, pi - pi / 12, 2) +
                  extraterrestrial_period_mj_m2(66, 172, -pi + pi / 12, 2),
              1e-12);
  EXPECT_GT(about, 0);
}

TEST(FaoSun, PeriodsAreTheIntegralOfTheSineOfElevation) {
  std::mt19937_64 generator(3);
  std::uniform_real_distribution<double> latitude(-90, 90), middle(-pi, pi), hours(0.1, 24);
  std::uniform_int_distribution<int> day(1, 366);
  for (int i = 0; i < 200; ++i) {
    const double latitude_deg = latitude(generator), centre = middle(generator), length_h = hours(generator);
    const int j = day(generator);
    const double phi = latitude_deg * pi / 180, delta = fao_declination_rad(j), width = length_h * pi / 12;
    constexpr int steps = 20'000;
    double sum = 0;
    for (int k = 0; k < steps; ++k) {
      const double omega = centre + width * ((k + 0.5) / steps - 0.5);
      sum +=
          std::max(0.0, std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::cos(omega));
    }
    const double numeric = 720 / pi * 0.0820 * inverse_relative_distance(j) * sum * width / steps;
    EXPECT_NEAR(extraterrestrial_period_mj_m2(latitude_deg, j, centre, length_h), numeric, 1e-5);
  }
}

}  // namespace
}  // namespace graftcast
