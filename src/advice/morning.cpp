#include "advice/morning.hpp"

#include <algorithm>

#include "advice/actions.hpp"
#include "advice/since.hpp"
#include "card_of.hpp"
#include "care_of_graft.hpp"
#include "degree_day_sum.hpp"
#include "grafts_by_exposure.hpp"
#include "lived_union.hpp"
#include "morning_reasons.hpp"
#include "parallel.hpp"
#include "prospects.hpp"
#include "season_notices.hpp"

namespace graftcast {

namespace {

/// Beginnings of the local days inside [from, to), with both ends.
std::vector<std::size_t> day_marks(const Season& season, std::size_t from, std::size_t to) {
  std::vector<std::size_t> marks{from};
  for (const DaySpan& day : season.days) {
    if (day.begin > from && day.begin < to) marks.push_back(day.begin);
  }
  if (to > from) marks.push_back(to);
  return marks;
}

/// The days between marks as the graft lived (or will live) them.
std::vector<UnionDay> days_between(const GraftRun& run, std::span<const std::size_t> marks,
                                   const std::vector<UnionStates>& states, std::span<const double> weights) {
  std::vector<UnionDay> days;
  for (std::size_t k = 0; k + 1 < marks.size(); ++k) {
    const DaySpan span{run.season().clock.day_of(run.season().hour(marks[k])), marks[k], marks[k + 1]};
    days.push_back(run.day(run.as_it_is(), span, states[k], states[k + 1], weights));
  }
  return days;
}

/// One graft's morning, step by step.
class MorningOfGraft {
 public:
  MorningOfGraft(const Season& season, const GraftRecord& record)
      : season_(season),
        row_(record.row),
        lines_(record.lines),
        run_(season, graft_case(record.row, record.lines, season.site, season.clock, season.models,
                                season.settings.as_of)),
        end_(season.horizon()) {}

  /// Work on the stock and the shoot; after `described`.
  std::vector<CareTask> care() {
    if (alive_ < urgency().likely_lost_p) return {};  // That is looked at first.
    course_.weights = now_.weights;
    return care_tasks(run_, row_, lines_, now_, course_, coming_, end_);
  }

  /// The same as `since` says of it; before `described`, which then lives no second time.
  GraftSince since_grafting(const GraftRecord& record, LocalDay hours_to) {
    LivedUnion lived;
    GraftSince since = since_of_graft(season_, record, run_, {}, {}, hours_to, &lived);
    course_ = std::move(lived.past);
    now_ = std::move(lived.now);
    return since;
  }

  bool open() const { return run_.graft().open_count() > 0; }

  GraftMorning described() {
    describe_row();
    look_back();
    look_ahead();
    weigh_actions();
    decide_urgency();
    say_why();
    return std::move(m_);
  }

 private:
  const UrgencyLimits& urgency() const { return season_.models.urgency; }
  const ActionConstants& action_numbers() const { return season_.models.actions; }

  void describe_row() {
    static_cast<GraftCard&>(m_) = card_of(row_);
    m_.spot = run_.graft().settings.back().spot;
    m_.count = run_.graft().open_count();
    m_.assumed = run_.graft().assumed;
    m_.horizon_days = season_.settings.horizon_days;
    m_.age_days = std::max(
        0.0, std::chrono::duration<double>(season_.settings.as_of - run_.graft().grafted).count() / 86400.0);
  }

  void look_back() {
    if (course_.marks.empty()) {
      course_.marks = day_marks(season_, run_.begin(), season_.now());
      now_ = run_.to_now(course_.marks, course_.states);
    }
    for (const UnionDay& day : days_between(run_, course_.marks, course_.states, now_.weights)) {
      const DayFlags flags = day_flags(day, season_.models);
      m_.heat_days += has(flags, DayFlag::heat);
      m_.drying_days += has(flags, DayFlag::drying);
      m_.cold_days += has(flags, DayFlag::cold);
    }
    m_.healing = weighted_mean(now_.states.healing, now_.weights);
    m_.stage = stage_of(run_.stages(), m_.healing);
    m_.water_now = weighted_mean(now_.states.water, now_.weights);
    m_.degree_days =
        degree_days_between(season_, run_.begin(), season_.now(),
                            degree_day_rule(*run_.graft().species, season_.site.degree_days, {}));
    m_.contradicted = now_.contradicted;
    m_.alive = alive_ = now_.alive();
  }

  void look_ahead() {
    const auto marks = day_marks(season_, season_.now(), end_);
    std::vector<UnionStates> states;
    UnionStates last = now_.states;
    run_.run(run_.as_it_is(), season_.now(), end_, last, marks, states);
    coming_ = days_between(run_, marks, states, now_.weights);
    m_.water_low_7d = m_.water_now;
    m_.tissue_max_c_7d = m_.air_max_c_7d = -273;
    for (std::size_t k = 0; k < coming_.size(); ++k) {
      const UnionDay& day = coming_[k];
      m_.coming.push_back(
          {day.day, day_flags(day, season_.models), day.tissue_max_c, day.air_max_c, day.net_loss});
      m_.tissue_max_c_7d = std::max(m_.tissue_max_c_7d, day.tissue_max_c);
      m_.air_max_c_7d = std::max(m_.air_max_c_7d, day.air_max_c);
      m_.vpd_max_kpa_7d = std::max(m_.vpd_max_kpa_7d, day.vpd_max_kpa);
      m_.water_low_7d = std::min(m_.water_low_7d, weighted_mean(states[k + 1].water, now_.weights));
    }
    as_it_is_ = risk_at(run_, now_, last);
    m_.risk = as_it_is_.risk;
    m_.cause = main_cause(as_it_is_, urgency().watch_p);
    m_.risk_until_drinking = risk_until_drinking(last);
  }

  /// Loss by the time each member drinks; absent where fewer than half of them get there within the outlook.
  std::optional<double> risk_until_drinking(UnionStates states) const {
    if (m_.stage >= Stage::drinking) return 0.0;
    const auto marks = day_marks(season_, end_, season_.hours());
    std::vector<UnionStates> at;
    run_.run(run_.as_it_is(), end_, season_.hours(), states, marks, at);
    const UntilDrinking drinks = until_drinking(run_.limits(), at, run_.stages().drinking_from);
    double alive = 0, lived = 0, drinking = 0;
    for (std::size_t i = 0; i < now_.weights.size(); ++i) {
      const double share = now_.alive_weights[i] * now_.survival[i];
      alive += share;
      drinking += drinks.first[i] == at.size() ? 0 : share;
      lived += now_.alive_weights[i] * drinks.survival[i];
    }
    if (!(alive > 0) || drinking < 0.5 * alive) return std::nullopt;
    return std::clamp(1 - lived / alive, 0.0, 1.0);
  }

  void weigh_actions() {
    const double stake = row_.priority * m_.count * m_.alive;
    prospects_ = prospects_ahead(season_, now_, m_.stage, m_.coming);
    for (Action& action : possible_actions(run_, prospects_)) {
      const Treatment treated = run_.changed(season_.hour(season_.now()), action.after, action.waters);
      const RiskOfTreatment with = changes_nothing(treated) ? as_it_is_ : risk_of(run_, now_, treated, end_);
      ActOutcome outcome{action.act,   with.risk.p,    stake * (m_.risk.p - with.risk.p),
                         action.needs, action.minutes, action.forbidden,
                         action.notes};
      if (!outcome.excluded && cooks(with)) outcome.excluded = Exclusion::cooks;
      m_.acts.push_back(std::move(outcome));
      candidates_.push_back(std::move(action));
    }
    std::vector<std::size_t> order(m_.acts.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      const auto rank = [&](std::size_t i) {
        return std::pair(m_.acts[i].excluded.has_value(), m_.acts[i].p_after);
      };
      return rank(a) < rank(b);
    });
    std::vector<ActOutcome> outcomes;
    std::vector<Action> actions;
    for (const std::size_t i : order) {
      outcomes.push_back(std::move(m_.acts[i]));
      actions.push_back(std::move(candidates_[i]));
    }
    m_.acts = std::move(outcomes);
    candidates_ = std::move(actions);
  }

  /// Neither what surrounds it nor the stock's water is another in the hours that count.
  bool changes_nothing(const Treatment& treated) const {
    const Treatment& as_it_is = run_.as_it_is();
    const auto hours_ahead = [&](const Treatment& t) {
      return std::span(t.stock_stress).subspan(season_.now(), end_ - season_.now());
    };
    return treated.settings.back().is_like(as_it_is.settings.back()) &&
           std::ranges::equal(hours_ahead(treated), hours_ahead(as_it_is));
  }

  /// Heat would take more than the harm limit beyond what it takes now, and not as little as a fraction of
  /// what the action saves in all: a bag that loses one to heat for every ten it keeps from drying out is
  /// still worth having.
  bool cooks(const RiskOfTreatment& with) const {
    const double more_heat = with.heat_loss - as_it_is_.heat_loss;
    const double fewer_lost = as_it_is_.risk.p - with.risk.p;
    return more_heat > action_numbers().harm_limit && more_heat > action_numbers().harm_share * fewer_lost;
  }

  /// The cheapest action that gets most of what the best one does; none where nothing allowed helps enough to
  /// matter.
  std::optional<std::size_t> advised() const {
    if (m_.acts.empty() || m_.acts.front().excluded) return std::nullopt;
    // By chances, not by what is at stake: a graft of priority 0 is ranked last but advised as well.
    const auto gain = [&](const ActOutcome& action) { return m_.risk.p - action.p_after; };
    const double best = gain(m_.acts.front());
    if (best < urgency().watch_p) return std::nullopt;
    std::optional<std::size_t> choice;
    for (std::size_t i = 0; i < m_.acts.size(); ++i) {
      const ActOutcome& action = m_.acts[i];
      if (action.excluded || gain(action) < action_numbers().worth_share * best) continue;
      if (!choice || action.minutes < m_.acts[*choice].minutes) choice = i;
    }
    return choice;
  }

  void decide_urgency() {
    if (m_.alive < urgency().likely_lost_p) {
      advise_look();
      return;
    }
    advise_stake();
    if (m_.risk.p < urgency().watch_p) return;
    m_.urgency = Urgency::watch;
    const auto choice = advised();
    if (!choice) return;
    const Action& action = candidates_[*choice];
    m_.advice = {action.act, action.temporary, {}};
    if (action.temporary) m_.advice.undo_from = undo_from(action, m_.acts[*choice].p_after);
    const std::size_t by = latest_useful_hour(run_, now_, action, m_.risk.p, m_.acts[*choice].p_after, end_,
                                              action_numbers().worth_share);
    m_.act_by = season_.hour(by);
    if (m_.risk.p < urgency().soon_p) return;
    const bool today = static_cast<double>(by - season_.now()) <= urgency().now_h;
    m_.urgency = m_.risk.p >= urgency().now_p && today ? Urgency::now : Urgency::soon;
  }

  /// No cover is spent on what most likely is dead; whoever finds it green notes that, and it counts again.
  void advise_look() {
    m_.urgency = Urgency::watch;
    m_.advice = {{ActKind::look}, false, {}};
  }

  /// Wind is no part of the risk, yet a graft that it can break is worth a look; worse perils displace it.
  void advise_stake() {
    const auto stake = std::ranges::find_if(
        candidates_, [](const Action& action) { return action.act.kind == ActKind::stake; });
    if (stake == candidates_.end()) return;
    m_.urgency = Urgency::watch;
    m_.advice = {stake->act, false, {}};
  }

  std::optional<Instant> undo_from(const Action& action, double risk_after) const {
    const auto hour =
        earliest_undo_hour(run_, now_, action, m_.risk.p, risk_after, end_, action_numbers().undo_share);
    if (!hour) return std::nullopt;
    return season_.hour(*hour);
  }

  void say_why() {
    if (m_.advice.act.kind == ActKind::look) {
      m_.reasons.emplace_back(LikelyLost{m_.alive});
      return;
    }
    const double bud_clock = weighted_mean(now_.states.bud_clock, now_.weights);
    m_.reasons = reasons({run_, now_, coming_, m_.cause, m_.water_now, m_.water_low_7d, bud_clock});
    if (m_.advice.act.is_none() && m_.risk.p >= urgency().soon_p) m_.reasons.emplace_back(NothingHelps{});
  }

  const Season& season_;
  const GraftRow& row_;
  const std::vector<DiaryLine>& lines_;
  GraftRun run_;
  std::size_t end_;
  UnionCourse course_;
  UnionNow now_;
  std::vector<UnionDay> coming_;
  RiskOfTreatment as_it_is_;
  Prospects prospects_;
  std::vector<Action> candidates_;
  GraftMorning m_;
  double alive_ = 1;
};

double at_stake(const GraftMorning& graft) {
  return graft.acts.empty() ? 0 : graft.acts.front().saved;
}

/// What at_stake may be off by.
double error_at_stake(const GraftMorning& graft) {
  return graft.priority * graft.count * graft.alive * graft.risk.error;
}

/// The list is in order; a graft shares the rank of the first of those before it from which it cannot be
/// told.
void number_ranks(std::vector<GraftMorning>& grafts) {
  for (std::size_t i = 0, first = 0; i < grafts.size(); ++i) {
    const GraftMorning& leader = grafts[first];
    const double error = std::max(error_at_stake(leader), error_at_stake(grafts[i]));
    if (grafts[i].urgency != leader.urgency || at_stake(leader) - at_stake(grafts[i]) > error) first = i;
    grafts[i].rank = static_cast<int>(first) + 1;
  }
}

/// `first` is called with each open graft before it is described.
template <typename First>
std::vector<MorningOfRow> rows_of(const Season& season, const std::vector<GraftRecord>& grafts, int threads,
                                  const First& first) {
  std::vector<MorningOfRow> rows(grafts.size());
  const std::vector<std::size_t> order = grafts_by_exposure(grafts);
  for_each_parallel(grafts.size(), threads, [&](std::size_t k) {
    const std::size_t i = order[k];
    MorningOfGraft one(season, grafts[i]);
    if (one.open()) {
      first(i, one);
      rows[i].open = one.described();
      rows[i].care = one.care();
    } else {
      rows[i].care = care_of_taken(season, grafts[i]);
    }
  });
  return rows;
}

}  // namespace

std::vector<MorningOfRow> mornings_of(const Season& season, const std::vector<GraftRecord>& grafts,
                                      int threads) {
  return rows_of(season, grafts, threads, [](std::size_t, MorningOfGraft&) {});
}

MorningReport list_of(const Season& season, std::vector<MorningOfRow> rows) {
  MorningReport report;
  std::vector<CareTask> tasks;
  for (MorningOfRow& row : rows) {
    if (row.open) report.grafts.push_back(std::move(*row.open));
    std::ranges::move(row.care, std::back_inserter(tasks));
  }
  report.also_due = due_tasks(tasks, season.clock.day_of(season.settings.as_of));
  std::stable_sort(report.grafts.begin(), report.grafts.end(),
                   [](const GraftMorning& a, const GraftMorning& b) {
                     return std::tuple(a.urgency, -at_stake(a), -a.risk.p) <
                            std::tuple(b.urgency, -at_stake(b), -b.risk.p);
                   });
  number_ranks(report.grafts);
  report.notices = season_notices(season);
  return report;
}

const ActOutcome* GraftMorning::advised() const {
  const auto found = std::ranges::find_if(
      acts, [&](const ActOutcome& outcome) { return act_name(outcome.act) == act_name(advice.act); });
  return found == acts.end() ? nullptr : &*found;
}

MorningReport morning(const Season& season, const std::vector<GraftRecord>& grafts, int threads) {
  return list_of(season, mornings_of(season, grafts, threads));
}

MorningAndSince morning_and_since(const Season& season, const std::vector<GraftRecord>& grafts,
                                  LocalDay hours_to, int threads) {
  std::vector<std::optional<GraftSince>> dates(grafts.size());
  MorningAndSince both;
  both.morning = list_of(season, rows_of(season, grafts, threads, [&](std::size_t i, MorningOfGraft& graft) {
                           dates[i] = graft.since_grafting(grafts[i], hours_to);
                         }));
  for (auto& graft : dates) {
    if (graft) both.since.grafts.push_back(std::move(*graft));
  }
  both.since.notices = season_notices(season);
  return both;
}

}  // namespace graftcast
