// Days drawn from a log's months: their means, spreads and persistence, and where months are too short.

#include "ensemble/monthly_climate.hpp"

#include <gtest/gtest.h>

#include <random>

#include "ensemble/season.hpp"
#include "graftcast/air.hpp"
#include "model/made_season.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

constexpr Location place{-34, 0, 100};
constexpr Hour january = std::chrono::sys_days{std::chrono::January / 1 / 2025};

/// Weather whose days differ at random about a mean of 15 to 27 degC.
HourlyWeather varied(std::chrono::year_month_day first, int days, unsigned seed = 3) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> warmer(0, 3), brighter(0, 120);
  std::lognormal_distribution<double> windier(0.5, 0.3);
  return made_weather(first, days, [&](int) {
    const double warm = warmer(random);
    return MadeDay{15 + 0.6 * warm, 27 + warm, 45, windier(random), 700 + brighter(random), 5.5};
  });
}

MonthlyClimate climate_of(const HourlyWeather& weather, Hour until) {
  return {weather, until, place, published_models().monthly_climate};
}
MonthlyClimate climate_of(const HourlyWeather& weather) {
  return climate_of(weather, weather.end());
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}
double together(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - mean_of(a)) * (b[i] - mean_of(b));
  return sum / static_cast<double>(a.size());
}
double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  return together(a, b) / std::sqrt(together(a, a) * together(b, b));
}

/// Highest and lowest temperature of each day of many courses, 28 days each.
struct DrawnDays {
  std::vector<double> highest, lowest;
};
DrawnDays drawn_days(const MonthlyClimate& climate, int members) {
  DrawnDays days;
  const Hour begin = january + std::chrono::days(365), end = begin + std::chrono::days(28);
  for (int member = 0; member < members; ++member) {
    const WeatherArrays course = climate.course(begin, end, 1, static_cast<std::uint64_t>(member));
    for (Eigen::Index day = 0; day < 28; ++day) {
      const auto hours = course.air_c.row(0).segment(24 * day, 24);
      days.highest.push_back(hours.maxCoeff());
      days.lowest.push_back(hours.minCoeff());
    }
  }
  return days;
}

TEST(MonthlyClimate, GivesMeansAndSpreadsOfTheLogBack) {
  const HourlyWeather weather = varied(std::chrono::January / 1 / 2025, 31);
  const MonthlyClimate climate = climate_of(weather);
  const MonthClimate& month = climate.of(std::chrono::January);
  EXPECT_EQ(month.days, 31U);
  EXPECT_FALSE(month.is_borrowed);
  const DrawnDays days = drawn_days(climate, repetitions(200));
  const double slack = sanitized ? 0.6 : 0.15;
  EXPECT_NEAR(mean_of(days.highest), month.mean[day_maximum], slack);
  EXPECT_NEAR(mean_of(days.lowest), month.mean[day_minimum], 2 * slack);
  EXPECT_NEAR(std::sqrt(together(days.highest, days.highest)), month.sd[day_maximum], 2 * slack);
}

TEST(MonthlyClimate, PersistsFromDayToDayAsPublished) {
  // Richardson 1981 (Water Resour. Res. 17, 182): the highest temperature persists with 0.62, and goes with
  // the lowest by 0.63 (both recalled); what the matrices of 1984 give lies by those.
  const MonthlyClimate climate = climate_of(varied(std::chrono::January / 1 / 2025, 31));
  const DrawnDays days = drawn_days(climate, repetitions(200));
  std::vector<double> first, second;
  for (std::size_t i = 0; i + 1 < days.highest.size(); ++i) {
    if (i % 28 == 27) continue;
    first.push_back(days.highest[i]);
    second.push_back(days.highest[i + 1]);
  }
  EXPECT_NEAR(correlation(first, second), 0.62, sanitized ? 0.15 : 0.06);
  EXPECT_NEAR(correlation(days.highest, days.lowest), 0.63, sanitized ? 0.2 : 0.1);
}

TEST(MonthlyClimate, KeepsWithinWhatAirAndSunAllow) {
  const MonthlyClimate climate = climate_of(varied(std::chrono::January / 1 / 2025, 31));
  const Hour begin = january + std::chrono::days(365);
  const auto sun = sun_of_hours(place, begin, 240);
  for (std::uint64_t member = 0; member < 20; ++member) {
    const WeatherArrays course = climate.course(begin, begin + std::chrono::days(10), 1, member);
    for (Eigen::Index i = 0; i < 240; ++i) {
      EXPECT_LE(course.vapour_kpa(0, i), raw::saturation_vapour_pressure_kpa(course.air_c(0, i)) + 1e-12);
      EXPECT_LE(course.global_w_m2(0, i), sun[static_cast<std::size_t>(i)].clear_sky_w_m2 + 1e-9);
      EXPECT_GE(course.global_w_m2(0, i), 0);
      EXPECT_GT(course.wind_m_s(0, i), 0);
      EXPECT_TRUE(std::isfinite(course.air_c(0, i)));
    }
  }
}

TEST(MonthlyClimate, RunsFromDayToDayWithoutAJump) {
  const MonthlyClimate climate = climate_of(varied(std::chrono::January / 1 / 2025, 31));
  const Hour begin = january + std::chrono::days(365);
  const WeatherArrays course = climate.course(begin, begin + std::chrono::days(28), 1, 5);
  for (Eigen::Index i = 1; i < course.air_c.cols(); ++i)
    EXPECT_LT(std::abs(course.air_c(0, i) - course.air_c(0, i - 1)), 5) << i;
}

TEST(MonthlyClimate, DrawsTheSameCourseForTheSameSeedAndMember) {
  const MonthlyClimate climate = climate_of(varied(std::chrono::January / 1 / 2025, 31));
  const Hour begin = january + std::chrono::days(365), end = begin + std::chrono::days(9);
  const auto course = [&](std::uint64_t seed, std::uint64_t member) {
    return climate.course(begin, end, seed, member).air_c;
  };
  EXPECT_TRUE((course(1, 3) == course(1, 3)).all());
  EXPECT_FALSE((course(1, 3) == course(1, 4)).all());
  EXPECT_FALSE((course(2, 3) == course(1, 3)).all());
}

TEST(MonthlyClimate, GoesOnFromTheLastDayOfTheLog) {
  // A last day ten degrees warmer than the month: the next one is warm in nearly every course.
  const HourlyWeather weather = made_weather(std::chrono::January / 1 / 2025, 28, [](int day) {
    const double warm = day == 27 ? 10 : (day % 2 == 0 ? 2 : -2);
    return MadeDay{15 + warm, 27 + warm, 45, 1.5, 700, 5.5};
  });
  const MonthlyClimate climate = climate_of(weather);
  const auto highest = [&](Hour begin) {
    double sum = 0;
    for (std::uint64_t member = 0; member < 64; ++member)
      sum += climate.course(begin, begin + std::chrono::days(1), 1, member).air_c.maxCoeff() / 64;
    return sum;
  };
  const double usual = climate.of(std::chrono::January).mean[day_maximum];
  EXPECT_GT(highest(weather.end()), usual + 2);
  EXPECT_NEAR(highest(weather.end() + std::chrono::days(365)), usual, 1.5);
}

TEST(MonthlyClimate, BorrowsForShortMonthsAndKnowsNothingOfFarOnes) {
  const MonthlyClimate climate = climate_of(varied(std::chrono::January / 10 / 2025, 30));  // to 8 February
  EXPECT_FALSE(climate.of(std::chrono::January).is_borrowed);
  EXPECT_TRUE(climate.of(std::chrono::February).is_borrowed);
  EXPECT_EQ(climate.of(std::chrono::February).days, 30U);
  EXPECT_TRUE(climate.of(std::chrono::December).is_borrowed);
  EXPECT_TRUE(climate.knows(january + std::chrono::days(50)));
  // March has the eight days of February beside it: fewer than ten.
  EXPECT_FALSE(climate.knows(january + std::chrono::days(70)));
  EXPECT_FALSE(climate.knows(january + std::chrono::days(180)));
}

TEST(MonthlyClimate, CountsNoForecastsNorWhatCameLater) {
  HourlyWeather weather = varied(std::chrono::January / 1 / 2025, 31);
  EXPECT_EQ(climate_of(weather, january + std::chrono::days(20)).of(std::chrono::January).days, 20U);
  for (std::size_t i = 24UL * 15; i < weather.size(); ++i)
    for (auto& column : weather.columns) column.origin[i] = Origin::forecast;
  EXPECT_EQ(climate_of(weather).of(std::chrono::January).days, 15U);
}

TEST(MonthlyClimate, StandsInBetweenPastYearsAndTheLastWeek) {
  const Hour now = january + std::chrono::days(45);
  SeasonSettings settings;
  settings.as_of = now;
  settings.members = 16;
  settings.outlook_days = 75;
  const auto stand_ins = [&](const HourlyWeather& weather, bool wanted) {
    settings.monthly_climate = wanted;
    const MadeSeason made(made_site({}), weather, now, settings);
    std::vector<StandIn> all;
    for (std::size_t day = 0; day < 75; ++day) all.push_back(made.season.outlook.stand_in[24 * day]);
    return all;
  };
  const HourlyWeather short_log = varied(std::chrono::January / 1 / 2025, 45);
  EXPECT_EQ(stand_ins(short_log, false).front(), StandIn::last_week);
  const auto stood_in = stand_ins(short_log, true);
  EXPECT_EQ(stood_in[0], StandIn::monthly_climate);   // February
  EXPECT_EQ(stood_in[40], StandIn::monthly_climate);  // March, by February
  EXPECT_EQ(stood_in[74], StandIn::last_week);        // April: nothing is known of it
  const HourlyWeather long_log = varied(std::chrono::January / 1 / 2024, 366 + 45);
  EXPECT_EQ(stand_ins(long_log, true).front(), StandIn::past_years);
}

TEST(MonthlyClimate, GivesEachMemberACourseOfItsOwnAndSaysWhatIsBorrowed) {
  SeasonSettings settings;
  settings.as_of = january + std::chrono::days(45);
  settings.members = 16;
  settings.outlook_days = 40;
  settings.monthly_climate = true;
  const MadeSeason made(made_site({}), varied(std::chrono::January / 1 / 2025, 45), settings.as_of, settings);
  const Season& season = made.season;
  ASSERT_EQ(season.ahead.courses(), 16);
  const auto last = season.ahead.air_c.col(24 * 17 + 15);
  EXPECT_GT(std::sqrt((last - last.mean()).square().mean()), 1.0);
  EXPECT_EQ(season.outlook.borrowed_months, std::vector<std::chrono::month>{std::chrono::March});
  for (std::size_t i = season.now(); i < season.hours(); ++i)
    EXPECT_TRUE(season.outlook.weather[Variable::air_temperature].known(i));
}

}  // namespace
}  // namespace graftcast::testing
