// The ledger's row and the diary's lines put together: settings in order of time, sizes, counts, what is
// assumed.

#include "plant/graft_case.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "ensemble/members.hpp"
#include "graftcast/error.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

using ::testing::Contains;
using ::testing::IsEmpty;

constexpr LocalDay day_of_grafting{std::chrono::local_days{std::chrono::May / 1 / 2025}};
constexpr Instant grafted = std::chrono::sys_days{std::chrono::May / 1 / 2025} + std::chrono::hours(12);
constexpr Instant far_ahead = grafted + std::chrono::days(300);

GraftRow row_of(const std::string& species = "citrus", const std::string& method = "cleft") {
  GraftRow row;
  row.id = "G1";
  row.grafted_on = day_of_grafting;
  row.species = species;
  row.method = method;
  row.spot = "here";
  row.wrap = "film";
  row.cover = "none";
  return row;
}

Site two_spots() {
  Site site = made_site({});
  site.spots["shed"].sun_share = 0.1;
  return site;
}

GraftCase case_of(const GraftRow& row, std::span<const DiaryLine> lines = {}, Instant as_of = far_ahead,
                  const Site& site = two_spots()) {
  return graft_case(row, lines, site, Clock("UTC"), published_models(), as_of);
}

DiaryLine line(int day, const std::string& event, const std::string& value = "") {
  DiaryLine l;
  l.when = grafted + std::chrono::days(day);
  l.graft = "G1";
  l.event = event_named(event).value();
  l.value = value;
  return l;
}

/// The last setting after one event on a graft that begins under `cover`.
Setting after(const std::string& cover, const std::string& event, const std::string& value = "") {
  GraftRow row = row_of();
  row.cover = cover;
  row.wrap = "none";
  row.tip = "open";
  const std::vector lines{line(1, event, value)};
  return case_of(row, lines).settings.back();
}

TEST(DiaryEvent, ChangesTheCover) {
  for (const auto& [before, event, cover] : {std::tuple{"none", "bag-on", "clear-bag"},
                                             {"paper-bag", "bag-on", "clear-bag"},
                                             {"clear-bag", "bag-off", "none"},
                                             {"paper-over-bag", "bag-off", "none"},
                                             {"clear-bag", "bag-vented", "vented-bag"},
                                             {"none", "paper-on", "paper-bag"},
                                             {"clear-bag", "paper-on", "paper-over-bag"},
                                             {"vented-bag", "paper-on", "paper-over-bag"},
                                             {"foil-over-bag", "paper-on", "paper-over-bag"},
                                             {"paper-over-bag", "paper-on", "paper-over-bag"},
                                             {"paper-over-bag", "paper-off", "clear-bag"},
                                             {"paper-bag", "paper-off", "none"},
                                             {"none", "vented", "vented-bag"},
                                             {"clear-bag", "foil-on", "foil-over-bag"},
                                             {"paper-over-bag", "foil-on", "foil-over-bag"},
                                             {"foil-over-bag", "foil-off", "clear-bag"},
                                             {"paper-over-bag", "foil-off", "paper-over-bag"},
                                             {"none", "foil-off", "none"}}) {
    EXPECT_EQ(after(before, event).cover, cover) << before << ' ' << event;
  }
}

TEST(DiaryEvent, TakingPaperOffWhereThereIsNoneBagsNothing) {
  EXPECT_EQ(after("none", "paper-off").cover, "none");
}

TEST(DiaryEvent, PutsOnTheCoverThatItNames) {
  EXPECT_EQ(after("none", "bag-on", "paper-over-bag").cover, "paper-over-bag");
}

TEST(DiaryEvent, DoesToAnOwnCoverWhatItDoesToABag) {
  Models models = published_models();
  Cover sock = models.covers.at("clear-bag");
  sock.name = "sock";
  models.covers.emplace("sock", sock);
  const auto cover_after = [&](const std::vector<DiaryLine>& lines) {
    const GraftCase graft = graft_case(row_of(), lines, two_spots(), Clock("UTC"), models, far_ahead);
    const Exposure exposure = exposure_of(graft, graft.settings.back(), two_spots(), models);
    EXPECT_EQ(exposure.cover.wall, graft.settings.back().cover != "none");
    return graft.settings.back().cover;
  };
  std::vector lines{line(1, "bag-on", "sock")};
  EXPECT_EQ(cover_after(lines), "sock");
  lines.push_back(line(2, "paper-on"));
  EXPECT_EQ(cover_after(lines), "sock+paper");
  lines.push_back(line(3, "paper-off"));
  EXPECT_EQ(cover_after(lines), "sock");
  lines.push_back(line(4, "vented"));
  EXPECT_EQ(cover_after(lines), "sock+vented");
  lines.push_back(line(5, "bag-off"));
  EXPECT_EQ(cover_after(lines), "none");
}

TEST(DiaryEvent, PutsOnAWrapWithWhatItSeals) {
  const Setting film = after("none", "wrap-on", "film-bud-out");
  EXPECT_EQ(film.wrap, "film-bud-out");
  EXPECT_FALSE(film.tip_open);
  EXPECT_EQ(after("none", "wrap-on").wrap, published_models().methods.at("cleft").usual_wrap);
  GraftRow row = row_of("apple", "chip");
  const std::vector lines{line(1, "wrap-on", "film"), line(2, "wrap-on", "wax")};
  row.wrap = "none";
  EXPECT_TRUE(case_of(row).settings[0].edges_open);
  EXPECT_FALSE(case_of(row, lines).settings[2].edges_open);
}

TEST(DiaryEvent, ChangesTheNightsGainAndTheBarksColour) {
  const Models& models = published_models();
  EXPECT_EQ(after("none", "frost-cover-on").night_gain_k, models.actions.frost_cover_gain_k);
  EXPECT_EQ(after("none", "whitewashed").absorptance, models.climate.whitewash_absorptance);
  const std::vector lines{line(1, "frost-cover-on"), line(2, "whitewashed"), line(3, "frost-cover-off"),
                          line(4, "whitewash-off")};
  const GraftCase graft = case_of(row_of(), lines);
  EXPECT_TRUE(graft.settings.back().is_like(graft.settings.front()));
}

TEST(DiaryEvent, OfTheStocksTopAndOfScorchIsKeptWithoutEffect) {
  const std::vector lines{line(1, "lopped"), line(2, "bent"), line(3, "scorched"), line(4, "removed")};
  const GraftCase graft = case_of(row_of(), lines);
  EXPECT_EQ(graft.settings.size(), 1U);
  EXPECT_TRUE(graft.observations.empty());
}

TEST(DiaryEvent, ChangesShadeSpotTipAndWrap) {
  EXPECT_DOUBLE_EQ(after("none", "shade", "0.65").shade, 0.65);
  EXPECT_DOUBLE_EQ(after("none", "shade", "0").shade, 0);
  EXPECT_EQ(after("none", "moved", "shed").spot, "shed");
  EXPECT_TRUE(after("none", "bag-on").tip_open);
  EXPECT_FALSE(after("none", "tip-sealed").tip_open);
  EXPECT_EQ(after("none", "wrap-off").wrap, "none");
  EXPECT_EQ(after("none", "wrap-slit").wrap, "none");
}

TEST(DiaryEvent, OfAWrapTakenOffFindsTheCutEdgesHealed) {
  GraftRow row = row_of("apple", "chip");
  row.wrap = "none";
  EXPECT_TRUE(case_of(row).settings[0].edges_open);
  const std::vector lines{line(20, "wrap-off")};
  EXPECT_FALSE(case_of(row, lines).settings[1].edges_open);
}

TEST(DiaryEvent, HeadsTheStockBack) {
  const std::vector lines{line(20, "headed-back")};
  const GraftCase graft = case_of(row_of("apple", "chip"), lines);
  EXPECT_TRUE(graft.settings[0].full_head);
  EXPECT_FALSE(graft.settings[1].full_head);
  EXPECT_FALSE(case_of(row_of("apple", "cleft")).settings[0].full_head);
}

TEST(Diary, BuildsTheSettingsInOrderOfTimeEachUponTheLast) {
  const std::vector lines{line(0, "bag-on"), line(1, "shade", "0.5"), line(2, "paper-on"),
                          line(3, "moved", "shed"), line(9, "bag-off")};
  const GraftCase graft = case_of(row_of(), lines);
  ASSERT_EQ(graft.settings.size(), 6U);
  EXPECT_EQ(graft.settings[3].cover, "paper-over-bag");
  EXPECT_EQ(graft.settings[4].cover, "paper-over-bag");
  EXPECT_EQ(graft.settings[4].spot, "shed");
  EXPECT_EQ(graft.settings[5].cover, "none");
  EXPECT_DOUBLE_EQ(graft.settings[5].shade, 0.5);
  EXPECT_EQ(graft.setting_at(grafted - std::chrono::days(2)).from, graft.settings[0].from);
  EXPECT_EQ(graft.setting_at(grafted + std::chrono::days(2)).cover, "paper-over-bag");
  EXPECT_EQ(graft.setting_at(grafted + std::chrono::days(2) - std::chrono::hours(1)).cover, "clear-bag");
  EXPECT_EQ(graft.setting_at(far_ahead).cover, "none");
}

TEST(Diary, LinesAfterTheMomentDoNotCount) {
  const std::vector lines{line(1, "bag-on"), line(2, "watered", "5"), line(3, "dead", "2"),
                          line(4, "bag-off")};
  const GraftCase before = case_of(row_of(), lines, grafted + std::chrono::hours(6));
  EXPECT_EQ(before.settings.size(), 1U);
  EXPECT_TRUE(before.watering_assumed);
  const GraftCase then = case_of(row_of(), lines, grafted + std::chrono::days(2));
  EXPECT_EQ(then.settings.back().cover, "clear-bag");
  EXPECT_EQ(then.waterings.size(), 1U);
  EXPECT_TRUE(then.observations.empty());
  EXPECT_EQ(case_of(row_of(), lines).settings.back().cover, "none");
}

TEST(Diary, NotesWateringsByLitresOrToCapacity) {
  const std::vector lines{line(1, "watered", "5"), line(2, "watered")};
  const GraftCase graft = case_of(row_of(), lines);
  ASSERT_EQ(graft.waterings.size(), 2U);
  EXPECT_EQ(graft.waterings[0].litres, 5.0);
  EXPECT_FALSE(graft.waterings[1].litres.has_value());
  EXPECT_FALSE(graft.watering_assumed);
  EXPECT_EQ(graft.settings.size(), 1U);
}

TEST(Diary, KeepsWhatBearsOnTheModelAndLeavesTheRest) {
  const std::vector lines{line(1, "green"), line(2, "staked"), line(3, "mould"), line(4, "buds-moving"),
                          line(5, "suckers-rubbed")};
  const GraftCase graft = case_of(row_of(), lines);
  ASSERT_EQ(graft.observations.size(), 2U);
  EXPECT_EQ(graft.observations[0].event, Event::green);
  EXPECT_EQ(graft.observations[1].event, Event::buds_moving);
  EXPECT_EQ(graft.settings.size(), 1U);
}

TEST(Batch, CountsWhatIsTakenAndLostAndWhatIsOpenStill) {
  GraftRow row = row_of();
  row.count = 200;
  const std::vector lines{line(20, "taken", "150"), line(21, "dead", "20"), line(30, "taken", "10")};
  const GraftCase graft = case_of(row, lines);
  EXPECT_EQ(graft.taken, 160);
  EXPECT_EQ(graft.lost, 20);
  EXPECT_EQ(graft.open_count(), 20);
  EXPECT_EQ(graft.observations[1].count, 20);
  const std::vector whole{line(20, "dead", "20"), line(30, "taken")};  // all that are left
  EXPECT_EQ(case_of(row, whole).taken, 180);
  EXPECT_EQ(case_of(row, whole).open_count(), 0);
  const std::vector dead{line(20, "dead")};
  EXPECT_EQ(case_of(row, dead).lost, 200);
  EXPECT_EQ(case_of(row, dead).open_count(), 0);
}

TEST(Batch, IsClosedByWhatIsTakenAway) {
  GraftRow row = row_of();
  row.count = 20;
  const std::vector some{line(20, "taken", "5"), line(21, "removed", "3")};
  EXPECT_EQ(case_of(row, some).open_count(), 12);
  EXPECT_EQ(case_of(row, some).removed, 3);
  const std::vector rest{line(20, "taken", "5"), line(21, "removed")};
  EXPECT_EQ(case_of(row, rest).open_count(), 0);
  EXPECT_EQ(case_of(row, rest).taken, 5);
  EXPECT_EQ(case_of(row, rest).lost, 0);
}

TEST(Sizes, ScaleBarkWithDiameterTimesLengthAndStoreWithItsSquare) {
  GraftRow row = row_of();
  const GraftCase usual = case_of(row);
  const Method& cleft = published_models().methods.at("cleft");
  EXPECT_NEAR(usual.bark_area_m2, 1e-4 * cleft.bark_area_cm2, 1e-15);
  EXPECT_NEAR(usual.water_store_g, cleft.water_store_g, 1e-15);
  EXPECT_NEAR(usual.diameter_m, 1e-3 * cleft.diameter_mm, 1e-15);
  row.diameter_mm = 2 * cleft.diameter_mm;
  row.length_mm = 1.5 * cleft.length_mm;
  const GraftCase large = case_of(row);
  EXPECT_NEAR(large.bark_area_m2 / usual.bark_area_m2, 3, 1e-12);
  EXPECT_NEAR(large.water_store_g / usual.water_store_g, 6, 1e-12);
  EXPECT_NEAR(large.diameter_m / usual.diameter_m, 2, 1e-12);
}

TEST(Sizes, OfABudAreThoseOfTheStemItSitsOn) {
  GraftRow row = row_of("apple", "chip");
  EXPECT_NEAR(case_of(row).diameter_m, 1e-3 * published_models().climate.stem_diameter_mm, 1e-15);
  row.diameter_mm = 60;
  EXPECT_NEAR(case_of(row).diameter_m, 0.060, 1e-15);
  EXPECT_EQ(case_of(row).water_store_g, published_models().methods.at("chip").water_store_g);
}

TEST(EmptyCells, TakeTheUsualAndAreNamed) {
  GraftRow row = row_of("apple", "cleft");
  EXPECT_THAT(case_of(row).assumed, IsEmpty());
  row.spot = row.cover = row.wrap = "";
  const GraftCase graft = case_of(row, {}, far_ahead, made_site({}));
  for (const char* cell : {"spot", "cover", "wrap"}) EXPECT_THAT(graft.assumed, Contains(cell));
  EXPECT_EQ(graft.settings[0].spot, "here");  // the only one there is
  EXPECT_EQ(graft.settings[0].cover, "none");
  EXPECT_EQ(graft.settings[0].wrap, published_models().methods.at("cleft").usual_wrap);
  EXPECT_EQ(graft.settings[0].shade, 0);
  EXPECT_EQ(case_of(row, {}, far_ahead, two_spots()).settings[0].spot, "");
}

TEST(EmptyCells, OfTheTimeMeanNoon) {
  GraftRow row = row_of();
  EXPECT_EQ(case_of(row).grafted, grafted);
  row.grafted_at = grafted + std::chrono::hours(5);
  EXPECT_EQ(case_of(row).grafted, grafted + std::chrono::hours(5));
}

TEST(Tip, IsOpenOnlyWhereNoWrapCoversIt) {
  GraftRow row = row_of();
  row.tip = "open";
  EXPECT_FALSE(case_of(row).settings[0].tip_open);
  row.wrap = "none";
  EXPECT_TRUE(case_of(row).settings[0].tip_open);
  row.tip = "sealed";
  EXPECT_FALSE(case_of(row).settings[0].tip_open);
}

TEST(Row, NamingWhatTheModelsDoNotHaveIsAnError) {
  EXPECT_THROW(case_of(row_of("plumm")), DataError);
  EXPECT_THROW(case_of(row_of("apple", "cleftt")), DataError);
}

bool all_positive(const Eigen::ArrayXd& values) {
  return values.isFinite().all() && (values > 0).all();
}

TEST(EverySpeciesAndMethod, MakesACaseWithFiniteAndPositiveNumbers) {
  const Models& models = published_models();
  const Site site = two_spots();
  MemberQuantiles quantiles(1, 16);
  quantiles.set_match_shapes(models);
  int cases = 0;
  for (const auto& [species, s] : models.species) {
    for (const auto& [method, m] : models.methods) {
      GraftRow row = row_of(species, method);
      row.wrap = "";
      const GraftCase graft = case_of(row, {}, far_ahead, site);
      SCOPED_TRACE(species + " " + method);
      EXPECT_GT(graft.bark_area_m2, 0);
      EXPECT_GT(graft.water_store_g, 0);
      EXPECT_GT(graft.diameter_m, 0);
      EXPECT_GT(graft.buds, 0);
      EXPECT_FALSE(graft.cold_rows->empty());
      const Exposure exposure = exposure_of(graft, graft.settings[0], site, models);
      EXPECT_GT(exposure.diameter_m, 0);
      EXPECT_GT(exposure.absorptance, 0);
      EXPECT_GT(exposure.bark_conductance_mol, 0);
      const UnionMembers members = union_members(graft, graft.settings[0], models, quantiles);
      for (const auto number :
           {&UnionMembers::bridge_days, &UnionMembers::vascular_healing, &UnionMembers::base_supply_per_day,
            &UnionMembers::joined_supply_per_day, &UnionMembers::cambium_match,
            &UnionMembers::bark_conductance_mol, &UnionMembers::bark_area_m2, &UnionMembers::water_store_mol,
            &UnionMembers::bud_push_degree_days, &UnionMembers::heat_recovery_days,
            &UnionMembers::stores_days, &UnionMembers::shoot_leaf_area_m2}) {
        EXPECT_TRUE(all_positive(members.*number));
      }
      ++cases;
    }
  }
  EXPECT_EQ(cases, 23 * 11);
}

}  // namespace
}  // namespace graftcast::testing
