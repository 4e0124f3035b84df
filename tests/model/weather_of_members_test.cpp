// The members' weather ahead: errors that grow with lead, within what air and sun allow.

#include <gtest/gtest.h>

#include "ensemble/outlook.hpp"
#include "graftcast/air.hpp"
#include "model/known_hours.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

constexpr Location place{-34, 0, 100};

/// Two weeks of forecast in made weather, with the sun of its hours.
struct Ahead {
  Outlook outlook;
  std::vector<SunHour> sun;

  explicit Ahead(const MadeDay& day = {12, 30, 30, 2, 850, 5.5}) {
    const HourlyWeather known = made_weather(std::chrono::January / 10 / 2025, 20, [&](int) { return day; });
    const Hour now = known.start + std::chrono::days(6);
    outlook = complete_weather(known, known.start, now, now + std::chrono::days(14));
    sun = sun_of_hours(place, now, outlook.weather.size() - outlook.now);
  }
  WeatherArrays members(int count, std::uint64_t seed = 1) const {
    return weather_of_members(outlook, sun, ForecastErrors{published_models().forecast}, count, seed);
  }
};

double sd_of(const auto& values) {
  return std::sqrt((values - values.mean()).square().mean());
}

TEST(WeatherOfMembers, OfNoneIsTheForecastItself) {
  const Ahead ahead;
  const WeatherArrays one = ahead.members(0);
  const WeatherArrays known =
      one_course(ahead.outlook.weather, ahead.outlook.now, ahead.outlook.weather.size());
  EXPECT_EQ(one.air_c.rows(), 1);
  EXPECT_TRUE((one.air_c == known.air_c).all());
  EXPECT_TRUE((one.vapour_kpa == known.vapour_kpa).all());
  EXPECT_TRUE((one.wind_m_s == known.wind_m_s).all());
  EXPECT_TRUE((one.global_w_m2 == known.global_w_m2).all());
}

TEST(WeatherOfMembers, StayWithinWhatAirAndSunAllow) {
  for (const MadeDay& day :
       {MadeDay{12, 30, 30, 2, 850, 5.5}, MadeDay{18, 20, 99, 0, 1400, 5}, MadeDay{-15, -5, 1, 8, 100, 8},
        MadeDay{25, 45, 3, 5, 1100, 5}, MadeDay{34, 54, 3, 45, 1100, 5}}) {
    const Ahead ahead(day);
    const WeatherArrays members = ahead.members(64);
    const auto& expected = ahead.outlook.weather[Variable::shortwave].value;
    for (const auto* array : {&members.air_c, &members.vapour_kpa, &members.wind_m_s, &members.global_w_m2}) {
      EXPECT_TRUE(array->isFinite().all());
    }
    EXPECT_TRUE((members.vapour_kpa > 0).all());
    EXPECT_TRUE((members.wind_m_s >= 0).all());
    EXPECT_LE(members.wind_m_s.maxCoeff(), 60);
    EXPECT_LE(members.air_c.maxCoeff(), 60);
    EXPECT_TRUE((members.global_w_m2 >= 0).all());
    for (Eigen::Index hour = 0; hour < members.air_c.cols(); ++hour) {
      const auto i = static_cast<std::size_t>(hour);
      const double most = std::max(expected[ahead.outlook.now + i], ahead.sun[i].clear_sky_w_m2);
      EXPECT_LE(members.global_w_m2.col(hour).maxCoeff(), most);
      for (Eigen::Index member = 0; member < 64; ++member) {
        EXPECT_LE(members.vapour_kpa(member, hour),
                  raw::saturation_vapour_pressure_kpa(members.air_c(member, hour)) * (1 + 1e-12));
      }
    }
  }
}

TEST(WeatherOfMembers, SpreadMoreTheFurtherAheadUpToALimit) {
  const Ahead ahead;
  const ForecastErrors e = ForecastErrors{published_models().forecast};
  const WeatherArrays members = ahead.members(1024);
  const auto& expected = ahead.outlook.weather[Variable::air_temperature].value;
  for (const Eigen::Index hour : {0, 23, 71, 167, 300}) {
    const double lead = static_cast<double>(hour + 1) / 24;
    const double sd =
        std::min<double>(e.temperature_sd_limit, e.temperature_sd_start + e.temperature_sd_per_day * lead);
    // Standard errors of 1024 draws: 3 % of sd for the mean, 2 % for sd itself.
    EXPECT_NEAR(sd_of(members.air_c.col(hour)), sd, 0.1 * sd) << hour;
    EXPECT_NEAR(members.air_c.col(hour).mean(), expected[ahead.outlook.now + static_cast<std::size_t>(hour)],
                0.14 * sd);
    EXPECT_NEAR(sd_of(members.wind_m_s.col(hour).log()), e.ln_wind_sd, 0.1 * e.ln_wind_sd);
  }
}

TEST(WeatherOfMembers, ErrorsPersistFromHourToHour) {
  const Ahead ahead;
  const WeatherArrays members = ahead.members(1024);
  const auto correlation = [](const Eigen::ArrayXd& x, const Eigen::ArrayXd& y) {
    return ((x - x.mean()) * (y - y.mean())).mean() / (sd_of(x) * sd_of(y));
  };
  const ForecastErrors e = ForecastErrors{published_models().forecast};
  EXPECT_NEAR(correlation(members.air_c.col(50), members.air_c.col(51)), e.hourly_correlation, 0.01);
  EXPECT_NEAR(correlation(members.air_c.col(50), members.air_c.col(74)), std::pow(e.hourly_correlation, 24),
              0.05);
  EXPECT_NEAR(correlation(members.air_c.col(50), members.wind_m_s.col(50)), 0, 0.14);
  EXPECT_NEAR(correlation(members.air_c.col(50), members.global_w_m2.col(60)), 0, 0.14);
}

TEST(WeatherOfMembers, DewPointFollowsTheAirInPart) {
  const Ahead ahead({12, 40, 20, 2, 850, 5.5});  // so dry at noon that the dew point is free of the air
  const WeatherArrays members = ahead.members(1024);
  const Eigen::ArrayXd air = members.air_c.col(15);
  Eigen::ArrayXd dew(1024);
  for (Eigen::Index i = 0; i < 1024; ++i) dew[i] = raw::dew_point_c(members.vapour_kpa(i, 15));
  const double r = ((air - air.mean()) * (dew - dew.mean())).mean() / (sd_of(air) * sd_of(dew));
  EXPECT_NEAR(r, ForecastErrors{published_models().forecast}.dew_point_correlation, 0.08);
  EXPECT_NEAR(sd_of(dew) / sd_of(air), 1, 0.1);
}

TEST(WeatherOfMembers, DependOnSeedAndMemberAlone) {
  const Ahead ahead;
  const WeatherArrays one = ahead.members(16), same = ahead.members(16), other = ahead.members(16, 2),
                      more = ahead.members(48);
  EXPECT_TRUE((one.air_c == same.air_c).all());
  EXPECT_TRUE((one.global_w_m2 == same.global_w_m2).all());
  EXPECT_FALSE((one.air_c == other.air_c).any());
  EXPECT_TRUE((one.air_c == more.air_c.topRows(16)).all());
  EXPECT_FALSE((one.air_c.row(0) == one.air_c.row(1)).any());
}

TEST(WeatherOfMembers, TakeThePastYearsInTurnWithOnlyTheSmallestErrorOnTop) {
  const Hour begin = std::chrono::sys_days{std::chrono::January / 1 / 2022};
  const Hour now = std::chrono::sys_days{std::chrono::May / 10 / 2025};
  const HourlyWeather known = known_hours(begin, static_cast<std::size_t>((now - begin).count()));
  const Outlook outlook = complete_weather(known, now, now, now + std::chrono::days(10));
  const std::vector<SunHour> sun = sun_of_hours(place, now, outlook.weather.size());
  ForecastErrors none{};
  const WeatherArrays exact = weather_of_members(outlook, sun, none, 8, 1);
  for (Eigen::Index member = 0; member < 8; ++member) {
    const auto& year = outlook.years_ahead[static_cast<std::size_t>(member % 3)];
    EXPECT_TRUE((exact.air_c.row(member) == year.air_c.row(0)).all()) << member;
  }
  const ForecastErrors e = ForecastErrors{published_models().forecast};
  const WeatherArrays spread = weather_of_members(outlook, sun, e, 1000, 1);
  const WeatherArrays centres = weather_of_members(outlook, sun, none, 1000, 1);
  const Eigen::ArrayXXd error = spread.air_c - centres.air_c;
  EXPECT_NEAR(sd_of(error.col(5)), e.temperature_sd_start, 0.1 * e.temperature_sd_start);
  EXPECT_NEAR(sd_of(error.col(230)), e.temperature_sd_start, 0.1 * e.temperature_sd_start);
}

}  // namespace
}  // namespace graftcast::testing
