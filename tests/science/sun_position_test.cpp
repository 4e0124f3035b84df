#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "graftcast/sun.hpp"

namespace graftcast {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;
using std::chrono::sys_seconds;

sys_seconds utc(std::chrono::year_month_day day, std::chrono::seconds time = std::chrono::seconds(0)) {
  return sys_days(day) + time;
}

sys_seconds random_instant(std::mt19937_64& generator) {
  std::uniform_int_distribution<long> second(0, 100L * 365 * 86400);
  return sys_days(1950y / 1 / 1) + std::chrono::seconds(second(generator));
}

// Reda & Andreas 2004 (NREL SPA report), worked example (seen). The short method is good to 0.01 degrees.
TEST(SunPosition, MatchesTheSpaExampleWithin001Degrees) {
  const auto instant = utc(2003y / 10 / 17, 19h + 30min + 30s);
  const SunPosition sun = sun_position(instant, 39.742476, -105.1786);
  EXPECT_NEAR(sun_coordinates(instant).declination_deg, -9.31434, 0.01);
  EXPECT_NEAR(sun_coordinates(instant).equation_of_time_min, 14.64, 0.02);
  EXPECT_NEAR(sun_coordinates(instant).distance_au, 0.9965422974, 5e-5);
  EXPECT_NEAR(sun.hour_angle_deg, 11.10590, 0.01);
  EXPECT_NEAR(sun.elevation_deg, 39.872046, 0.01);
  EXPECT_NEAR(90 - sun.refracted_elevation_deg, 50.11162, 0.01);
  EXPECT_NEAR(sun.azimuth_deg, 194.34024, 0.01);
}

// The same by the short method, computed by a second program.
TEST(SunPosition, MatchesASecondProgramForTheSpaExample) {
  const auto instant = utc(2003y / 10 / 17, 19h + 30min + 30s);
  const SunPosition sun = sun_position(instant, 39.742476, -105.1786);
  EXPECT_NEAR(sun_coordinates(instant).declination_deg, -9.31580, 2e-5);
  EXPECT_NEAR(sun_coordinates(instant).equation_of_time_min, 14.647, 5e-4);
  EXPECT_NEAR(sun.hour_angle_deg, 11.10805, 2e-5);
  EXPECT_NEAR(sun.elevation_deg, 39.87207, 2e-5);
  EXPECT_NEAR(sun.azimuth_deg, 194.34258, 2e-5);
}

// Meeus, Astronomical Algorithms, examples 25.a and 28.b, 1992-10-13 0h dynamical time (seen): 59 s of
// difference from universal time move the sun by less than the tolerance.
TEST(SunCoordinates, MatchMeeusExamples25aAnd28b) {
  const SunCoordinates sun = sun_coordinates(utc(1992y / 10 / 13));
  EXPECT_NEAR(sun.declination_deg, -7.78507, 5e-5);
  EXPECT_NEAR(sun.distance_au, 0.99766, 5e-6);
  EXPECT_NEAR(sun.equation_of_time_min, 13 + 42.7 / 60, 0.01);
}

// Hour angle of a public test suite (seen): 0.000801 degrees at 12:04:44.634 for an equation of time of
// -4.026295 min.
TEST(SunPosition, MatchesAPublishedHourAngle) {
  const auto instant = utc(2015y / 1 / 2, 19h + 4min + 44s);
  const double own_equation_min = sun_coordinates(instant).equation_of_time_min;
  EXPECT_NEAR(own_equation_min, -4.026295, 0.02);
  const double angle_deg = sun_position(instant, 0, -105.1786).hour_angle_deg;
  EXPECT_NEAR(angle_deg + (-4.026295 - own_equation_min + 0.634 / 60) / 4, 0.000801, 1e-6);
}

// Greatest error of FAO's declination and equation of time against Meeus in 2015: 1.19 degrees, 1.24 minutes
// (computed by a second program).
TEST(SunCoordinates, DifferFromFaosByAsMuchAsIsKnown) {
  double declination_deg = 0, time_min = 0;
  for (int j = 1; j <= 365; ++j) {
    const SunCoordinates sun = sun_coordinates(utc(2015y / 1 / 1, std::chrono::days(j - 1) + 12h));
    declination_deg = std::max(
        declination_deg, std::abs(fao_declination_rad(j) * 180 / std::numbers::pi - sun.declination_deg));
    time_min = std::max(time_min, std::abs(60 * seasonal_correction_h(j) - sun.equation_of_time_min));
  }
  EXPECT_NEAR(declination_deg, 1.19, 0.05);
  EXPECT_NEAR(time_min, 1.24, 0.05);
}

TEST(SunPosition, PutsTheSunWhereTheDayPutsIt) {
  // Equinox at the equator: up in the east, overhead at noon, down in the west.
  const SunTimes day = sun_times(utc(2024y / 3 / 20, 12h), 0, 0);
  EXPECT_NEAR(day.noon_elevation_deg, 90, 0.3);
  EXPECT_NEAR(sun_position(*day.sunrise, 0, 0).azimuth_deg, 90, 0.3);
  EXPECT_NEAR(sun_position(*day.sunset, 0, 0).azimuth_deg, 270, 0.3);
  // At noon south of the sun's latitude it stands in the north, north of it in the south.
  const auto north_of_it = sun_times(utc(2024y / 6 / 20, 12h), 50, 8);
  EXPECT_NEAR(sun_position(north_of_it.noon, 50, 8).azimuth_deg, 180, 0.02);
  const auto south_of_it = sun_times(utc(2024y / 6 / 20, 12h), -34, 8);
  const double azimuth_deg = sun_position(south_of_it.noon, -34, 8).azimuth_deg;
  EXPECT_LT(std::min(azimuth_deg, 360 - azimuth_deg), 0.02);
}

TEST(SunPosition, IsTheDirectionOfOneVectorForEveryPlaceAndInstant) {
  std::mt19937_64 generator(4);
  std::uniform_real_distribution<double> latitude(-90, 90), longitude(-180, 180);
  for (int i = 0; i < 5000; ++i) {
    const double phi_deg = latitude(generator);
    const auto instant = random_instant(generator);
    const SunPosition sun = sun_position(instant, phi_deg, longitude(generator));
    const double radian = std::numbers::pi / 180;
    // Back from the horizon's frame to the equator's: the declination must come out again.
    const double sine = std::sin(phi_deg * radian) * std::sin(sun.elevation_deg * radian) +
                        std::cos(phi_deg * radian) * std::cos(sun.elevation_deg * radian) *
                            std::cos(sun.azimuth_deg * radian);
    EXPECT_NEAR(std::asin(std::clamp(sine, -1.0, 1.0)) / radian, sun_coordinates(instant).declination_deg,
                1e-6);
    EXPECT_EQ(std::signbit(std::sin(sun.azimuth_deg * radian)), sun.hour_angle_deg > 0);
    EXPECT_GE(sun.azimuth_deg, 0);
    EXPECT_LT(sun.azimuth_deg, 360);
    EXPECT_GE(sun.refracted_elevation_deg, sun.elevation_deg);
  }
}

TEST(SunPosition, RefractionJoinsAtItsBranchesAndLiftsTheHorizonByHalfADegree) {
  // Walk one sunset second by second: no step may exceed what the sun itself moves.
  const SunTimes day = sun_times(utc(2024y / 3 / 20, 12h), 45, 0);
  double last = 90;
  for (auto t = day.noon; t < day.noon + 8h; t += 4s) {
    const SunPosition sun = sun_position(t, 45, 0);
    if (last < 90) {
      EXPECT_NEAR(sun.refracted_elevation_deg, last, 0.03);
    }
    last = sun.refracted_elevation_deg;
    if (std::abs(sun.elevation_deg) < 0.01) {
      EXPECT_NEAR(last, 0.48, 0.02);
    }
  }
}

TEST(TrueSolarTime, IsTwelveAtNoonAndMovesWithTheClock) {
  const SunTimes day = sun_times(utc(2024y / 11 / 3, 18h), 40, -105);
  EXPECT_NEAR(true_solar_time_h(day.noon, -105), 12, 1.0 / 3600);
  EXPECT_NEAR(true_solar_time_h(day.noon + 3h, -105), 15, 0.001);
  EXPECT_NEAR(true_solar_time_h(day.noon + 12h + 1min, -105), 1.0 / 60, 0.001);
  EXPECT_NEAR(true_solar_time_h(day.noon - 12h - 1min, -105), 24 - 1.0 / 60, 0.001);
}

struct PrintedDay {
  double latitude_deg, longitude_deg;
  sys_seconds around, sunrise, sunset;
};

// NREL SPA report, table A5.1: sunrise and sunset, UTC (seen). NOAA's method reproduces them within 2 s
// (computed by a second program).
TEST(SunTimes, MatchTheSpaReportWithin2Seconds) {
  const auto a = 1996y / 7 / 5, b = 2004y / 12 / 4, c = 1994y / 1 / 2;
  const PrintedDay printed[] = {{-35, 0, utc(a, 12h), utc(a, 7h + 8min + 15s), utc(a, 17h + 1min + 4s)},
                                {-35, 0, utc(b, 12h), utc(b, 4h + 38min + 57s), utc(b, 19h + 2min + 2s)},
                                {35, 0, utc(c, 12h), utc(c, 7h + 8min + 12s), utc(c, 16h + 59min + 55s)}};
  for (const auto& day : printed) {
    const SunTimes times = sun_times(day.around, day.latitude_deg, day.longitude_deg);
    EXPECT_LE(std::chrono::abs(*times.sunrise - day.sunrise), 2s);
    EXPECT_LE(std::chrono::abs(*times.sunset - day.sunset), 2s);
  }
}

// US Naval Observatory, 39 N 105 W, mountain standard time, whole minutes (seen).
TEST(SunTimes, MatchTheNavalObservatoryWithinHalfAMinute) {
  struct Row {
    std::chrono::year_month_day day;
    std::chrono::minutes sunrise, sunset;
  };
  const Row printed[] = {{2015y / 1 / 2, 7h + 19min, 16h + 49min},
                         {2015y / 4 / 2, 5h + 43min, 18h + 24min},
                         {2015y / 8 / 2, 5h + 1min, 19h + 10min},
                         {2015y / 12 / 2, 7h + 1min, 16h + 38min}};
  for (const auto& [day, sunrise, sunset] : printed) {
    const SunTimes times = sun_times(utc(day, 19h), 39, -105);
    EXPECT_LE(std::chrono::abs(*times.sunrise - utc(day, sunrise + 7h)), 31s);
    EXPECT_LE(std::chrono::abs(*times.sunset - utc(day, sunset + 7h)), 31s);
  }
}

TEST(SunTimes, FindTheNoonNearestToTheInstantGiven) {
  const auto noon = sun_times(utc(2024y / 5 / 5, 23h), 10, 179.9).noon;
  EXPECT_LE(std::chrono::abs(noon - utc(2024y / 5 / 5, 23h)), 12h);
  EXPECT_EQ(sun_times(noon + 11h, 10, 179.9).noon, noon);
  EXPECT_EQ(sun_times(noon - 11h, 10, 179.9).noon, noon);
  EXPECT_GT(sun_times(noon + 13h, 10, 179.9).noon, noon);
}

TEST(SunTimes, AgreeWithTheSunsElevationOnEveryDayAtEveryLatitude) {
  constexpr double drift_deg = 0.21;  // declination in half a day: at the poles it alone lifts the sun
  for (double latitude_deg = -90; latitude_deg <= 90; latitude_deg += 1.5) {
    for (int j = 0; j < 365; j += 3) {
      const SunTimes day = sun_times(utc(2023y / 1 / 1, std::chrono::days(j) + 12h), latitude_deg, 0);
      const auto elevation = [&](sys_seconds t) { return sun_position(t, latitude_deg, 0).elevation_deg; };
      if (day.sunrise) {
        EXPECT_LT(elevation(*day.sunrise - 1s), sunrise_elevation_deg);
        EXPECT_GE(elevation(*day.sunrise), sunrise_elevation_deg);
      }
      if (day.sunset) {
        EXPECT_GE(elevation(*day.sunset), sunrise_elevation_deg);
        EXPECT_LT(elevation(*day.sunset + 1s), sunrise_elevation_deg);
      }
      EXPECT_LE(day.polar_day() + day.polar_night(), 1);
      for (auto t = day.noon - 12h; t <= day.noon + 12h; t += 1h) {
        if (day.polar_day()) {
          EXPECT_GE(elevation(t), sunrise_elevation_deg - drift_deg);
        }
        if (day.polar_night()) {
          EXPECT_LT(elevation(t), sunrise_elevation_deg + drift_deg);
        }
      }
    }
  }
}

TEST(SunTimes, KnowPolarDayAndNight) {
  EXPECT_TRUE(sun_times(utc(2024y / 6 / 21, 12h), 70, 20).polar_day());
  EXPECT_TRUE(sun_times(utc(2024y / 12 / 21, 12h), 70, 20).polar_night());
  EXPECT_TRUE(sun_times(utc(2024y / 12 / 21, 12h), -70, 20).polar_day());
  const SunTimes ordinary = sun_times(utc(2024y / 3 / 20, 12h), 70, 20);
  EXPECT_FALSE(ordinary.polar_day());
  EXPECT_FALSE(ordinary.polar_night());
}

TEST(SunPeriod, IsTheMeanOfTheInstantsItHolds) {
  std::mt19937_64 generator(5);
  std::uniform_real_distribution<double> latitude(-90, 90), longitude(-180, 180);
  for (int i = 0; i < 1000; ++i) {
    const double phi_deg = latitude(generator), lambda_deg = longitude(generator);
    const auto begin = random_instant(generator);
    double sine = 0, up = 0;
    for (int k = 0; k < 360; ++k) {
      const double elevation_deg =
          sun_position(begin + std::chrono::seconds(10 * k + 5), phi_deg, lambda_deg).elevation_deg;
      sine += std::max(0.0, std::sin(elevation_deg * std::numbers::pi / 180)) / 360;
      up += (elevation_deg > 0) / 360.0;
    }
    const SunPeriod hour = sun_period(begin, phi_deg, lambda_deg);
    EXPECT_NEAR(hour.mean_sine_of_elevation, sine, 1e-4);
    // Near the poles the sun can skim the horizon, where a thousandth of a degree decides about minutes.
    EXPECT_NEAR(hour.sunlit_share, up, std::abs(phi_deg) < 65 ? 0.004 : 0.1);
    const double distance = sun_coordinates(begin + 30min).distance_au;
    EXPECT_NEAR(hour.mean_extraterrestrial_w_m2, 1366.667 / distance / distance * hour.mean_sine_of_elevation,
                1e-3);
  }
}

TEST(SunPeriod, GivesNothingByNightAndPartOfTheHourOfSunset) {
  const SunTimes day = sun_times(utc(2024y / 4 / 10, 12h), 48, 11);
  EXPECT_EQ(sun_period(*day.sunset + 30min, 48, 11).mean_sine_of_elevation, 0);
  EXPECT_EQ(sun_period(*day.sunset + 30min, 48, 11).sunlit_share, 0);
  const SunPeriod last = sun_period(*day.sunset - 30min, 48, 11);
  EXPECT_GT(last.sunlit_share, 0.3);
  EXPECT_LT(last.sunlit_share, 0.5);  // the flat horizon without refraction ends some minutes before sunset
  EXPECT_EQ(sun_period(day.noon - 30min, 48, 11).sunlit_share, 1);
}

TEST(SunPeriod, OfADayIsTheMeanOfItsHoursAndNearFaosDay) {
  for (double latitude_deg = -60; latitude_deg <= 60; latitude_deg += 15) {
    for (int j = 1; j <= 365; j += 7) {
      const auto midnight = utc(2015y / 1 / 1, std::chrono::days(j - 1));
      double hours_mj = 0;
      for (int h = 0; h < 24; ++h) {
        hours_mj +=
            0.0036 * sun_period(midnight + std::chrono::hours(h), latitude_deg, 0).mean_extraterrestrial_w_m2;
      }
      // A true solar day is up to 30 s longer or shorter than 24 h, which hours see and a day as a whole does
      // not.
      const double day_mj = 0.0864 * sun_period(midnight, latitude_deg, 0, 24h).mean_extraterrestrial_w_m2;
      EXPECT_NEAR(hours_mj, day_mj, 0.02) << latitude_deg << " " << j;
      // 1.2 degrees of declination, as far as FAO's is off, weigh up to 1.3 MJ at 60 degrees of latitude.
      EXPECT_NEAR(day_mj, extraterrestrial_day_mj_m2(latitude_deg, j), 1.3) << latitude_deg << " " << j;
    }
  }
}

}  // namespace
}  // namespace graftcast
