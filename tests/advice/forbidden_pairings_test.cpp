// Every state of a graft against every action: what must not be done is never offered. The rules are common
// practice, no published source; they are written here once more, from the owner's side.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "advice/actions.hpp"
#include "model/made_season.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

constexpr auto first_day = std::chrono::January / 30 / 2025;
constexpr Hour start = std::chrono::sys_days{first_day};
constexpr LocalDay day_of_grafting{std::chrono::local_days{first_day}};

Site sunny_and_shady() {
  Site site = made_site({});
  site.spots["here"] = Spot{1.0, 0.6, true, true, {}, {}, {}, {}};
  site.spots["shed"] = Spot{0.1, 0.2, true, true, {}, {}, {}, {}};
  site.supplies["foil"] = 5;
  return site;
}

MadeSeason season_with_rain(double mm_an_hour) {
  SeasonSettings settings;
  settings.as_of = start + std::chrono::days(5);
  settings.members = 8;
  settings.outlook_days = 8;
  auto weather = made_weather(first_day, 14, [](int) { return MadeDay{15, 27, 45, 2, 800, 5.5}; });
  for (double& mm : weather[Variable::precipitation].value) mm = mm_an_hour;
  return {sunny_and_shady(), weather, start, settings};
}

bool keeps_moist(const std::string& cover) {
  return cover_optics(published_models().covers.at(cover)).vapour_kept > 0;
}

/// Why nobody who knows the trade would do it; empty where one might.
std::string objection(const GraftRun& run, const Prospects& p, const Action& action) {
  const GraftCase& graft = run.graft();
  const Setting& before = graft.settings.back();
  const Spot& spot = run.season().site.spots.at(before.spot);
  const Species& species = *graft.species;
  const bool new_bag = !keeps_moist(before.cover) && keeps_moist(action.after.cover);
  const bool leafy = p.bud_clock >= 1 || graft.scion_state->leaves;
  const bool drinks = p.stage >= Stage::drinking;
  if (new_bag && action.after.cover == "clear-bag" && spot.sun_share * (1 - action.after.shade) > 0.5)
    return "clear bag in the sun";
  if (new_bag && species.growth == LeafHabit::deciduous && p.bud_clock < 1 && p.mild_and_damp)
    return "bare deciduous wood bagged in damp weather";
  if (keeps_moist(before.cover) && action.after.cover != before.cover && leafy && p.hot && !drinks &&
      (action.after.cover == "none" || action.after.cover == "vented-bag"))
    return "leaves out of the bag in heat";
  if (action.waters && species.bleeds && !drinks) return "water for a bleeding stock";
  if (action.waters && run.waterlogged()) return "water for a waterlogged pot";
  return {};
}

struct Tally {
  std::map<std::string, int> forbidden;
  int allowed = 0;
};

void try_all_prospects(const GraftRun& run, Tally& tally) {
  for (int bits = 0; bits < 16; ++bits) {
    for (const Stage stage : {Stage::fresh, Stage::bridged, Stage::drinking}) {
      Prospects p;
      p.stage = stage;
      p.hot = bits & 1;
      p.mild_and_damp = bits & 2;
      p.cold = bits & 4;
      p.bud_clock = bits & 8 ? 1.3 : 0.2;
      for (const Action& action : possible_actions(run, p)) {
        const std::string why = objection(run, p, action);
        if (why.empty()) {
          tally.allowed += !action.forbidden;
          continue;
        }
        EXPECT_TRUE(action.forbidden.has_value())
            << act_name(action.act) << " for " << run.graft().species->name << ": " << why;
        ++tally.forbidden[why];
      }
    }
  }
}

TEST(ForbiddenPairings, AreForbiddenInEveryState) {
  Tally tally;
  const MadeSeason dry = season_with_rain(0), wet = season_with_rain(6);
  const Models& models = published_models();
  for (const MadeSeason* made : {&dry, &wet}) {
    for (const auto& [species, entry] : models.species) {
      if (sanitized && species != "walnut" && species != "citrus") continue;
      for (const auto& [cover, cover_entry] : models.covers) {
        for (const char* state : {"", "leafy"}) {
          for (const char* spot : {"here", "shed"}) {
            for (const double shade : {0.0, 0.7}) {
              GraftRow row = made_row("G1", day_of_grafting, species, "cleft", cover);
              row.scion_state = state;
              row.spot = spot;
              row.shade = shade;
              row.pot_litres = 5;
              const GraftRun run(made->season, graft_case(row, {}, made->site, made->clock, models,
                                                          made->season.settings.as_of));
              try_all_prospects(run, tally);
            }
          }
        }
      }
    }
  }
  for (const char* why :
       {"clear bag in the sun", "bare deciduous wood bagged in damp weather", "leaves out of the bag in heat",
        "water for a bleeding stock", "water for a waterlogged pot"}) {
    EXPECT_GT(tally.forbidden[why], 0) << why << " was never tried";
  }
  EXPECT_GT(tally.allowed, 1000);
}

}  // namespace
}  // namespace graftcast::testing
