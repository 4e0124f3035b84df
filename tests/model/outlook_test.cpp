// What stands in for weather that is not known, and that it is said.

#include "ensemble/outlook.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "graftcast/error.hpp"
#include "model/known_hours.hpp"

namespace graftcast::testing {
namespace {

using std::chrono::sys_days;

constexpr Hour start = sys_days{std::chrono::May / 1 / 2025};

TEST(Outlook, KeepsWhatIsKnownAndMeasuresTheLeadFromNowOrFromTheMakingOfTheForecast) {
  HourlyWeather known = known_hours(start, 96);
  for (std::size_t i = 48; i < 96; ++i) {
    for (auto& column : known.columns) {
      if (column.origin[i] != Origin::missing) column.origin[i] = Origin::forecast;
    }
  }
  for (std::size_t i = 72; i < 96; ++i) known.forecast_lead_h[i] = static_cast<float>(i - 48 + 6);
  const Outlook outlook =
      complete_weather(known, start, start + std::chrono::days(2), start + std::chrono::days(4));
  EXPECT_EQ(outlook.now, 48U);
  EXPECT_TRUE(outlook.gaps.empty());
  for (std::size_t i = 0; i < 96; ++i) {
    EXPECT_EQ(outlook.stand_in[i], StandIn::none);
    EXPECT_EQ(taken_from(outlook.weather, i), outlook.weather.hour(i));
    EXPECT_EQ(outlook.weather[Variable::wind_speed].origin[i], i < 48 ? Origin::measured : Origin::forecast);
  }
  EXPECT_EQ(outlook.lead_days[47], 0);
  EXPECT_DOUBLE_EQ(outlook.lead_days[48], 1 / 24.0);
  EXPECT_DOUBLE_EQ(outlook.lead_days[71], 1.0);
  EXPECT_DOUBLE_EQ(outlook.lead_days[72], 30 / 24.0);  // made six hours before now
}

TEST(Outlook, CutsTheSeriesToWhatIsAskedFor) {
  const Outlook outlook = complete_weather(known_hours(start, 240), start + std::chrono::days(2),
                                           start + std::chrono::days(3), start + std::chrono::days(5));
  EXPECT_EQ(outlook.weather.start, start + std::chrono::days(2));
  EXPECT_EQ(outlook.weather.size(), 72U);
  EXPECT_EQ(outlook.now, 24U);
  EXPECT_EQ(taken_from(outlook.weather, 0), start + std::chrono::days(2));
}

TEST(Outlook, FillsHolesOfThePastFromTheNearestDayAndSaysSo) {
  // Known from the second day on, with a hole from hour 60 to 63.
  const HourlyWeather known =
      known_hours(start, 144, [](std::size_t i) { return i >= 24 && !(i >= 60 && i < 63); });
  const Outlook outlook =
      complete_weather(known, start, start + std::chrono::days(6), start + std::chrono::days(6));
  EXPECT_EQ(taken_from(outlook.weather, 5), start + std::chrono::hours(29));   // no day before: the one after
  EXPECT_EQ(taken_from(outlook.weather, 61), start + std::chrono::hours(37));  // the day before goes first
  ASSERT_EQ(outlook.gaps.size(), 2U);
  EXPECT_EQ(outlook.gaps[0].from, start);
  EXPECT_EQ(outlook.gaps[0].to, start + std::chrono::hours(24));
  EXPECT_EQ(outlook.gaps[1].from, start + std::chrono::hours(60));
  EXPECT_EQ(outlook.gaps[1].to, start + std::chrono::hours(63));
  EXPECT_EQ(outlook.gaps[1].filled_by, StandIn::neighbouring_days);
  EXPECT_EQ(outlook.stand_in[61], StandIn::neighbouring_days);
  EXPECT_EQ(outlook.weather[Variable::air_temperature].origin[61], Origin::filled);
  EXPECT_EQ(outlook.lead_days[61], 0);
}

TEST(Outlook, KeepsTheRainOfAnHourWhoseTemperatureIsNotKnown) {
  HourlyWeather known = known_hours(start, 72, [](std::size_t i) { return i != 30; });
  known[Variable::precipitation].value[30] = 4.5;
  known[Variable::precipitation].origin[30] = Origin::measured;
  const Outlook outlook =
      complete_weather(known, start, start + std::chrono::days(3), start + std::chrono::days(3));
  EXPECT_EQ(outlook.weather[Variable::precipitation].value[30], 4.5);
  EXPECT_EQ(outlook.weather[Variable::precipitation].origin[30], Origin::measured);
  EXPECT_EQ(taken_from(outlook.weather, 30), start + std::chrono::hours(6));
}

TEST(Outlook, WithoutForecastTakesThePastYearsAtTheDate) {
  const Hour begin = sys_days{std::chrono::January / 1 / 2022};
  const Hour now = sys_days{std::chrono::May / 10 / 2025} + std::chrono::hours(7);
  const HourlyWeather known = known_hours(begin, static_cast<std::size_t>((now - begin).count()));
  const Outlook outlook =
      complete_weather(known, now - std::chrono::days(30), now, now + std::chrono::days(21));
  ASSERT_EQ(outlook.year_offsets_h.size(), 3U);
  ASSERT_EQ(outlook.years_ahead.size(), 3U);
  for (int k = 0; k < 3; ++k) {
    const Hour there = sys_days{std::chrono::year(2024 - k) / std::chrono::May / 10} + std::chrono::hours(7);
    EXPECT_EQ(now + std::chrono::hours(outlook.year_offsets_h[static_cast<std::size_t>(k)]), there);
    const auto& air_c = outlook.years_ahead[static_cast<std::size_t>(k)].air_c;
    EXPECT_EQ(air_c.cols(), 21 * 24);
    EXPECT_DOUBLE_EQ(air_c(0, 0), stamp_of(there));
    EXPECT_DOUBLE_EQ(air_c(0, 500), stamp_of(there + std::chrono::hours(500)));
  }
  EXPECT_EQ(taken_from(outlook.weather, outlook.now),
            sys_days{std::chrono::May / 10 / 2024} + std::chrono::hours(7));
  ASSERT_EQ(outlook.gaps.size(), 1U);
  EXPECT_EQ(outlook.gaps[0].from, now);
  EXPECT_EQ(outlook.gaps[0].to, now + std::chrono::days(21));
  EXPECT_EQ(outlook.gaps[0].filled_by, StandIn::past_years);
}

TEST(Outlook, OfTheTwentyNinthOfFebruaryTakesTheTwentyEighthOfCommonYears) {
  const Hour begin = sys_days{std::chrono::January / 1 / 2020};
  const Hour now = sys_days{std::chrono::February / 29 / 2024};
  const HourlyWeather known = known_hours(begin, static_cast<std::size_t>((now - begin).count()));
  const Outlook outlook =
      complete_weather(known, now - std::chrono::days(3), now, now + std::chrono::days(7));
  ASSERT_EQ(outlook.year_offsets_h.size(), 4U);
  const auto there = [&](std::size_t k) { return now + std::chrono::hours(outlook.year_offsets_h[k]); };
  EXPECT_EQ(there(0), Hour{sys_days{std::chrono::February / 28 / 2023}});
  EXPECT_EQ(there(2), Hour{sys_days{std::chrono::February / 28 / 2021}});
  EXPECT_EQ(there(3), Hour{sys_days{std::chrono::February / 29 / 2020}});
}

TEST(Outlook, LeavesOutAPastYearWithAHoleAndKeepsTheForecastBeforeThem) {
  const Hour begin = sys_days{std::chrono::January / 1 / 2022};
  const Hour now = sys_days{std::chrono::May / 10 / 2025};
  const Hour hole = sys_days{std::chrono::May / 20 / 2024};
  const auto size = static_cast<std::size_t>((now - begin).count()) + 72;  // three days of forecast
  const HourlyWeather known = known_hours(
      begin, size, [&](std::size_t i) { return begin + std::chrono::hours(static_cast<long>(i)) != hole; });
  const Outlook outlook = complete_weather(known, now, now, now + std::chrono::days(21));
  ASSERT_EQ(outlook.years_ahead.size(), 2U);  // 2023 and 2022
  const auto& air_c = outlook.years_ahead[0].air_c;
  EXPECT_DOUBLE_EQ(air_c(0, 71), stamp_of(now + std::chrono::hours(71)));
  EXPECT_DOUBLE_EQ(air_c(0, 72), stamp_of(sys_days{std::chrono::May / 13 / 2023}));
  EXPECT_EQ(outlook.gaps[0].from, now + std::chrono::days(3));
}

TEST(Outlook, WithoutForecastAndPastYearsTakesTheLastWeekAgain) {
  const Outlook outlook = complete_weather(known_hours(start, 20 * 24), start, start + std::chrono::days(20),
                                           start + std::chrono::days(41));
  for (std::size_t i = 0; i < 504; ++i) {
    const Hour from = taken_from(outlook.weather, outlook.now + i);
    EXPECT_EQ((outlook.weather.hour(outlook.now + i) - from).count() % 168, 0) << i;
    EXPECT_GE(from, start + std::chrono::days(13)) << i;
    EXPECT_LT(from, start + std::chrono::days(20)) << i;
    EXPECT_DOUBLE_EQ(outlook.lead_days[outlook.now + i], static_cast<double>(i + 1) / 24);
  }
  ASSERT_EQ(outlook.gaps.size(), 1U);
  EXPECT_EQ(outlook.gaps[0].filled_by, StandIn::last_week);
}

TEST(Outlook, OfAShortRecordTakesTheLastDayOrTheLastHourAgain) {
  const Outlook day = complete_weather(known_hours(start, 30), start, start + std::chrono::hours(30),
                                       start + std::chrono::days(5));
  for (std::size_t i = 30; i < day.weather.size(); ++i) {
    EXPECT_EQ((day.weather.hour(i) - taken_from(day.weather, i)).count() % 24, 0) << i;
    EXPECT_GE(taken_from(day.weather, i), start + std::chrono::hours(6)) << i;
  }
  const Outlook hour = complete_weather(known_hours(start, 1), start, start + std::chrono::hours(1),
                                        start + std::chrono::days(2));
  for (std::size_t i = 1; i < hour.weather.size(); ++i) EXPECT_EQ(taken_from(hour.weather, i), start);
}

TEST(Outlook, WithAHoleInTheForecastTakesTheDayBesideItAndStaysAhead) {
  const HourlyWeather known = known_hours(start, 10 * 24, [](std::size_t i) { return i < 100 || i >= 106; });
  const Outlook outlook =
      complete_weather(known, start, start + std::chrono::days(3), start + std::chrono::days(10));
  EXPECT_EQ(taken_from(outlook.weather, 102), start + std::chrono::hours(78));
  EXPECT_EQ(outlook.stand_in[102], StandIn::neighbouring_days);
  EXPECT_DOUBLE_EQ(outlook.lead_days[102], 31 / 24.0);
}

TEST(Outlook, LeadNeverFallsAsTheHoursGoOn) {
  // A week of forecast, then the last week again: its errors go on growing.
  const HourlyWeather known = known_hours(start, 24 * 24, [](std::size_t i) { return i < 430 || i >= 440; });
  const Outlook outlook =
      complete_weather(known, start, start + std::chrono::days(17), start + std::chrono::days(38));
  for (std::size_t i = outlook.now; i < outlook.weather.size(); ++i) {
    EXPECT_GT(outlook.lead_days[i], outlook.lead_days[i - 1]) << i;
  }
}

TEST(Outlook, OfNothingKnownIsAnError) {
  const auto complete = [](const HourlyWeather& known) {
    return complete_weather(known, start, start + std::chrono::days(1), start + std::chrono::days(2));
  };
  EXPECT_THROW(complete(known_hours(start, 0)), RangeError);
  EXPECT_THROW(complete(known_hours(start, 48, [](std::size_t) { return false; })), RangeError);
  EXPECT_THROW(complete(known_hours(start + std::chrono::days(2), 48)),
               RangeError);  // all of it lies beyond the end
  HourlyWeather no_wind = known_hours(start, 48);
  for (auto& origin : no_wind[Variable::wind_speed].origin) origin = Origin::missing;
  EXPECT_THROW(complete(no_wind), RangeError);
}

TEST(Outlook, NeverLeavesAHoleWhateverIsMissing) {
  std::mt19937_64 random(9);
  std::uniform_real_distribution<double> uniform(0, 1);
  for (int round = 0; round < 60; ++round) {
    const double share = uniform(random);
    HourlyWeather known = known_hours(start, 400, [&](std::size_t) { return uniform(random) < share; });
    set_known(known, static_cast<std::size_t>(200 * uniform(random)), true);
    for (auto& origin : known[Variable::relative_humidity].origin) {
      if (uniform(random) < 0.1) origin = Origin::missing;
    }
    set_known(known, 50, true);
    const Hour now = start + std::chrono::hours(static_cast<long>(100 + 300 * uniform(random)));
    const Outlook outlook =
        complete_weather(known, start + std::chrono::hours(10), now, now + std::chrono::days(5));
    for (std::size_t v = 0; v < variable_count; ++v) {
      if (!needed_by_model(static_cast<Variable>(v))) continue;
      const auto& column = outlook.weather.columns[v];
      EXPECT_EQ(std::count(column.origin.begin(), column.origin.end(), Origin::missing), 0);
      EXPECT_TRUE(
          std::all_of(column.value.begin(), column.value.end(), [](double x) { return std::isfinite(x); }));
    }
    for (std::size_t i = 0; i < outlook.weather.size(); ++i) {
      EXPECT_EQ(outlook.lead_days[i] > 0, i >= outlook.now);
      const Hour hour = outlook.weather.hour(i);
      const bool in_gap = std::any_of(outlook.gaps.begin(), outlook.gaps.end(), [&](const OutlookGap& gap) {
        return gap.from <= hour && hour < gap.to;
      });
      EXPECT_EQ(in_gap, outlook.stand_in[i] != StandIn::none);
    }
  }
}

TEST(StandIn, HasItsNames) {
  EXPECT_EQ(stand_in_name(StandIn::none), "none");
  EXPECT_EQ(stand_in_name(StandIn::neighbouring_days), "neighbouring-days");
  EXPECT_EQ(stand_in_name(StandIn::past_years), "past-years");
  EXPECT_EQ(stand_in_name(StandIn::monthly_climate), "monthly-climate");
  EXPECT_EQ(stand_in_name(StandIn::last_week), "last-week");
}

}  // namespace
}  // namespace graftcast::testing
