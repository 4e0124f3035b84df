// What can be done for a graft as it stands, and what forbids it. Common practice, no published source.

#include "advice/actions.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "model/made_season.hpp"

namespace graftcast::testing {
namespace {

using ::testing::AnyOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsSupersetOf;
using ::testing::Not;
using ::testing::Pair;
using ::testing::UnorderedElementsAre;

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr LocalDay day_of_grafting{std::chrono::local_days{first_day}};

Site site_of_actions() {
  Site site = made_site({});
  site.spots["here"].movable = true;
  site.spots["shed"] = Spot{0.1, 0.2, false, true, {}, {}, {}, {}};
  site.spots["windy roof"] = Spot{1.0, 1.0, true, true, {}, {}, {}, {}};
  site.spots["row"] = Spot{0.2, 0.2, true, false, {}, {}, {}, {}};
  site.shade_cloth_share = 0.6;
  return site;
}

class ActionsTest : public ::testing::Test {
 protected:
  std::vector<Action> actions() {
    SeasonSettings settings;
    settings.as_of = start + std::chrono::days(5);
    settings.members = 8;
    settings.outlook_days = 8;
    const auto weather = made_weather(first_day, 14, [](int) { return MadeDay{15, 27, 45, 2, 800, 5.5}; });
    const MadeSeason made(site, weather, start, settings);
    const GraftRun run(made.season,
                       graft_case(row, lines, made.site, made.clock, published_models(), settings.as_of));
    return possible_actions(run, prospects);
  }
  std::vector<std::string> names() {
    std::vector<std::string> names;
    for (const Action& action : actions()) names.push_back(act_name(action.act));
    return names;
  }
  Action named(const std::string& name) {
    const auto all = actions();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Action& a) { return act_name(a.act) == name; });
    EXPECT_NE(found, all.end()) << name;
    return found == all.end() ? Action{} : *found;
  }

  Site site = site_of_actions();
  GraftRow row = made_row("G1", day_of_grafting);
  std::vector<DiaryLine> lines;
  Prospects prospects;
};

TEST_F(ActionsTest, OfABareStickInTheGround) {
  EXPECT_THAT(names(), ElementsAre("shade", "clear-bag", "paper-over-bag", "bag-and-shade",
                                   "paper-bag-and-shade", "water"));
}

TEST_F(ActionsTest, OfABaggedStickInAPot) {
  row.cover = "clear-bag";
  row.pot_litres = 5;
  EXPECT_THAT(names(), ElementsAre("shade", "paper-over-bag", "paper-and-shade", "vent-bag", "open-bag",
                                   "water", "move:shed"));
}

TEST_F(ActionsTest, LeadToTheSettingTheyName) {
  row.pot_litres = 5;
  EXPECT_DOUBLE_EQ(named("shade").after.shade, 0.6);
  EXPECT_EQ(named("clear-bag").after.cover, "clear-bag");
  EXPECT_EQ(named("clear-bag").after.shade, 0);
  EXPECT_EQ(named("bag-and-shade").after.cover, "clear-bag");
  EXPECT_DOUBLE_EQ(named("bag-and-shade").after.shade, 0.6);
  EXPECT_EQ(named("paper-bag-and-shade").after.cover, "paper-over-bag");
  EXPECT_EQ(named("move:shed").after.spot, "shed");
  EXPECT_TRUE(named("water").waters);
  row.cover = "clear-bag";
  EXPECT_EQ(named("vent-bag").after.cover, "vented-bag");
  EXPECT_EQ(named("open-bag").after.cover, "none");
}

TEST_F(ActionsTest, OnceNotedLeadToTheSettingThatWasAdvised) {
  site.supplies["foil"] = 2;
  prospects.cold = prospects.windy = true;
  row.pot_litres = 5;
  std::set<std::string> tried;
  for (const char* method : {"cleft", "chip"}) {
    for (const auto& [cover, entry] : published_models().covers) {
      row.method = method;
      row.wrap = "none";
      row.tip = "open";
      row.cover = cover;
      lines.clear();
      for (const Action& action : actions()) {
        tried.insert(act_name(action.act));
        ASSERT_FALSE(action.notes.empty()) << act_name(action.act);
        std::vector<DiaryLine> noted;
        for (const EventNote& note : action.notes)
          noted.push_back(
              made_line(start + std::chrono::days(4), std::string(event_word(note.event)), note.value));
        const GraftCase graft = graft_case(row, noted, site, Clock(site.time_zone), published_models(),
                                           start + std::chrono::days(5));
        EXPECT_TRUE(graft.settings.back().is_like(action.after))
            << act_name(action.act) << " under " << cover;
        EXPECT_EQ(graft.waterings.empty(), !action.waters) << act_name(action.act);
        EXPECT_EQ(graft.staked.has_value(), action.act.kind == ActKind::stake) << act_name(action.act);
      }
    }
  }
  EXPECT_THAT(tried, IsSupersetOf({"shade", "clear-bag", "paper-over-bag", "foil-over-bag", "bag-and-shade",
                                   "paper-bag-and-shade", "paper-and-shade", "seal-tip", "vent-bag",
                                   "open-bag", "water", "move:shed", "frost-cover", "whitewash", "stake"}));
}

TEST_F(ActionsTest, AreNotOfferedAgainOnceTheyAreDone) {
  prospects.cold = prospects.windy = true;
  row.method = "chip";
  const Instant noted = start + std::chrono::days(4);
  lines = {made_line(noted, "frost-cover-on"), made_line(noted, "whitewashed"), made_line(noted, "staked"),
           made_line(noted, "shade", "0.9")};
  EXPECT_THAT(names(), Not(AnyOf(Contains("frost-cover"), Contains("whitewash"), Contains("stake"),
                                 Contains("shade"))));
  lines.push_back(made_line(noted, "whitewash-off"));
  lines.push_back(made_line(noted, "frost-cover-off"));
  EXPECT_THAT(names(), IsSupersetOf({"frost-cover", "whitewash"}));
}

TEST_F(ActionsTest, NeedOnlyTheSuppliesThatAreNotOnYet) {
  EXPECT_THAT(named("paper-over-bag").needs, UnorderedElementsAre(Pair("clear-bag", 1), Pair("paper", 1)));
  EXPECT_THAT(named("bag-and-shade").needs,
              UnorderedElementsAre(Pair("clear-bag", 1), Pair("shade-cloth", 1)));
  EXPECT_THAT(named("water").needs, UnorderedElementsAre());
  row.cover = "clear-bag";
  EXPECT_THAT(named("paper-over-bag").needs, UnorderedElementsAre(Pair("paper", 1)));
  row.cover = "paper-bag";
  EXPECT_THAT(named("paper-over-bag").needs, UnorderedElementsAre(Pair("clear-bag", 1)));
}

TEST_F(ActionsTest, TakeTheMinutesOfTheSiteBeforeThoseOfTheModels) {
  const ActionConstants& numbers = published_models().actions;
  EXPECT_EQ(named("shade").minutes, numbers.minutes_shade_cloth);
  EXPECT_EQ(named("paper-over-bag").minutes, numbers.minutes_clear_bag + numbers.minutes_paper);
  site.minutes["shade-cloth"] = 17;
  EXPECT_EQ(named("shade").minutes, 17);
  EXPECT_EQ(named("bag-and-shade").minutes, 17 + numbers.minutes_clear_bag);
}

TEST_F(ActionsTest, FoilOnlyWhereItIsAtHand) {
  EXPECT_THAT(names(), Not(Contains("foil-over-bag")));
  site.supplies["foil"] = 3;
  EXPECT_EQ(named("foil-over-bag").after.cover, "foil-over-bag");
}

TEST_F(ActionsTest, ForbidAClearBagInTheSunAndAllowItInTheShade) {
  EXPECT_EQ(named("clear-bag").forbidden, Exclusion::bag_in_the_sun);
  EXPECT_EQ(named("paper-over-bag").forbidden, std::nullopt);
  EXPECT_EQ(named("bag-and-shade").forbidden, std::nullopt);
  row.shade = 0.7;
  EXPECT_EQ(named("clear-bag").forbidden, std::nullopt);
  row.shade.reset();
  row.spot = "shed";
  EXPECT_EQ(named("clear-bag").forbidden, std::nullopt);
}

TEST_F(ActionsTest, ForbidBaggingBareDeciduousWoodInMildDampWeather) {
  row.species = "apple";
  row.spot = "shed";
  prospects.mild_and_damp = true;
  for (const char* name : {"clear-bag", "paper-over-bag", "bag-and-shade", "paper-bag-and-shade"}) {
    EXPECT_EQ(named(name).forbidden, Exclusion::moulds) << name;
  }
  row.cover = "clear-bag";  // the bag is on already
  EXPECT_EQ(named("paper-over-bag").forbidden, std::nullopt);
  row.cover = "none";
  prospects.bud_clock = 1.2;  // no longer bare
  EXPECT_EQ(named("clear-bag").forbidden, std::nullopt);
  row.species = "citrus";
  prospects.bud_clock = 0;
  EXPECT_EQ(named("clear-bag").forbidden, std::nullopt);
}

TEST_F(ActionsTest, ForbidWateringAStockThatBleedsUntilTheUnionDrinks) {
  for (const char* species : {"walnut", "grape", "kiwifruit"}) {
    row.species = species;
    prospects.stage = Stage::bridged;
    EXPECT_EQ(named("water").forbidden, Exclusion::bleeds) << species;
    prospects.stage = Stage::drinking;
    EXPECT_EQ(named("water").forbidden, std::nullopt) << species;
  }
  row.species = "apple";
  prospects.stage = Stage::fresh;
  EXPECT_EQ(named("water").forbidden, std::nullopt);
}

TEST_F(ActionsTest, ForbidOpeningABagOverLeavesInHeatBeforeTheyDrink) {
  row.cover = "clear-bag";
  row.scion_state = "leafy";
  prospects.hot = true;
  EXPECT_EQ(named("vent-bag").forbidden, Exclusion::dries_leaves);
  EXPECT_EQ(named("open-bag").forbidden, Exclusion::dries_leaves);
  prospects.stage = Stage::drinking;
  EXPECT_EQ(named("open-bag").forbidden, std::nullopt);
  prospects.stage = Stage::fresh;
  prospects.hot = false;
  EXPECT_EQ(named("open-bag").forbidden, std::nullopt);
  prospects.hot = true;
  row.scion_state = "";
  EXPECT_EQ(named("open-bag").forbidden, std::nullopt);  // a leafless stick
  prospects.bud_clock = 1;
  EXPECT_EQ(named("open-bag").forbidden, Exclusion::dries_leaves);
}

TEST_F(ActionsTest, MoveOnlyPotsFromAndToMovableSpotsThatAreGentler) {
  row.pot_litres = 5;
  EXPECT_THAT(names(), Contains("move:shed"));
  EXPECT_THAT(names(), Not(Contains("move:windy roof")));
  EXPECT_THAT(names(), Not(Contains("move:row")));
  row.pot_litres.reset();
  EXPECT_THAT(names(), Not(Contains("move:shed")));
  row.pot_litres = 5;
  row.spot = "row";
  EXPECT_THAT(names(), Not(Contains("move:shed")));
}

TEST_F(ActionsTest, FrostCoverOnlyBeforeColdAndWhitewashOnlyForBuds) {
  EXPECT_THAT(names(), Not(Contains("frost-cover")));
  prospects.cold = true;
  EXPECT_GT(named("frost-cover").after.night_gain_k, 0);
  EXPECT_THAT(names(), Not(Contains("whitewash")));
  row.method = "chip";
  EXPECT_LT(*named("whitewash").after.absorptance, 0.5);
}

TEST_F(ActionsTest, SealOnlyAnOpenTip) {
  EXPECT_THAT(names(), Not(Contains("seal-tip")));
  row.wrap = "none";
  row.tip = "open";
  EXPECT_FALSE(named("seal-tip").after.tip_open);
  lines = {made_line(start + std::chrono::days(1), "tip-sealed")};
  EXPECT_THAT(names(), Not(Contains("seal-tip")));
}

TEST_F(ActionsTest, StartFromTheCoverThatTheDiaryLeft) {
  lines = {made_line(start + std::chrono::days(1), "bag-on"),
           made_line(start + std::chrono::days(2), "shade", "0.6")};
  EXPECT_THAT(names(), ElementsAre("paper-over-bag", "vent-bag", "open-bag", "water"));
}

}  // namespace
}  // namespace graftcast::testing
