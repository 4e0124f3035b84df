// `when` on past years: a forecast of take for each week of a season, from the years before it, against the
// model run on that season's real weather.

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numeric>

#include "advice/random_sites.hpp"
#include "advice/when.hpp"
#include "advice/when_season.hpp"
#include "model/synthetic_truth.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

const std::vector<WhenAsk> asked{{"citrus", "cleft", "film", "none", "", 0, {}},
                                 {"citrus", "chip", "film-bud-out", "none", "", 0, {}},
                                 {"apple", "cleft", "film", "clear-bag", "", 0, {}}};

// A broken `when` would do no better than the mean. Under sanitizers few weeks and members are left.
constexpr double worst_share = sanitized ? 1.0 : 0.6, least_correlation = sanitized ? 0.2 : 0.6,
                 most_bias = sanitized ? 0.25 : 0.1;

/// One forecast of one method in one week, and what came.
struct Pair {
  double forecast, came;
};

/// Scores over pairs. An outcome of chance `came` adds its own variance to any forecast's Brier score.
struct Scores {
  double brier = 0, constant_brier = 0, error_square = 0, constant_square = 0, bias = 0, correlation = 0;
};

Scores scores_of(const std::vector<Pair>& pairs) {
  const double share = 1.0 / static_cast<double>(pairs.size());
  double mean = 0, mean_forecast = 0;
  for (const Pair& pair : pairs) {
    mean += share * pair.came;
    mean_forecast += share * pair.forecast;
  }
  Scores scores;
  double together = 0, forecasts = 0;
  for (const Pair& pair : pairs) {
    const double own = pair.came * (1 - pair.came);
    scores.error_square += share * std::pow(pair.forecast - pair.came, 2);
    scores.constant_square += share * std::pow(mean - pair.came, 2);
    scores.brier += share * (std::pow(pair.forecast - pair.came, 2) + own);
    scores.constant_brier += share * (std::pow(mean - pair.came, 2) + own);
    scores.bias += share * (pair.forecast - pair.came);
    together += share * (pair.forecast - mean_forecast) * (pair.came - mean);
    forecasts += share * std::pow(pair.forecast - mean_forecast, 2);
  }
  scores.correlation = together / std::sqrt(forecasts * scores.constant_square);
  return scores;
}

void print(const std::string& name, const Scores& s, std::size_t count) {
  std::cout << name << ", " << count << " pairs: Brier " << s.brier << " (the season's own mean "
            << s.constant_brier << "), RMSE " << std::sqrt(s.error_square) << " ("
            << std::sqrt(s.constant_square) << "), correlation " << s.correlation << ", bias " << s.bias
            << "\n";
}

class ScoredWhen : public ::testing::Test {
 protected:
  void SetUp() override {
    site_.location = davis_site().location;
    site_.time_zone = davis_site().time_zone;
    clock_ = Clock(site_.time_zone);
    weather_ = hours_between(davis_hours(), std::chrono::sys_days{std::chrono::December / 1 / 2000},
                             std::chrono::sys_days{std::chrono::March / 1 / 2007});
  }

  /// What was known at `as_of`.
  HourlyWeather known_at(Hour as_of) const {
    HourlyWeather known = weather_;
    const auto hours = static_cast<std::size_t>((as_of - known.start).count());
    for (auto& column : known.columns) {
      column.value.resize(hours);
      column.origin.resize(hours);
      column.source.resize(hours);
    }
    known.forecast_lead_h.resize(hours);
    return known;
  }

  /// Chances of take of the morning of `day`, a method each, in the order of `asked`.
  std::vector<double> takes(const HourlyWeather& weather, LocalDay day, bool weather_spread) const {
    SeasonSettings settings;
    settings.as_of = clock_.begin_of(day) + std::chrono::hours(6);
    settings.members = sanitized ? 8 : 48;
    settings.outlook_days = 1 + when_follow_days;
    settings.weather_spread = weather_spread;
    settings.monthly_climate = true;
    const Season season(site_, clock_, published_models(), weather, settings.as_of, settings);
    std::vector<double> takes(asked.size());
    for (const WhenAnswer& answer : when_to_graft(season, asked, 1, {}, 2).answers)
      takes[place_of(answer.usual.graft)] = answer.usual.days.at(0).take;
    return takes;
  }

  static std::size_t place_of(const WhenAsk& graft) {
    const auto found = std::ranges::find_if(asked, [&](const WhenAsk& ask) {
      return ask.species == graft.species && ask.method == graft.method;
    });
    return static_cast<std::size_t>(found - asked.begin());
  }

  Site site_;
  Clock clock_{"UTC"};
  HourlyWeather weather_;
};

// The season from midwinter 2005 on, with the five before it as past years.
constexpr auto first_week = std::chrono::December / 24 / 2005;
constexpr int weeks = 46;  // Each graft is followed for 75 days.

TEST_F(ScoredWhen, BeatsTheSeasonsOwnMeanWeekByWeek) {
  std::vector<Pair> pairs;
  const int step = sanitized ? 12 : 1;
  for (int week = 0; week < weeks; week += step) {
    const LocalDay day = LocalDay(first_week) + std::chrono::days(7 * week);
    const Hour as_of = std::chrono::floor<std::chrono::hours>(clock_.begin_of(day)) + std::chrono::hours(6);
    const std::vector<double> forecast = takes(known_at(as_of), day, true);
    const std::vector<double> came = takes(weather_, day, false);
    for (std::size_t k = 0; k < asked.size(); ++k) pairs.push_back({forecast[k], came[k]});
  }
  const Scores scores = scores_of(pairs);
  print("when, by past years", scores, pairs.size());
  EXPECT_GT(scores.constant_square, 1e-4);  // There is something to tell.
  EXPECT_LT(scores.error_square, worst_share * scores.constant_square);
  EXPECT_GT(scores.correlation, least_correlation);
  EXPECT_LT(std::abs(scores.bias), most_bias);
}

TEST_F(ScoredWhen, ByTheWeeksOfTheSeasonToo) {
  SeasonSettings settings;
  settings.as_of = clock_.begin_of(LocalDay(first_week));
  settings.members = sanitized ? 8 : 48;
  const SeasonReport season =
      season_to_graft(site_, clock_, published_models(),
                      known_at(std::chrono::floor<std::chrono::hours>(settings.as_of)), settings, asked, 2);
  EXPECT_EQ(season.years.size(), 5U);
  std::vector<Pair> pairs;
  for (std::size_t week = 0; week < weeks; week += sanitized ? 12 : 1) {
    const std::vector<double> came = takes(weather_, season.answers[0].weeks.at(week).usual.day, false);
    for (const SeasonAnswer& answer : season.answers)
      pairs.push_back({answer.weeks.at(week).usual.take, came[place_of(answer.usual.graft)]});
  }
  const Scores scores = scores_of(pairs);
  print("when --season", scores, pairs.size());
  EXPECT_LT(scores.error_square, worst_share * scores.constant_square);
  EXPECT_GT(scores.correlation, least_correlation);
  EXPECT_LT(std::abs(scores.bias), most_bias);
}

}  // namespace
}  // namespace graftcast::testing
