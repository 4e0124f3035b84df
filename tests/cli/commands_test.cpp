// Whole commands over the real program: what they answer and what they write.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include <nlohmann/json.hpp>

#include "cli/command_runner.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

class SmallSite : public ::testing::Test {
 protected:
  void SetUp() override { write_small_site(folder.path()); }

  CommandOutcome run(std::vector<std::string> arguments, const std::string& input = {}) const {
    arguments.insert(arguments.begin(), {"--site", folder.path().string()});
    return run_graftcast(arguments, input);
  }
  json answer(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), "--json");
    const CommandOutcome outcome = run(std::move(arguments));
    EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
    return json::parse(outcome.out);
  }
  json morning(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"morning", "--at", small_site_morning});
    return answer(std::move(more));
  }

  TemporaryFolder folder;
};

TEST_F(SmallSite, MorningRanksEveryOpenGraftByUrgency) {
  const json m = morning();
  EXPECT_EQ(m.at("schema"), "graftcast/1");
  EXPECT_EQ(m.at("command"), "morning");
  EXPECT_EQ(m.at("as_of"), "2025-06-09T06:00:00Z");
  ASSERT_EQ(m.at("grafts").size(), 3U);
  const std::vector<std::string> order{"now", "soon", "watch", "leave"};
  std::size_t last = 0;
  for (const json& graft : m.at("grafts")) {
    const auto place = static_cast<std::size_t>(
        std::find(order.begin(), order.end(), graft.at("urgency").get<std::string>()) - order.begin());
    ASSERT_LT(place, order.size());
    EXPECT_GE(place, last);
    last = place;
    const json& risk = graft.at("risk");
    EXPECT_LE(risk.at("low").get<double>(), risk.at("high").get<double>());
    EXPECT_GE(risk.at("p").get<double>(), 0);
    EXPECT_LE(risk.at("p").get<double>(), 1);
  }
}

TEST_F(SmallSite, SameSeedGivesTheSameBytesOnOneThreadAndTwo) {
  const auto bytes = [&](const char* threads) {
    return run({"--json", "--threads", threads, "morning", "--at", small_site_morning}).out;
  };
  const std::string one = bytes("1");
  EXPECT_GT(one.size(), 1000U);
  EXPECT_EQ(one, bytes("2"));
  EXPECT_EQ(one, bytes("1"));
}

TEST_F(SmallSite, AnotherSeedGivesOtherNumbers) {
  EXPECT_NE(morning({"--seed", "1"}).at("grafts"), morning({"--seed", "2"}).at("grafts"));
}

TEST_F(SmallSite, AdvisedActionsLowerTheRiskAndExcludedOnesAreNotAdvised) {
  const json answered = morning();
  for (const json& graft : answered.at("grafts")) {
    const std::string advised = graft.at("advice").is_null() || graft.at("advice").at("action").is_null()
                                    ? std::string()
                                    : graft.at("advice").at("action").get<std::string>();
    for (const json& action : graft.at("actions")) {
      if (action.at("action") != advised) continue;
      EXPECT_LT(action.at("p_after").get<double>(), graft.at("risk").at("p").get<double>());
      EXPECT_TRUE(!action.contains("excluded") || action.at("excluded").is_null());
    }
  }
}

TEST_F(SmallSite, TextFitsTheWidthAsked) {
  for (const int width : {60, 80, 140}) {
    const CommandOutcome outcome =
        run({"--width", std::to_string(width), "--ascii", "morning", "--at", small_site_morning});
    EXPECT_EQ(outcome.exit_code, 0);
    std::istringstream lines(outcome.out);
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(line.size(), static_cast<std::size_t>(width)) << line;
      for (const char c : line) EXPECT_LT(static_cast<unsigned char>(c), 128) << line;
    }
  }
}

TEST_F(SmallSite, OutputIsPlainWhenItIsNoTerminal) {
  EXPECT_THAT(run({"morning", "--at", small_site_morning}).out, Not(HasSubstr("\x1b[")));
}

TEST_F(SmallSite, NotesAreAppendedAndSplitMakesAChildRow) {
  EXPECT_EQ(run({"note", "R1", "watered", "--at", "2025-06-08T07:00Z"}).exit_code, 0);
  EXPECT_THAT(folder.read("diary.csv"), HasSubstr("R1,watered"));
  EXPECT_EQ(run({"split", "R1", "1", "--at", "2025-06-08T08:00Z"}).exit_code, 0);
  EXPECT_THAT(folder.read("grafts.csv"), HasSubstr("R1.1"));
  EXPECT_EQ(morning().at("grafts").size(), 4U);
}

TEST_F(SmallSite, NotesFromStandardInputAreTakenLineByLine) {
  const CommandOutcome outcome = run({"note", "--at", "2025-06-08T07:00Z"}, "R1..3 green\nR2 bag-off\n");
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(folder.read("diary.csv"), HasSubstr("R2,bag-off"));
}

TEST_F(SmallSite, SinceCountsDegreeDaysFromGraftingAndNamesDates) {
  const json since = answer({"since", "R2", "--at", small_site_morning});
  ASSERT_EQ(since.at("grafts").size(), 1U);
  const json& graft = since.at("grafts").at(0);
  double sum = 0;
  for (const json& day : graft.at("days")) sum = day.at("cumulative").get<double>();
  EXPECT_GT(graft.at("degree_days").get<double>(), 0);
  EXPECT_GE(sum, graft.at("degree_days").get<double>());
  EXPECT_TRUE(graft.contains("bridged_on"));
  EXPECT_TRUE(graft.at("vent_bag_from").contains("median"));
}

TEST_F(SmallSite, SinceByAnotherMethodAndBaseCountsOtherwise) {
  const auto total = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"since", "R2", "--at", small_site_morning});
    return answer(std::move(more)).at("grafts").at(0).at("degree_days").get<double>();
  };
  EXPECT_GT(total({"--base", "0"}), total({"--base", "10"}));
  EXPECT_GT(total({"--method", "sine", "--base", "5"}), 0);
}

TEST_F(SmallSite, LaterWeatherIsNotKnownUnlessInHindsight) {
  const json then = answer({"morning", "--at", "2025-06-06T06:00Z"});
  const json hindsight = answer({"--hindsight", "morning", "--at", "2025-06-06T06:00Z"});
  EXPECT_LE(then.at("weather").at("measured_until").get<std::string>(), "2025-06-06T06:00:00Z");
  EXPECT_NE(then.at("grafts"), hindsight.at("grafts"));
}

TEST_F(SmallSite, WeatherShowCoversTheDaysOfTheLog) {
  const json shown = answer({"weather", "show", "--at", "2025-06-12T00:00Z"});
  ASSERT_GE(shown.at("days").size(), 10U);
  EXPECT_EQ(shown.at("days").at(0).at("day"), "2025-06-01");
  EXPECT_NEAR(shown.at("days").at(0).at("air_temperature_max_c").get<double>(), 28, 0.2);
  EXPECT_GT(shown.at("days").at(0).at("et0_mm").get<double>(), 2);
}

TEST(NewSite, CanBeStartedFilledAndAsked) {
  const TemporaryFolder folder;
  const std::string site = (folder.path() / "plot").string();
  ASSERT_EQ(run_graftcast({"new", site, "--latitude", "41", "--longitude", "0.5", "--elevation", "90",
                           "--time-zone", "UTC"})
                .exit_code,
            0);
  const TemporaryFolder other;
  write_small_site(other.path());
  ASSERT_EQ(run_graftcast({"--site", site, "weather", "add", (other.path() / "weather/log.csv").string()})
                .exit_code,
            0);
  ASSERT_EQ(run_graftcast({"--site", site, "graft", "--species", "apple", "--method", "whip-and-tongue",
                           "--on", "2025-06-02"})
                .exit_code,
            0);
  const CommandOutcome morning = run_graftcast({"--site", site, "morning", "--at", small_site_morning});
  EXPECT_EQ(morning.exit_code, 0) << morning.err;
  EXPECT_EQ(run_graftcast({"new", site, "--latitude", "1", "--longitude", "1", "--elevation", "1",
                           "--time-zone", "UTC"})
                    .exit_code == 0,
            false);
}

TEST(Models, ShowEveryNumberWithUnitRangeSourceAndGrade) {
  const CommandOutcome outcome = run_graftcast({"--json", "models", "show", "apple"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  const json shown = json::parse(outcome.out);
  ASSERT_EQ(shown.at("species").size(), 1U);
  for (const auto& [name, number] : shown.at("species").at(0).at("numbers").items()) {
    for (const char* part : {"value", "unit", "low", "high", "source", "grade"})
      EXPECT_TRUE(number.contains(part)) << name;
  }
}

TEST(SampleSite, AnswersOnItsOwnMorning) {
  const CommandOutcome outcome = run_graftcast({"--site", GRAFTCAST_SOURCE_DIR "/sample_weather/site",
                                                "--json", "morning", "--at", "2025-06-09T06:30"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  std::set<std::string> urgencies;
  const json answered = json::parse(outcome.out);
  for (const json& graft : answered.at("grafts")) urgencies.insert(graft.at("urgency").get<std::string>());
  EXPECT_EQ(urgencies, (std::set<std::string>{"now", "soon", "watch", "leave"}));
}

}  // namespace
}  // namespace graftcast::testing
