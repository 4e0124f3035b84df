#include "verdict.hpp"

#include <algorithm>
#include <cmath>

#include "advice/graft_window.hpp"
#include "advice/wait_or_regraft.hpp"
#include "new_graft.hpp"

namespace graftcast {

namespace {

constexpr int weeks_to_look_in = 12;

double days_between(Instant from, Instant to) {
  return std::chrono::duration<double, std::ratio<86400>>(to - from).count();
}

const RegraftConstants& rule_of(const GraftRun& run) {
  return run.season().models.regraft;
}

/// Of the grafts that the hand failed, how many show it at an age.
double shown_by(const GraftRun& run, double age_days) {
  const Method& method = *run.graft().method;
  const double from = rule_of(run).shown_from_share * method.doubtful_days;
  return std::clamp((age_days - from) / (method.failed_days - from), 0.0, 1.0);
}

OwnersCosts costs_of(const GraftRun& run) {
  const auto cost = [&](const char* name, double usual) {
    const auto own = run.season().site.costs.find(name);
    return own != run.season().site.costs.end() ? own->second : usual;
  };
  const RegraftConstants& usual = rule_of(run);
  return {cost("stock_week", usual.stock_week_cost), cost("look", usual.look_cost),
          cost("graft", usual.graft_cost)};
}

/// The verdict on one graft.
class Judgement {
 public:
  Judgement(const GraftRun& run, const GraftRow& row, const SignsOfLife& signs, const Workmanship& work,
            GraftSince& graft)
      : run_(run),
        row_(row),
        signs_(signs),
        work_(work),
        graft_(graft),
        open_(run.graft().open_count()),
        today_(run.season().clock.day_of(run.season().settings.as_of)) {}

  void give() {
    graft_.overdue =
        open_ > 0 && !signs_.moved && graft_.buds_expected.p90 && today_ > *graft_.buds_expected.p90;
    if (open_ > 0) weigh();
    graft_.ground = ground();
  }

 private:
  bool is_bud() const { return run_.graft().organ == Organ::bud; }
  double first_look_days() const { return rule_of(run_).first_look_days; }
  std::chrono::days patience() const {
    return std::chrono::days(static_cast<int>(rule_of(run_).patience_days));
  }

  /// Never by date alone: only what was seen settles it.
  VerdictGround ground() const {
    if (open_ == 0 && run_.graft().taken + run_.graft().lost == 0) return TakenAway{};
    if (open_ == 0 && run_.graft().taken == 0) return NotedDead{season_for_it()};
    if (open_ == 0) return NotedTaken{run_.graft().taken, row_.count};
    if (signs_.shrivelled > 0) return Shrivelled{signs_.shrivelled, open_, season_for_it()};
    if (graft_.overdue && !looked_lately()) return LookIsOverdue{way_to_look()};
    if (graft_.worth->look_pays()) return LookPays{graft_.worth->shows_lost, way_to_look()};
    if (signs_.moved) return BudsHaveMoved{};
    if (signs_.scratched && signs_.looked_on) return ScratchedGreen{*signs_.looked_on};
    if (graft_.overdue) return LookedAtLately{};
    return NothingOverdue{};
  }

  /// A stick is scratched once; a wrap is not lifted again before some weeks are over.
  bool looked_lately() const {
    if (!is_bud()) return signs_.scratched;
    return signs_.looked_on && *signs_.looked_on + patience() > today_;
  }
  bool may_look() const { return !signs_.moved && graft_.age_days >= first_look_days() && !looked_lately(); }

  /// A dead scion has shrivelled some weeks after the last ones that the hand failed have died.
  LocalDay shows_by() const {
    const auto failed = std::chrono::days(static_cast<int>(run_.graft().method->failed_days));
    return std::max(row_.grafted_on + failed, today_) + patience();
  }

  void weigh() {
    const Season& season = run_.season();
    NewGraft anew = new_graft(run_, row_);
    const double latitude_deg = season.site.location.latitude_deg;
    anew.window = graft_window(*run_.graft().species, latitude_deg, today_);
    const Standing standing{graft_.alive,
                            work_.hand,
                            graft_.still_to_take,
                            work_.shown_shares,
                            season.models.observation.reliability,
                            today_,
                            shows_by(),
                            may_look()};
    anew.window_then = graft_window(*run_.graft().species, latitude_deg, standing.shows_by);
    graft_.worth = wait_or_regraft(standing, anew, costs_of(run_));
  }

  WayToLook way_to_look() const {
    if (is_bud()) return WayToLook::under_wrap;
    return graft_.age_days < first_look_days() ? WayToLook::scratch_in_week_three : WayToLook::scratch;
  }

  GraftWindow season_for_it() const {
    return graft_window(*run_.graft().species, run_.season().site.location.latitude_deg, today_);
  }

  const GraftRun& run_;
  const GraftRow& row_;
  const SignsOfLife& signs_;
  const Workmanship& work_;
  GraftSince& graft_;
  int open_;
  LocalDay today_;
};

}  // namespace

Verdict verdict_of(const VerdictGround& ground) {
  if (std::holds_alternative<NotedDead>(ground) || std::holds_alternative<Shrivelled>(ground))
    return Verdict::regraft;
  if (std::holds_alternative<LookIsOverdue>(ground) || std::holds_alternative<LookPays>(ground))
    return Verdict::check;
  return Verdict::wait;
}

SignsOfLife signs_of_life(const GraftRun& run) {
  const GraftCase& graft = run.graft();
  SignsOfLife signs;
  int scratched = 0;
  for (const Observation& seen : graft.observations) {
    if (seen.count < 1) continue;
    const double age_days = days_between(graft.grafted, seen.when);
    if (is_sign_of_life(seen.event)) signs.alive_at_age = age_days;
    if (about(seen.event).evidence == Evidence::growth) signs.moved = true;
    if (seen.event == Event::shrivelled) signs.shrivelled = seen.count;
    if (seen.event == Event::shrivelled || seen.event == Event::wilted) signs.moved = false;
    if (seen.event != Event::green) continue;
    signs.shrivelled = std::max(0, signs.shrivelled - seen.count);
    if (age_days < rule_of(run).first_look_days) continue;
    signs.looked_on = run.season().clock.day_of(seen.when);
    scratched += seen.count;
  }
  signs.shrivelled = std::min(signs.shrivelled, graft.open_count());
  signs.scratched = graft.organ == Organ::stick && scratched > 0 && scratched >= graft.open_count();
  return signs;
}

Workmanship workmanship(const GraftRun& run, const SignsOfLife& signs, double age_days) {
  const double made_well = run.graft().take_share();
  const double seen = signs.alive_at_age ? shown_by(run, *signs.alive_at_age) : 0;
  const double unseen = (1 - made_well) * (1 - seen);
  Workmanship work{made_well / (made_well + unseen), {}};
  for (int week = 0; week <= weeks_to_look_in; ++week) {
    const double shown = shown_by(run, age_days + 7 * week);
    work.shown_shares.push_back(seen < 1 ? std::max(0.0, (shown - seen) / (1 - seen)) : 0.0);
  }
  return work;
}

void give_verdict(const GraftRun& run, const GraftRow& row, const SignsOfLife& signs, const Workmanship& work,
                  GraftSince& graft) {
  Judgement(run, row, signs, work, graft).give();
}

}  // namespace graftcast
