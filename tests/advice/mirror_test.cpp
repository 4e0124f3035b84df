// A site and its mirror image on the other half of the globe, half a year later, get the same answers:
// nothing in the model asks for the month or the sign of the latitude.

#include <gtest/gtest.h>

#include <algorithm>

#include "advice/morning.hpp"
#include "advice/since.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

// From the March equinox of 2025 (20 March) to that of September (22 September).
constexpr std::chrono::days half_a_year{186};
constexpr auto spring_of_the_north = std::chrono::sys_days{std::chrono::March / 25 / 2025};

constexpr int today = 16;

MadeDay shape(int day) {
  return day >= today + 1 && day < today + 4 ? MadeDay{22, 38, 15, 2.5, 880, 6}
                                             : MadeDay{11, 22, 50, 2, 700, 6};
}

struct Answers {
  std::vector<GraftMorning> morning;
  std::vector<GraftSince> since;
  LocalDay first_day;
};

Answers answers_at(double latitude_deg, std::chrono::sys_days first_day) {
  Site site = made_site({});
  site.location.latitude_deg = latitude_deg;
  SeasonSettings settings;
  settings.as_of = first_day + std::chrono::days(today) + std::chrono::hours(7);
  settings.members = 32;
  settings.outlook_days = 40;
  const MadeSeason made(site, made_weather(first_day, today + 14, shape), first_day, settings);
  const LocalDay grafted{first_day.time_since_epoch() + std::chrono::days(4)};
  std::vector<GraftRecord> grafts;
  for (const auto& [id, species, method, cover, wrap] :
       {std::tuple{"bare bud", "citrus", "chip", "none", "film-bud-out"},
        {"bagged", "avocado", "cleft", "clear-bag", "film"},
        {"papered", "apple", "whip-and-tongue", "paper-over-bag", "film"},
        {"bare stick", "grape", "splice", "none", "none"}}) {
    grafts.push_back({made_row(id, grafted, species, method, cover, wrap), {}});
  }
  return {morning(made.season, grafts, 1).grafts, since(made.season, grafts, {}, 1).grafts,
          LocalDay{first_day.time_since_epoch()}};
}

void expect_same_band(const DateBand& one, LocalDay one_start, const DateBand& other, LocalDay other_start) {
  for (const auto which : {&DateBand::p10, &DateBand::median, &DateBand::p90}) {
    if (!(one.*which) || !(other.*which)) continue;
    EXPECT_LE(std::abs(((*(one.*which) - one_start) - (*(other.*which) - other_start)).count()), 3);
  }
}

/// The same tasks within days of each other, half a year apart.
void expect_same_work(const std::vector<CareTask>& one, const std::vector<CareTask>& other) {
  for (const CareTask& task : one) {
    const auto same = std::ranges::find(other, task.work, &CareTask::work);
    if (!task.due.median) continue;
    ASSERT_NE(same, other.end()) << care_name(task.work);
    EXPECT_EQ(same->at_bud, task.at_bud);
    ASSERT_TRUE(same->due.median.has_value()) << care_name(task.work);
    EXPECT_LE(std::abs((*same->due.median - *task.due.median - half_a_year).count()), 5)
        << care_name(task.work);
  }
}

class Mirror : public ::testing::TestWithParam<double> {
 protected:
  const Answers north = answers_at(GetParam(), spring_of_the_north);
  const Answers south = answers_at(-GetParam(), spring_of_the_north + half_a_year);
};

TEST_P(Mirror, GivesTheSameMorning) {
  ASSERT_EQ(north.morning.size(), south.morning.size());
  for (std::size_t i = 0; i < north.morning.size(); ++i) {
    const GraftMorning &one = north.morning[i], &other = south.morning[i];
    SCOPED_TRACE(one.id);
    EXPECT_EQ(one.id, other.id);  // ranked alike
    EXPECT_EQ(one.cause, other.cause);
    EXPECT_EQ(one.urgency, other.urgency);
    EXPECT_EQ(one.stage, other.stage);
    EXPECT_EQ(act_name(one.advice.act), act_name(other.advice.act));
    // The sun stands within half a degree of where it stood and a few per cent nearer or further.
    EXPECT_NEAR(one.risk.p, other.risk.p, 0.1);
    EXPECT_NEAR(one.tissue_max_c_7d, other.tissue_max_c_7d, 1.0);
    EXPECT_NEAR(one.healing, other.healing, 0.05);
    EXPECT_DOUBLE_EQ(*one.degree_days, *other.degree_days);
    ASSERT_EQ(one.act_by.has_value(), other.act_by.has_value());
    if (one.act_by) {
      EXPECT_LE(std::chrono::abs(*other.act_by - *one.act_by - half_a_year), std::chrono::hours(12));
    }
  }
}

TEST_P(Mirror, GivesTheSameDates) {
  for (std::size_t i = 0; i < north.since.size(); ++i) {
    const GraftSince &one = north.since[i], &other = south.since[i];
    SCOPED_TRACE(one.id);
    EXPECT_EQ(one.verdict(), other.verdict());
    EXPECT_DOUBLE_EQ(one.degree_days, other.degree_days);
    ASSERT_TRUE(one.buds_expected.median.has_value() || one.bridged_on.median.has_value());
    expect_same_band(one.bridged_on, north.first_day, other.bridged_on, south.first_day);
    expect_same_band(one.drinking_from, north.first_day, other.drinking_from, south.first_day);
    expect_same_band(one.buds_expected, north.first_day, other.buds_expected, south.first_day);
    expect_same_work(one.aftercare, other.aftercare);
    ASSERT_TRUE(one.worth && other.worth);
    EXPECT_NEAR(one.worth->value_wait, other.worth->value_wait, 0.15);
    EXPECT_NEAR(one.worth->new_take, other.worth->new_take, 0.1);
    // Midwinters lie 182 days apart, these springs 186: the season ends that much earlier or later.
    EXPECT_LE(std::abs(one.worth->season_left_days - other.worth->season_left_days), 5);
  }
}

INSTANTIATE_TEST_SUITE_P(Latitudes, Mirror, ::testing::Values(10.0, 36.0, 52.0));

}  // namespace
}  // namespace graftcast::testing
