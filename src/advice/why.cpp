#include "advice/why.hpp"

#include <algorithm>
#include <array>

#include "card_of.hpp"
#include "culprit_facts.hpp"
#include "loss_shares.hpp"
#include "release_dates.hpp"
#include "saving_actions.hpp"
#include "why_days.hpp"
#include "why_lesson.hpp"
#include "why_signs.hpp"

namespace graftcast {

namespace {

/// The last note of loss, else the moment of the answer.
Instant end_of_life(const GraftRecord& record, bool lost, Instant as_of) {
  if (!lost) return as_of;
  const auto last = std::find_if(record.lines.rbegin(), record.lines.rend(), [&](const DiaryLine& line) {
    return line.event == Event::dead && line.when <= as_of;
  });
  return last == record.lines.rend() ? as_of : last->when;
}

/// The last time before `until` that it was seen alive, all of it.
Instant seen_alive(const GraftCase& graft, Instant until) {
  constexpr std::array alive{Event::green, Event::leafed_out, Event::taken};
  Instant last = graft.grafted;
  for (const Observation& seen : graft.observations) {
    if (seen.when <= until && seen.count >= graft.count &&
        std::ranges::find(alive, seen.event) != alive.end())
      last = std::max(last, seen.when);
  }
  return last;
}

/// One lost graft, step by step.
class Explanation {
 public:
  Explanation(const Season& season, const HarmlessClimates& climates, const GraftRecord& record,
              const WhyAsk& ask, int threads)
      : season_(season),
        record_(record),
        ask_(ask),
        threads_(threads),
        run_(season, graft_case(record.row, record.lines, season.site, season.clock, season.models,
                                season.settings.as_of)),
        lost_(run_.graft().lost > 0),
        until_(end_of_life(record, lost_, season.settings.as_of)),
        runs_(run_, climates, season.index_of(until_)) {}

  GraftWhy explained() {
    describe_row();
    live_through();
    share_out();
    name_culprits();
    if (ask_.actions) w_.would_have_saved = saving_actions(runs_, record_, w_.days, w_.loss);
    if (ask_.lesson) w_.lesson = lesson_of(w_, run_, shares_, course_.states.back());
    return std::move(w_);
  }

 private:
  void describe_row() {
    const GraftRow& row = record_.row;
    const GraftCase& graft = run_.graft();
    static_cast<GraftCard&>(w_) = card_of(row);
    w_.spot = graft.setting_at(until_).spot;
    w_.lost = graft.lost;
    w_.taken = graft.taken;
    w_.outcome = graft.lost >= graft.count                                          ? RowOutcome::lost
                 : lost_                                                            ? RowOutcome::lost_in_part
                 : graft.removed > 0 && graft.taken == 0 && graft.open_count() == 0 ? RowOutcome::removed
                 : graft.open_count() == 0                                          ? RowOutcome::taken
                                                                                    : RowOutcome::open;
    w_.until = until_;
    w_.age_days = std::max(0.0, std::chrono::duration<double>(until_ - graft.grafted).count() / 86400.0);
    w_.assumed = graft.assumed;
    if (graft.watering_assumed) w_.assumed.emplace_back("watering");
  }

  void live_through() {
    course_ = life_course(runs_);
    const UnionStates& last = course_.states.back();
    w_.healing = weighted_mean(last.healing, course_.weights);
    w_.bud_clock = weighted_mean(last.bud_clock, course_.weights);
    w_.leaf_share = weighted_mean(last.leaf_share, course_.weights);
    w_.water = weighted_mean(last.water, course_.weights);
    w_.stage = stage_of(run_.stages(), w_.healing);
    const UnionCourse course{course_.marks, course_.states, course_.weights};
    w_.bridged_on = level_band(season_, course, &UnionStates::healing, run_.stages().bridged_from);
    w_.drinking_from = level_band(season_, course, &UnionStates::healing, run_.stages().drinking_from);
    w_.buds_moved_on = level_band(season_, course, &UnionStates::bud_clock, 1);
    w_.days = why_days(runs_, course_, record_.lines);
    w_.when = loss_dates(season_, course_, seen_alive(run_.graft(), until_));
  }

  void share_out() {
    shares_ = loss_shares(runs_, season_.models.why.applies_loss, threads_);
    w_.loss = shares_.all;
    w_.loss_harmless = shares_.none;
    w_.plain_failure = 1 - run_.graft().take_share();
    w_.explained = shares_.all - shares_.none >= season_.models.why.explained_loss;
  }

  void name_culprits() {
    for (const FactorShare& share : shares_.shares) {
      const FactorTrial& trial = shares_.trials[static_cast<std::size_t>(share.factor)];
      w_.shares.push_back({share.factor, share.share, 0, trial.without, trial.alone, {}});
    }
    w_.shares.push_back({not_weather, w_.loss_harmless + w_.plain_failure, 0, {}, {}, {}});
    w_.signs = seen_signs(record_.lines, w_.outcome == RowOutcome::lost, season_.models);
    weigh_culprits(w_.shares, w_.signs, season_.models);
    for (CulpritShare& share : w_.shares) share.fact = culprit_fact(w_, run_, share.culprit);
  }

  const Season& season_;
  const GraftRecord& record_;
  const WhyAsk& ask_;
  int threads_;
  GraftRun run_;
  bool lost_;
  Instant until_;
  Counterfactuals runs_;
  LifeCourse course_;
  LossShares shares_;
  GraftWhy w_;
};

}  // namespace

GraftWhy why(const Season& season, const HarmlessClimates& climates, const GraftRecord& record,
             const WhyAsk& ask, int threads) {
  return Explanation(season, climates, record, ask, threads).explained();
}

}  // namespace graftcast
