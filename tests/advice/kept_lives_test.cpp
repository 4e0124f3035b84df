// Lives kept from one morning to the next change the time that an answer takes and nothing of it.

#include "ensemble/kept_lives.hpp"

#include <functional>
#include <random>

#include <gtest/gtest.h>

#include "advice/written.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

constexpr auto first_day = std::chrono::January / 10 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr int members = 16;

Instant morning_of(int day) {
  return start + std::chrono::days(day) + std::chrono::hours(7);
}

/// Everything that a morning depends on.
struct Inputs {
  std::vector<GraftRecord> grafts;
  HourlyWeather weather;
  std::uint64_t seed = 1;
  int members = testing::members;
  double sun_share = 0.9;

  Inputs() {
    weather =
        made_weather(first_day, 40, [](int day) { return MadeDay{14, 27.0 + day % 7, 35, 2, 800, 5.5}; });
    const auto add = [&](const char* id, int day, const char* species, const char* method, const char* cover,
                         std::vector<DiaryLine> lines) {
      grafts.push_back(
          {made_row(id, std::chrono::local_days{first_day} + std::chrono::days(day), species, method, cover),
           std::move(lines)});
    };
    add("A", 1, "citrus", "cleft", "clear-bag",
        {made_line(morning_of(6), "watered"), made_line(morning_of(9), "paper-on")});
    add("B", 3, "apple", "chip", "none",
        {made_line(morning_of(12), "green"), made_line(morning_of(14), "shade", "0.5")});
    add("C", 12, "walnut", "patch", "none", {});
    add("D", 19, "pear", "whip-and-tongue", "none", {});
  }

  std::string morning_at(Instant as_of, KeptLives* kept) const {
    SeasonSettings settings;
    settings.as_of = as_of;
    settings.seed = seed;
    settings.members = members;
    settings.horizon_days = 3;
    settings.outlook_days = 6;
    settings.kept_lives = kept;
    MadeCase place;
    place.sun_share = sun_share;
    const MadeSeason made(made_site(place), weather, start, settings);
    return written(morning(made.season, grafts, 2));
  }
};

/// What the first of two mornings leaves behind.
std::string bytes_after(const Inputs& inputs, int day) {
  KeptLives kept;
  inputs.morning_at(morning_of(day), &kept);
  return kept.bytes();
}

TEST(KeptLives, GiveTheNextMorningTheSameAnswerForTheNewHoursAlone) {
  const Inputs inputs;
  KeptLives kept;
  ASSERT_TRUE(kept.take_in(bytes_after(inputs, 20)));
  const std::string with = inputs.morning_at(morning_of(21), &kept);
  EXPECT_EQ(with, inputs.morning_at(morning_of(21), nullptr));
  // From midnight of day 20, where the kept lives end, to seven of day 21; D was too young to be kept long.
  EXPECT_LE(kept.member_hours_worked_out(), 4U * 48 * members);

  KeptLives afresh;
  EXPECT_EQ(inputs.morning_at(morning_of(21), &afresh), with);
  EXPECT_GT(afresh.member_hours_worked_out(), 3 * kept.member_hours_worked_out());
  EXPECT_EQ(afresh.bytes(), kept.bytes());
}

TEST(KeptLives, GrowWithEveryMorning) {
  const Inputs inputs;
  KeptLives kept;
  for (int day = 15; day < 25; ++day) {
    const std::string with = inputs.morning_at(morning_of(day), &kept);
    EXPECT_EQ(with, inputs.morning_at(morning_of(day), nullptr)) << day;
  }
}

struct Change {
  const char* what;
  std::function<void(Inputs&)> make;
};

class ChangedInputs : public ::testing::TestWithParam<Change> {};

TEST_P(ChangedInputs, MakeKeptLivesCountForNothing) {
  Inputs inputs;
  KeptLives kept;
  ASSERT_TRUE(kept.take_in(bytes_after(inputs, 20)));
  const std::string before = inputs.morning_at(morning_of(21), nullptr);
  GetParam().make(inputs);
  const std::string with = inputs.morning_at(morning_of(21), &kept);
  EXPECT_EQ(with, inputs.morning_at(morning_of(21), nullptr));
  EXPECT_TRUE(with != before) << "the change must matter to be a test";
}

INSTANTIATE_TEST_SUITE_P(
    Of, ChangedInputs,
    ::testing::Values(
        Change{"Weather", [](Inputs& i) { i.weather[Variable::air_temperature].value[24 * 15 + 14] += 9; }},
        Change{"Seed", [](Inputs& i) { i.seed = 2; }}, Change{"Members", [](Inputs& i) { i.members = 24; }},
        Change{"Spot", [](Inputs& i) { i.sun_share = 0.4; }},
        Change{"Wrap", [](Inputs& i) { i.grafts[0].row.wrap = "none"; }},
        Change{"Method", [](Inputs& i) { i.grafts[1].row.method = "t-bud"; }},
        Change{"Species", [](Inputs& i) { i.grafts[2].row.species = "pear"; }},
        Change{"Day", [](Inputs& i) { i.grafts[2].row.grafted_on += std::chrono::days(1); }},
        Change{"LateNote",
               [](Inputs& i) { i.grafts[2].lines = {made_line(morning_of(15), "shade", "0.7")}; }},
        Change{"LateSight",
               [](Inputs& i) { i.grafts[0].lines.push_back(made_line(morning_of(18), "callus")); }},
        Change{"Pot", [](Inputs& i) { i.grafts[0].row.pot_litres = 1; }}),
    [](const auto& change) { return change.param.what; });

TEST(KeptLives, OfMembersDrawnAnewAreNotKept) {
  Inputs inputs;
  inputs.grafts[1].lines = {made_line(morning_of(6), "callus")};  // Far too early for most members.
  KeptLives kept;
  const std::string with = inputs.morning_at(morning_of(20), &kept);
  EXPECT_EQ(with, inputs.morning_at(morning_of(20), nullptr));
  EXPECT_EQ(inputs.morning_at(morning_of(21), &kept), inputs.morning_at(morning_of(21), nullptr));
}

TEST(KeptLives, LeaveOutWhatNoMorningAsksForAnyMore) {
  Inputs inputs;
  KeptLives kept;
  ASSERT_TRUE(kept.take_in(bytes_after(inputs, 20)));
  inputs.grafts.resize(1);
  inputs.morning_at(morning_of(21), &kept);
  KeptLives next;
  ASSERT_TRUE(next.take_in(kept.bytes()));
  EXPECT_NE(next.find("A"), nullptr);
  EXPECT_EQ(next.find("B"), nullptr);
}

TEST(KeptLives, AreRefusedWhereOneByteIsAnother) {
  const std::string whole = bytes_after(Inputs(), 20);
  std::mt19937_64 random(5);
  for (int round = 0; round < 300; ++round) {
    std::string damaged = whole;
    const std::size_t at = round < 60 ? static_cast<std::size_t>(round) : random() % whole.size();
    damaged[at] = static_cast<char>(damaged[at] ^ (1 << round % 8));
    KeptLives kept;
    EXPECT_FALSE(kept.take_in(damaged)) << at;
    EXPECT_EQ(kept.find("A"), nullptr);
  }
}

TEST(KeptLives, AreRefusedWhereTheirEndIsMissing) {
  const std::string whole = bytes_after(Inputs(), 20);
  for (std::size_t size = 0; size < whole.size(); size += 1 + whole.size() / 97) {
    KeptLives kept;
    EXPECT_FALSE(kept.take_in(std::string_view(whole).substr(0, size))) << size;
  }
  KeptLives kept;
  EXPECT_FALSE(kept.take_in(whole + "x"));
  EXPECT_TRUE(kept.take_in(whole));
}

}  // namespace
}  // namespace graftcast::testing
