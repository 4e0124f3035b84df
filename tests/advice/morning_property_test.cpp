// What holds of every morning's list, over sites drawn at random.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "advice/morning.hpp"
#include "advice/random_sites.hpp"
#include "advice/written.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

constexpr std::uint64_t sites = sanitized ? 5 : 40;

/// Calls `check` with every graft of every random site's morning.
void for_every_graft(const std::function<void(const RandomSite&, const GraftMorning&)>& check) {
  std::size_t seen = 0;
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    const RandomSite site = random_site(seed);
    for (const GraftMorning& graft : morning(site.season(), site.grafts, 1).grafts) {
      SCOPED_TRACE("site " + std::to_string(seed) + ", graft " + graft.id);
      check(site, graft);
      ++seen;
    }
  }
  EXPECT_GT(seen, 2 * sites);
}

bool likely_lost(const GraftMorning& graft) {
  return graft.alive < published_models().urgency.likely_lost_p;
}

void expect_sound_advice(const GraftMorning& graft) {
  if (likely_lost(graft)) {
    EXPECT_EQ(graft.advice.act.kind, ActKind::look);
    EXPECT_FALSE(graft.act_by.has_value());
    return;
  }
  if (graft.advice.act.is_none()) {
    EXPECT_FALSE(graft.act_by.has_value());
    return;
  }
  const ActOutcome* action = graft.advised();
  ASSERT_NE(action, nullptr);
  EXPECT_EQ(action->excluded, std::nullopt);
  EXPECT_LT(action->p_after, graft.risk.p);
  EXPECT_TRUE(graft.act_by.has_value());
  EXPECT_TRUE(graft.advice.temporary || !graft.advice.undo_from);
  // The cheapest of those that get most of what the best one gets.
  const double best = graft.risk.p - graft.acts.front().p_after;
  const double worth = published_models().actions.worth_share;
  EXPECT_GE(best, published_models().urgency.watch_p);
  EXPECT_GE(graft.risk.p - action->p_after, worth * best);
  for (const ActOutcome& other : graft.acts) {
    if (!other.excluded && graft.risk.p - other.p_after >= worth * best) {
      EXPECT_LE(action->minutes, other.minutes);
    }
  }
}

TEST(MorningOfRandomSites, AdvisesOnlyWhatIsAllowedLowersTheRiskAndIsTheCheapestThatDoes) {
  std::size_t with_advice = 0, with_excluded = 0;
  for_every_graft([&](const RandomSite&, const GraftMorning& graft) {
    expect_sound_advice(graft);
    with_advice += !graft.advice.act.is_none();
    with_excluded += std::any_of(graft.acts.begin(), graft.acts.end(),
                                 [](const ActOutcome& a) { return a.excluded.has_value(); });
  });
  EXPECT_GT(with_advice, sites / 4);
  EXPECT_GT(with_excluded, sites / 4);
}

TEST(MorningOfRandomSites, ListsAllowedActionsByWhatTheySaveAndExcludedOnesLast) {
  for_every_graft([](const RandomSite& site, const GraftMorning& graft) {
    const double stake = site.record(graft.id).row.priority * graft.count;
    std::set<std::string> names;
    for (std::size_t i = 0; i < graft.acts.size(); ++i) {
      const ActOutcome& action = graft.acts[i];
      EXPECT_TRUE(names.insert(act_name(action.act)).second) << act_name(action.act) << " twice";
      EXPECT_NEAR(action.saved, stake * graft.alive * (graft.risk.p - action.p_after), 1e-12);
      EXPECT_TRUE(action.p_after >= 0 && action.p_after <= 1);
      EXPECT_GT(action.minutes, 0) << act_name(action.act);
      if (i == 0) continue;
      const ActOutcome& better = graft.acts[i - 1];
      EXPECT_LE(better.excluded.has_value(), action.excluded.has_value());
      if (better.excluded.has_value() == action.excluded.has_value()) {
        EXPECT_LE(better.p_after, action.p_after);
      }
    }
  });
}

TEST(MorningOfRandomSites, ActByLiesAtACoolHourBeforeTheHorizon) {
  for_every_graft([](const RandomSite& site, const GraftMorning& graft) {
    if (!graft.act_by) return;
    const Season& season = site.season();
    const Instant now = season.hour(season.now());
    EXPECT_GE(*graft.act_by, now);
    EXPECT_LT(*graft.act_by, Instant{season.hour(season.horizon() - 1)} + std::chrono::hours(1));
    const std::string clock_time = season.clock.local_text(*graft.act_by).substr(11);
    EXPECT_TRUE(*graft.act_by == now || clock_time == "07:00" || clock_time == "19:00") << clock_time;
  });
}

TEST(MorningOfRandomSites, UrgencyFollowsItsThresholds) {
  std::size_t beyond_help = 0;
  for_every_graft([&](const RandomSite& site, const GraftMorning& graft) {
    if (likely_lost(graft)) {
      EXPECT_EQ(graft.urgency, Urgency::watch);
      return;
    }
    const double p = graft.risk.p;
    const bool helpless = graft.advice.act.is_none() && p >= published_models().urgency.soon_p;
    const bool said = std::ranges::any_of(
        graft.reasons, [](const Reason& reason) { return std::holds_alternative<NothingHelps>(reason); });
    EXPECT_EQ(said, helpless);
    beyond_help += helpless;
    EXPECT_EQ(graft.urgency == Urgency::leave, p < published_models().urgency.watch_p);
    EXPECT_EQ(!graft.cause, p < published_models().urgency.watch_p);
    if (graft.advice.act.is_none()) {
      EXPECT_GE(graft.urgency, Urgency::watch);
    }
    if (graft.urgency == Urgency::soon) {
      EXPECT_GE(p, published_models().urgency.soon_p);
    }
    if (graft.urgency == Urgency::now) {
      EXPECT_GE(p, published_models().urgency.now_p);
      const Season& season = site.season();
      const auto ahead = *graft.act_by - Instant{season.hour(season.now())};
      EXPECT_LE(std::chrono::duration<double>(ahead).count() / 3600, published_models().urgency.now_h);
    }
  });
  EXPECT_GT(beyond_help + sanitized, 0U);
}

void expect_share(double value) {
  EXPECT_GE(value, 0);
  EXPECT_LE(value, 1);
}

TEST(MorningOfRandomSites, GivesFiniteNumbersWithinTheirRanges) {
  for_every_graft([](const RandomSite& site, const GraftMorning& graft) {
    for (const double share : {graft.alive, graft.risk.p, graft.risk.low, graft.risk.high, graft.water_now,
                               graft.water_low_7d, graft.risk_until_drinking.value_or(0)}) {
      expect_share(share);
    }
    EXPECT_LE(graft.risk.low, graft.risk.high);
    EXPECT_LE(graft.water_low_7d, graft.water_now);
    EXPECT_GE(graft.healing, 0);
    EXPECT_GE(graft.age_days, 0);
    EXPECT_GE(graft.degree_days.value_or(0), 0);
    EXPECT_GE(graft.vpd_max_kpa_7d, 0);
    EXPECT_GT(graft.count, 0);
    for (const ComingDay& day : graft.coming) {
      for (const double value : {day.tissue_max_c, day.air_max_c, day.net_loss})
        EXPECT_TRUE(std::isfinite(value));
      EXPECT_GT(day.tissue_max_c, -60);
      EXPECT_LT(day.tissue_max_c, 120);
    }
    EXPECT_EQ(graft.coming.front().day, site.season().clock.day_of(site.season().hour(site.season().now())));
    EXPECT_TRUE(graft.risk_until_drinking.value_or(1) >= 0);
  });
}

TEST(MorningOfRandomSites, RanksByUrgencyThenByWhatIsAtStake) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const RandomSite site = random_site(seed, 12);
    const MorningReport report = morning(site.season(), site.grafts, 1);
    const auto at_stake = [](const GraftMorning& g) { return g.acts.empty() ? 0 : g.acts.front().saved; };
    for (std::size_t i = 1; i < report.grafts.size(); ++i) {
      const GraftMorning &before = report.grafts[i - 1], &after = report.grafts[i];
      EXPECT_LE(before.urgency, after.urgency);
      if (before.urgency == after.urgency) {
        EXPECT_GE(at_stake(before), at_stake(after));
      }
    }
  }
}

TEST(MorningOfRandomSites, IsTheSameToTheLastBitOnOneAndOnSeveralThreads) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const RandomSite one = random_site(seed, 9), two = random_site(seed, 9), five = random_site(seed, 9);
    const std::string expected = written(morning(one.season(), one.grafts, 1));
    EXPECT_GT(expected.size(), 2000U);
    EXPECT_EQ(expected, written(morning(two.season(), two.grafts, 2)));
    EXPECT_EQ(expected, written(morning(five.season(), five.grafts, 5)));
    EXPECT_EQ(expected, written(morning(one.season(), one.grafts, 2)));  // climates already worked out
  }
}

TEST(MorningOfRandomSites, OfAGraftDoesNotDependOnTheOthersListedWithIt) {
  const RandomSite site = random_site(5, 6);
  const MorningReport all = morning(site.season(), site.grafts, 1);
  for (const GraftMorning& graft : all.grafts) {
    MorningReport one, alone = morning(site.season(), {site.record(graft.id)}, 1);
    one.grafts = {graft};
    one.notices = all.notices;
    EXPECT_EQ(written(one), written(alone));
  }
}

TEST(MorningOfRandomSites, SharesARankOnlyWithinTheErrorOfTheFirst) {
  std::size_t shared = 0;
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    const auto grafts = morning(random_site(seed, 12).season(), random_site(seed, 12).grafts, 1).grafts;
    for (std::size_t i = 0; i < grafts.size(); ++i) {
      const auto place = static_cast<std::size_t>(grafts[i].rank) - 1;
      ASSERT_LE(place, i);
      const GraftMorning& first = grafts[place];
      EXPECT_EQ(first.rank, grafts[i].rank);
      EXPECT_EQ(first.urgency, grafts[i].urgency);
      const auto stake = [](const GraftMorning& g) { return g.acts.empty() ? 0 : g.acts.front().saved; };
      const auto error = [](const GraftMorning& g) { return g.priority * g.count * g.alive * g.risk.error; };
      EXPECT_LE(stake(first) - stake(grafts[i]), std::max(error(first), error(grafts[i])));
      shared += place < i;
    }
  }
  EXPECT_GT(shared, 0U);
}

TEST(MorningOfRandomSites, BetterContactNeverRaisesTheRisk) {
  std::size_t lowered = 0;
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    RandomSite site = random_site(seed);
    std::vector<double> before(site.grafts.size(), 1);
    for (const double match : {0.3, 0.6, 0.9}) {
      for (GraftRecord& graft : site.grafts) {
        graft.row.cambium_match_share = match;
        graft.lines.clear();  // what was seen would speak against one contact and for another
      }
      for (const GraftMorning& graft : morning(site.season(), site.grafts, 1).grafts) {
        double& last = before[static_cast<std::size_t>(std::stoi(graft.id.substr(1))) - 1];
        // Leaves that a better union feeds sooner also draw on it: a hair more is no contradiction.
        EXPECT_LE(graft.risk.p, last + 0.005) << seed << ' ' << graft.id << ' ' << match;
        lowered += graft.risk.p < last - 0.01;
        last = std::min(last, graft.risk.p);
      }
    }
  }
  EXPECT_GT(lowered, 5U);
}

TEST(MorningOfRandomSites, LongerHorizonNeverLowersTheRisk) {
  const RandomSite site = random_site(3, 6);
  std::map<std::string, double> before;
  for (const int horizon_days : {1, 3, 7, 14}) {
    SeasonSettings settings = site.season().settings;
    settings.horizon_days = horizon_days;
    const RandomSite again = random_site(3, 6);
    const HourlyWeather& weather = again.season().outlook.weather;
    const MadeSeason longer(again.made->site, weather, weather.start, settings);
    for (const GraftMorning& graft : morning(longer.season, again.grafts, 1).grafts) {
      EXPECT_GE(graft.risk.p, before[graft.id]) << graft.id << " over " << horizon_days << " days";
      before[graft.id] = graft.risk.p;
    }
  }
}

}  // namespace
}  // namespace graftcast::testing
