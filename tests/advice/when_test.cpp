// When to graft: tried mornings must tell warm from cold, calm from heat, and agree with the graft once it is
// made.

#include "advice/when.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "advice/random_sites.hpp"
#include "advice/since.hpp"
#include "graftcast/error.hpp"

namespace graftcast::testing {
namespace {

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr MadeDay mild{15, 26, 50, 1.5, 650, 5.5}, hot{24, 40, 14, 2.5, 900, 5.5},
    cool{3, 10, 70, 1.5, 400, 6.5};

/// As of six in the morning of day 3, with weather known up to day `known`.
WhenReport tried(const std::vector<WhenAsk>& asked, const std::function<MadeDay(int)>& weather,
                 int known = 100, const std::map<std::string, bool>& slips = {}, int threads = 1,
                 std::uint64_t seed = 1) {
  SeasonSettings settings;
  settings.as_of = start + std::chrono::days(3) + std::chrono::hours(6);
  settings.members = 32;
  settings.outlook_days = when_days + when_follow_days;
  settings.seed = seed;
  const MadeSeason made(made_site({}), made_weather(first_day, known, weather), start, settings);
  return when_to_graft(made.season, asked, when_days, slips, threads);
}

MadeDay always_mild(int) {
  return mild;
}

WhenAsk citrus_chip() {
  return {"citrus", "chip", "film-bud-out", "none", "", 0, {}};
}

TEST(When, TriesEveryMorningOfTheFortnight) {
  const WhenReport report = tried({citrus_chip()}, always_mild);
  ASSERT_EQ(report.answers.size(), 1U);
  const auto& days = report.answers[0].usual.days;
  ASSERT_EQ(days.size(), 14U);
  for (std::size_t k = 0; k < days.size(); ++k) {
    EXPECT_EQ(days[k].day, days[0].day + std::chrono::days(k));
    EXPECT_LE(days[k].low, days[k].high);
    EXPECT_GE(days[k].low, 0);
    EXPECT_LE(days[k].high, 1);
    EXPECT_EQ(days[k].source, StandIn::none);
  }
}

TEST(When, SaysGraftInSteadyMildWeather) {
  const WhenAnswer answer =
      tried({{"citrus", "cleft", "film", "none", "", 0, {}}}, always_mild).answers.at(0);
  EXPECT_EQ(answer.verdict(), WhenVerdict::graft);
  EXPECT_TRUE(answer.usual.days[0].bridge_days.has_value());
}

TEST(When, SaysWaitWhereAHeatWaveComesAndBetterDaysFollow) {
  // Four days of 40 degC from day 8 on: a bare bud made before them dries out, one made after them lives.
  const auto wave = [](int day) { return day >= 6 && day < 11 ? hot : mild; };
  const WhenAnswer answer = tried({citrus_chip()}, wave).answers.at(0);
  EXPECT_EQ(answer.verdict(), WhenVerdict::wait);
  ASSERT_TRUE(answer.usual.best.has_value());
  EXPECT_GE(answer.usual.days[*answer.usual.best].day, answer.usual.days[0].day + std::chrono::days(7));
  EXPECT_TRUE(answer.usual.days[2].limiting.has_value());
  ASSERT_TRUE(answer.usual.days[2].worst_day.has_value());
  EXPECT_GT(answer.usual.days[10].take, answer.usual.days[2].take + 0.2);
}

TEST(When, SaysGraftWithCoverWhereOnlyACoverBringsItThrough) {
  const auto dry = [](int) { return MadeDay{16, 31, 18, 2.5, 850, 5.5}; };
  const WhenAnswer answer = tried({{"citrus", "chip", "film-bud-out", "", "", 0, {}}}, dry).answers.at(0);
  ASSERT_TRUE(answer.covered.has_value());
  EXPECT_GE(answer.covered->days[0].take, answer.usual.days[0].take - 0.05);
}

TEST(When, NamesSlowCallusInTheCold) {
  const auto cold = [](int) { return cool; };
  const WhenDay day =
      tried({{"citrus", "cleft", "film", "none", "", 0, {}}}, cold).answers.at(0).usual.days[0];
  EXPECT_FALSE(day.bridge_days.has_value());
  EXPECT_EQ(day.limiting, Cause::slow_callus);
}

TEST(When, SaysWhatStandsInBeyondTheForecast) {
  const auto days = tried({citrus_chip()}, always_mild, 12).answers.at(0).usual.days;
  EXPECT_EQ(days[0].source, StandIn::none);
  EXPECT_EQ(days[13].source, StandIn::last_week);
}

TEST(When, GivesTheSameOnAnyNumberOfThreads) {
  const auto one =
      tried({citrus_chip(), {"apple", "cleft", "film", "none", "", 0, {}}}, always_mild, 20, {}, 1);
  const auto two =
      tried({citrus_chip(), {"apple", "cleft", "film", "none", "", 0, {}}}, always_mild, 20, {}, 2);
  ASSERT_EQ(one.answers.size(), two.answers.size());
  for (std::size_t a = 0; a < one.answers.size(); ++a)
    for (std::size_t k = 0; k < one.answers[a].usual.days.size(); ++k)
      EXPECT_EQ(one.answers[a].usual.days[k].take, two.answers[a].usual.days[k].take);
}

TEST(When, AgreesWithTheGraftOnceItIsMade) {
  // The same graft on the same morning, recorded and followed by `since`: the same chance and the same
  // bridge.
  SeasonSettings settings;
  settings.as_of = start + std::chrono::days(3) + std::chrono::hours(6);
  settings.members = 32;
  settings.outlook_days = when_days + when_follow_days;
  const MadeSeason made(made_site({}), made_weather(first_day, 120, always_mild), start, settings);
  const WhenDay planned =
      when_to_graft(made.season, {{"citrus", "cleft", "film", "none", "", 0, {}}}, 1, {}, 1)
          .answers.at(0)
          .usual.days[0];
  GraftRecord record{made_row("G1", planned.day, "citrus", "cleft", "none"), {}};
  record.row.wrap = "film";
  const GraftSince recorded = since(made.season, {record}, {}, 1).grafts.at(0);
  EXPECT_NEAR(planned.take, recorded.still_to_take, 0.02);
  ASSERT_TRUE(recorded.bridged_on.median && planned.bridge_days);
  EXPECT_NEAR(static_cast<double>((*recorded.bridged_on.median - planned.day).count()), *planned.bridge_days,
              2);
}

TEST(When, ABarkMethodWaitsForTheBark) {
  // Midwinter of the south is 21 June: the made log of two months cannot know; a note can.
  const WhenAsk bark{"citrus", "bark", "film", "none", "", 0, {}};
  EXPECT_FALSE(tried({bark}, always_mild).answers.at(0).usual.bark_slips_now.has_value());
  const WhenCandidate slips = tried({bark}, always_mild, 100, {{"citrus", true}}).answers.at(0).usual;
  EXPECT_EQ(slips.bark_slips_now, true);
  EXPECT_TRUE(slips.best.has_value());
  const WhenAnswer tight = tried({bark}, always_mild, 100, {{"citrus", false}}).answers.at(0);
  EXPECT_EQ(tight.usual.bark_slips_now, false);
  EXPECT_FALSE(tight.usual.best.has_value());
  EXPECT_TRUE(std::holds_alternative<BarkIsTight>(tight.ground));
  for (const WhenDay& day : tight.usual.days) EXPECT_EQ(day.limiting, Cause::bark);
}

TEST(When, UnknownNamesAreErrors) {
  EXPECT_THROW(tried({{"appel", "cleft", "", "", "", 0, {}}}, always_mild), Error);
  EXPECT_THROW(tried({{"apple", "clef", "", "", "", 0, {}}}, always_mild), Error);
}

TEST(Midwinter, IsTheLastSolsticeOfWinterByHemisphere) {
  const auto day = [](int y, unsigned m, unsigned d) {
    return LocalDay(std::chrono::year(y) / std::chrono::month(m) / std::chrono::day(d));
  };
  EXPECT_EQ(midwinter_before(day(2025, 3, 1), 48), day(2024, 12, 21));
  EXPECT_EQ(midwinter_before(day(2024, 12, 21), 48), day(2024, 12, 21));
  EXPECT_EQ(midwinter_before(day(2025, 3, 1), -34), day(2024, 6, 21));
  EXPECT_EQ(midwinter_before(day(2025, 8, 1), -34), day(2025, 6, 21));
}

}  // namespace
}  // namespace graftcast::testing
