// What heats a graft more than it keeps it from drying is excluded; what heats it a little and saves a lot is
// not.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "advice/actions.hpp"
#include "advice/morning.hpp"
#include "model/made_season.hpp"
#include "prospects.hpp"

namespace graftcast::testing {
namespace {

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};

/// How actions fared under the rule, over several weathers.
struct Tally {
  int harmless = 0, worth_its_heat = 0, excluded = 0;
};

void try_weather(const MadeDay& shape, double shade, Tally& tally) {
  SeasonSettings settings;
  settings.as_of = start + std::chrono::days(12) + std::chrono::hours(7);
  settings.members = 32;
  settings.outlook_days = 14;
  const MadeSeason made(made_site({}), made_weather(first_day, 26, [&](int) { return shape; }), start,
                        settings);
  const Season& season = made.season;
  GraftRow row = made_row("G1", std::chrono::local_days{first_day} + std::chrono::days(9), "citrus", "chip",
                          "none", "film-bud-out");
  row.shade = shade;
  const GraftMorning answer = morning(season, {{row, {}}}, 1).grafts.at(0);
  GraftRun run(season, graft_case(row, {}, made.site, made.clock, published_models(), settings.as_of));
  std::vector<UnionStates> none;
  const UnionNow now = run.to_now({}, none);
  const RiskOfTreatment as_it_is = risk_of(run, now, run.as_it_is(), season.horizon());
  const ActionConstants& numbers = published_models().actions;
  for (const Action& action :
       possible_actions(run, prospects_ahead(season, now, answer.stage, answer.coming))) {
    if (action.forbidden) continue;
    const RiskOfTreatment with = risk_of(
        run, now, run.changed(season.hour(season.now()), action.after, action.waters), season.horizon());
    const double heat = with.heat_loss - as_it_is.heat_loss, saved = as_it_is.risk.p - with.risk.p;
    const bool harms = heat > numbers.harm_limit;
    const bool cooks = harms && heat > numbers.harm_share * saved;
    const std::string name = act_name(action.act);
    const auto outcome =
        std::ranges::find(answer.acts, name, [](const ActOutcome& told) { return act_name(told.act); });
    ASSERT_NE(outcome, answer.acts.end()) << name;
    EXPECT_EQ(outcome->excluded.has_value(), cooks) << name << " heat " << heat << " saved " << saved;
    ++(cooks ? tally.excluded : harms ? tally.worth_its_heat : tally.harmless);
  }
}

TEST(HarmLimit, ExcludesWhatHeatsMoreThanAShareOfWhatItSaves) {
  Tally tally;
  for (const double maximum_c : {26.0, 30.0, 33.0, 36.0, 39.0})
    for (const double shade : {0.0, 0.5, 0.7}) try_weather({18, maximum_c, 15, 2.5, 900, 5.5}, shade, tally);
  EXPECT_GT(tally.harmless, 10);
  EXPECT_GT(tally.worth_its_heat, 1);
  EXPECT_GT(tally.excluded, 1);
}

}  // namespace
}  // namespace graftcast::testing
