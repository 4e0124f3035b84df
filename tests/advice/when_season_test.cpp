// The weeks of the year: mild ones must be told from hot and cold ones, by past years or by monthly climate.

#include "advice/when_season.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "advice/random_sites.hpp"
#include "graftcast/error.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A year of the south with a scorching midsummer in January and a cold midwinter in July.
MadeDay year_day(double day_of_year) {
  const double summer = std::cos(2 * std::numbers::pi * (day_of_year - 15) / 365);
  const double highest = 24 + 14 * summer;
  return {highest - 12, highest, 45 - 20 * summer, 1.8, 620 + 280 * summer, 6 - 0.8 * summer};
}

HourlyWeather years_from(std::chrono::year_month_day first, int days) {
  const std::chrono::sys_days begin{first};
  return made_weather(first, days, [&](int day) {
    const std::chrono::year_month_day date{begin + std::chrono::days(day)};
    const auto of_year =
        begin + std::chrono::days(day) - std::chrono::sys_days{date.year() / std::chrono::January / 1};
    return year_day(static_cast<double>(of_year.count()));
  });
}

LocalDay day_of(int y, unsigned m, unsigned d) {
  return LocalDay(std::chrono::year(y) / std::chrono::month(m) / std::chrono::day(d));
}

const WhenAsk citrus_cleft{"citrus", "cleft", "film", "none", "", 0, {}};

SeasonReport season_of(const HourlyWeather& weather, const std::vector<WhenAsk>& asked, int threads = 1) {
  const Site site = made_site({});
  const Clock clock("UTC");
  SeasonSettings settings;
  settings.as_of = Instant(weather.end());
  settings.members = sanitized ? 8 : 24;
  return season_to_graft(site, clock, published_models(), weather, settings, asked, threads);
}

const SeasonReport& three_years() {
  static const SeasonReport report =
      season_of(years_from(std::chrono::June / 1 / 2022, 3 * 365 + 40), {citrus_cleft});
  return report;
}

const SeasonWeek& week_of(const SeasonReport& report, LocalDay day) {
  for (const SeasonWeek& week : report.answers.at(0).weeks)
    if (week.first_day <= day && day < week.first_day + std::chrono::days(7)) return week;
  throw std::logic_error("no such week");
}

TEST(WhenSeason, HasEveryWeekFromMidwinterToMidwinter) {
  const SeasonReport& report = three_years();
  EXPECT_EQ(report.name, "2025/26");
  EXPECT_EQ(report.midwinter, day_of(2025, 6, 21));
  EXPECT_THAT(report.years, ElementsAre("2024/25", "2023/24", "2022/23"));
  EXPECT_EQ(report.unknown_weeks, 0U);
  const auto& weeks = report.answers.at(0).weeks;
  ASSERT_EQ(weeks.size(), 52U);
  for (std::size_t k = 0; k < weeks.size(); ++k) {
    EXPECT_EQ(weeks[k].first_day, report.midwinter + std::chrono::days(7 * k));
    EXPECT_EQ(weeks[k].usual.day, weeks[k].first_day + std::chrono::days(3));
    EXPECT_EQ(weeks[k].usual.source, StandIn::past_years);
    EXPECT_LE(weeks[k].usual.low, weeks[k].usual.high);
  }
}

TEST(WhenSeason, TellsMildWeeksFromHotAndColdOnes) {
  const SeasonReport& report = three_years();
  const SeasonWeek& spring = week_of(report, day_of(2025, 10, 1));
  const SeasonWeek& summer = week_of(report, day_of(2026, 1, 5));
  const SeasonWeek& winter = week_of(report, day_of(2025, 6, 25));
  EXPECT_EQ(spring.verdict, WhenVerdict::graft) << spring.usual.take;
  EXPECT_GT(spring.usual.take, summer.usual.take + 0.1);
  EXPECT_TRUE(summer.usual.limiting.has_value());
  ASSERT_TRUE(spring.usual.bridge_days);
  EXPECT_TRUE(!winter.usual.bridge_days || *winter.usual.bridge_days > *spring.usual.bridge_days + 10);
}

TEST(WhenSeason, NamesABestStretchThatHoldsOnlyGoodWeeks) {
  const SeasonAnswer& answer = three_years().answers.at(0);
  ASSERT_TRUE(answer.best);
  EXPECT_EQ((answer.best->to - answer.best->from).count() + 1, 7 * static_cast<long>(answer.best->weeks));
  double most = 0;
  for (const SeasonWeek& week : answer.weeks) most = std::max(most, week.best_take());
  for (const SeasonWeek& week : answer.weeks) {
    const bool is_within = week.first_day >= answer.best->from && week.first_day <= answer.best->to;
    if (!is_within) continue;
    EXPECT_NE(week.verdict, WhenVerdict::wait);
    EXPECT_GE(week.best_take(), 0.9 * most - 1e-12);
    EXPECT_LE(answer.best->low, week.best_take());
    EXPECT_GE(answer.best->high, week.best_take());
  }
}

TEST(WhenSeason, DoesNotDependOnTheNumberOfThreads) {
  const HourlyWeather weather = years_from(std::chrono::June / 1 / 2024, 400);
  const std::vector<WhenAsk> asked{{"citrus", "chip", "", "", "", 0, {}}};
  const SeasonReport one = season_of(weather, asked, 1), two = season_of(weather, asked, 2);
  for (std::size_t k = 0; k < one.answers[0].weeks.size(); ++k) {
    EXPECT_EQ(one.answers[0].weeks[k].usual.take, two.answers[0].weeks[k].usual.take);
    ASSERT_TRUE(one.answers[0].weeks[k].covered);
    EXPECT_EQ(one.answers[0].weeks[k].covered->take, two.answers[0].weeks[k].covered->take);
  }
}

TEST(WhenSeason, IsMadeUpFromMonthsWhereTheLogHasNoSeasonAndSaysSo) {
  // September to January: less than half of a season.
  const SeasonReport report = season_of(years_from(std::chrono::September / 1 / 2024, 150), {citrus_cleft});
  EXPECT_THAT(report.years, IsEmpty());
  EXPECT_GT(report.unknown_weeks, 20U);
  ASSERT_EQ(report.notices.size(), 1U);
  EXPECT_THAT(std::get<MonthsBorrowed>(report.notices[0]).months,
              ::testing::ElementsAre(std::chrono::August, std::chrono::February));
  const SeasonReport& by_years = three_years();
  for (const SeasonWeek& week : report.answers.at(0).weeks) {
    EXPECT_EQ(week.usual.source, StandIn::monthly_climate);
    if (week.first_day < day_of(2024, 9, 10) || week.first_day > day_of(2024, 11, 1)) continue;
    const SeasonWeek& other = week_of(by_years, week.first_day + std::chrono::days(365));
    EXPECT_NEAR(week.usual.take, other.usual.take, 0.15) << day_text(week.first_day);
  }
}

TEST(WhenSeason, WaitsForTheBark) {
  const WhenAsk bark{"citrus", "bark", "film", "none", "", 0, {}};
  const SeasonReport report = season_of(years_from(std::chrono::June / 1 / 2024, 400), {bark});
  const auto& weeks = report.answers.at(0).weeks;
  EXPECT_EQ(weeks.front().bark_slips, false);
  EXPECT_EQ(weeks.front().usual.limiting, Cause::bark);
  EXPECT_EQ(weeks.front().verdict, WhenVerdict::wait);
  EXPECT_EQ(weeks.back().bark_slips, true);
  for (std::size_t k = 1; k < weeks.size(); ++k) EXPECT_GE(*weeks[k].bark_slips, *weeks[k - 1].bark_slips);
}

TEST(WhenSeason, OfALogThatKnowsNoWeekOrOfUnknownNamesIsAnError) {
  const HourlyWeather days = years_from(std::chrono::June / 1 / 2024, 5);
  EXPECT_THROW(season_of(days, {citrus_cleft}), RangeError);
  EXPECT_THROW(
      season_of(years_from(std::chrono::June / 1 / 2024, 400), {{"appel", "cleft", "", "", "", 0, {}}}),
      Error);
}

TEST(UsualSeasons, LieHalfAYearLaterInTheSouth) {
  const Species& apple = published_models().species_named("apple");
  const auto north = usual_seasons(apple, day_of(2025, 12, 21), 48);
  const auto south = usual_seasons(apple, day_of(2025, 6, 21), -34);
  ASSERT_FALSE(north.empty());
  ASSERT_EQ(south.size(), north.size());
  for (std::size_t k = 0; k < north.size(); ++k) {
    EXPECT_GE(north[k].from, day_of(2025, 12, 21));
    EXPECT_LT(north[k].from, day_of(2026, 12, 21));
    EXPECT_LT(north[k].from, north[k].to);
    EXPECT_NEAR(static_cast<double>((north[k].from - south[k].from).count()), 182, 3);
  }
}

TEST(WhenSeason, IsNamedByItsMidwinter) {
  EXPECT_EQ(season_name(day_of(2025, 12, 21)), "2025/26");
  EXPECT_EQ(season_name(day_of(1999, 6, 21)), "1999/00");
}

}  // namespace
}  // namespace graftcast::testing
