// What notes of a batch speak of, and whom to believe where they and the weather differ.

#include <gtest/gtest.h>

#include <numeric>

#include "ensemble/graft_run.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr Instant as_of = start + std::chrono::days(12) + std::chrono::hours(7);

SeasonSettings settings() {
  SeasonSettings s;
  s.as_of = as_of;
  s.members = 32;
  s.horizon_days = s.outlook_days = 1;
  return s;
}

/// A bare bud, a batch of six, after dry days with the given heat from the ninth day on.
UnionNow now_of(double late_maximum_c, const std::vector<DiaryLine>& lines) {
  const auto weather = made_weather(
      first_day, 20, [&](int day) { return MadeDay{17, day < 8 ? 30.0 : late_maximum_c, 30, 2, 850, 5.5}; });
  const MadeSeason made(made_site({}), weather, start, settings());
  GraftRow row = made_row("G1", std::chrono::local_days{first_day}, "citrus", "chip", "none", "film-bud-out");
  row.count = 6;
  GraftRun run(made.season, graft_case(row, lines, made.site, made.clock, published_models(), as_of));
  std::vector<UnionStates> none;
  return run.to_now({}, none);
}

constexpr Instant seen = start + std::chrono::days(7) + std::chrono::hours(7);

/// Survival up to now, the mean of the members as the notes weigh them.
double hardiness(const UnionNow& now) {
  return std::inner_product(now.weights.begin(), now.weights.end(), now.survival.begin(), 0.0);
}

TEST(NotesOfBatch, ThatSomeMoreDiedSpeakOfOthers) {
  // Four of six lost say more against the members that fare well than two of them do, and as much in one note
  // as in two a day apart. Were the second pair the first once more, four would have been seen alive twice.
  constexpr Instant next = seen + std::chrono::hours(24);
  const UnionNow two = now_of(33, {made_line(next, "dead", "2")});
  const UnionNow two_and_two = now_of(33, {made_line(seen, "dead", "2"), made_line(next, "dead", "2")});
  const UnionNow four = now_of(33, {made_line(next, "dead", "4")});
  EXPECT_LT(hardiness(two_and_two), hardiness(two) - 0.05);
  EXPECT_NEAR(hardiness(two_and_two), hardiness(four), 0.1);
}

TEST(NotesOfBatch, ThatSomeMoreTookSpeakOfOthers) {
  const UnionNow twice = now_of(30, {made_line(seen, "taken", "2"), made_line(seen, "taken", "2")});
  const UnionNow once = now_of(30, {made_line(seen, "taken", "4")});
  for (std::size_t i = 0; i < once.weights.size(); ++i)
    EXPECT_NEAR(twice.weights[i], once.weights[i], 1e-12) << i;
}

TEST(SeenAlive, IsBelievedWhereTheWeatherSinceLeavesItLessThanAnEvenChance) {
  double least_unaided = 1;
  int believed = 0;
  for (double maximum_c = 30; maximum_c < 47; maximum_c += 0.25) {
    const UnionNow now = now_of(maximum_c, {made_line(seen, "green")});
    if (now.contradicted) {
      ++believed;
      EXPECT_NEAR(now.alive(), 1, 1e-9) << maximum_c;
    } else {
      EXPECT_GE(now.alive(), 0.5) << maximum_c;
      least_unaided = std::min(least_unaided, now.alive());
    }
  }
  EXPECT_LT(least_unaided, 0.55);
  EXPECT_GT(believed, 0);
}

}  // namespace
}  // namespace graftcast::testing
