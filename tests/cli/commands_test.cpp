// What the answers of whole commands must be to each other, and the sample site.

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "run_program.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using testing::Said;
using testing::SmallSite;

json parsed(const Said& said) {
  EXPECT_EQ(said.exit_code, 0) << said.err;
  return json::parse(said.out);
}

json sample_morning() {
  return parsed(testing::run({"--site", GRAFTCAST_SOURCE_DIR "/sample_weather/site", "--json", "--at",
                              "2025-06-09T06:30", "morning"}));
}

TEST(Morning, WithAnotherSeedGivesOtherNumbers) {
  const SmallSite site;
  EXPECT_NE(parsed(site.run({"morning", "--json", "--seed", "1"})).at("grafts"),
            parsed(site.run({"morning", "--json", "--seed", "2"})).at("grafts"));
}

TEST(Morning, AdvisesOnlyWhatLowersTheRiskAndIsNotExcluded) {
  int advised = 0;
  const json morning = sample_morning();
  for (const json& graft : morning.at("grafts")) {
    if (graft.at("advice").is_null() || graft.at("advice").at("action").is_null()) continue;
    for (const json& action : graft.at("actions")) {
      if (action.at("action") != graft.at("advice").at("action")) continue;
      ++advised;
      EXPECT_LT(action.at("p_after").get<double>(), graft.at("risk").at("p").get<double>());
      EXPECT_TRUE(!action.contains("excluded") || action.at("excluded").is_null());
    }
  }
  EXPECT_GT(advised, 3);
}

TEST(Morning, OfTheSampleSiteShowsEveryUrgency) {
  std::set<std::string> urgencies;
  const json morning = sample_morning();
  for (const json& graft : morning.at("grafts")) urgencies.insert(graft.at("urgency").get<std::string>());
  EXPECT_EQ(urgencies, (std::set<std::string>{"now", "soon", "watch", "leave"}));
}

TEST(Morning, OfTheSampleSiteShowsEachKindOfAdvice) {
  std::set<std::string> advised;
  const json morning = sample_morning();
  for (const json& graft : morning.at("grafts")) {
    const json& action = graft.at("advice").at("action");
    if (action.is_string()) advised.insert(action.get<std::string>());
  }
  for (const char* kind :
       {"shade", "clear-bag", "paper-over-bag", "paper-bag-and-shade", "open-bag", "water"})
    EXPECT_TRUE(advised.contains(kind)) << kind;
}

TEST(Since, AddsUpItsOwnDays) {
  const SmallSite site;
  const json since = parsed(site.run({"since", "B1", "--json"}));
  const json& graft = since.at("grafts").at(0);
  double sum = 0;
  for (const json& day : graft.at("days")) {
    sum += day.at("degree_days").get<double>();
    EXPECT_NEAR(day.at("cumulative").get<double>(), sum,
                1e-6 + 0.06 * static_cast<double>(graft.at("days").size()));
  }
  EXPECT_GT(sum, 0);
}

TEST(Cautions, StandInTextAndJsonAlikeAndEndWithTheLocalRules) {
  const SmallSite site;
  const auto file = [&](const char* name) { return (site.path() / name).string(); };
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"morning"},
        {"since"},
        {"why", "B1"},
        {"when", "--species", "citrus", "--method", "chip", "--days", "2"},
        {"labels", "--to", file("labels.html")},
        {"calendar", "--to", file("grafts.ics")},
        {"graft", "--species", "citrus", "--method", "chip"}}) {
    const auto with = [&](std::vector<std::string> more) {
      more.insert(more.begin(), words.begin(), words.end());
      return more;
    };
    const json cautions = parsed(site.run(with({"--json"}))).at("cautions");
    ASSERT_FALSE(cautions.empty()) << words[0];
    EXPECT_THAT(cautions.back().get<std::string>(), ::testing::HasSubstr("Local regulations")) << words[0];
    const std::string text = site.run(with({"--ascii", "--width", "400"})).out;
    for (const json& caution : cautions)
      EXPECT_THAT(text, ::testing::HasSubstr(caution.get<std::string>())) << words[0];
  }
}

TEST(Models, ShowEveryNumberWithUnitRangeSourceAndGrade) {
  const json shown = parsed(testing::run({"--json", "models", "show", "apple"}));
  ASSERT_EQ(shown.at("species").size(), 1U);
  for (const auto& [name, number] : shown.at("species").at(0).at("numbers").items()) {
    for (const char* part : {"value", "unit", "low", "high", "source", "grade"})
      EXPECT_TRUE(number.contains(part)) << name;
  }
}

}  // namespace
}  // namespace graftcast
