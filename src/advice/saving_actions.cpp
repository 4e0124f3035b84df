#include "saving_actions.hpp"

#include <algorithm>
#include <array>

#include "advice/actions.hpp"

namespace graftcast {

namespace {

constexpr std::array saving_hours_local{7, 19};  // before the sun bites and after it has gone

/// An action as it was thought out: what it makes of the setting `before`.
struct Candidate {
  SavingAction told;
  Action action;
  Setting before;
};

/// `setting` with what the action changed kept up.
Setting kept_up(Setting setting, const Candidate& candidate) {
  const Setting& before = candidate.before;
  const Setting& after = candidate.action.after;
  if (after.cover != before.cover) setting.cover = after.cover;
  if (after.shade != before.shade) setting.shade = std::max(setting.shade, after.shade);
  if (after.spot != before.spot) setting.spot = after.spot;
  if (after.wrap != before.wrap) setting.wrap = after.wrap;
  if (after.tip_open != before.tip_open) setting.tip_open = after.tip_open;
  if (after.edges_open != before.edges_open) setting.edges_open = after.edges_open;
  if (after.absorptance) setting.absorptance = after.absorptance;
  setting.night_gain_k = std::max(setting.night_gain_k, after.night_gain_k);
  return setting;
}

/// What the loss is made of under one treatment.
struct LossUnder {
  double loss = 0, heat_loss = 0;
};

class ActionsInHindsight {
 public:
  ActionsInHindsight(const Counterfactuals& runs, const GraftRecord& record, const std::vector<WhyDay>& days)
      : runs_(runs), record_(record), days_(days), season_(runs.run().season()) {
    as_it_was_ = under(runs.run().as_it_is());
  }

  /// What may be done, each at the best of its moments.
  const std::vector<Candidate>& tried() {
    std::vector<Instant> moments{season_.hour(runs_.begin())};
    for (const Setting& setting : runs_.run().graft().settings) {
      if (setting.from > moments.back() && season_.index_of(setting.from) < runs_.end())
        moments.push_back(setting.from);
    }
    for (const Instant moment : moments) try_at(moment);
    try_wrap();
    return tried_;
  }

  /// The latest moment at which it gets `worth_share` of what it gets at its best.
  Instant latest(const Candidate& candidate) const {
    const SavingAction& told = candidate.told;
    const double worth = models().actions.worth_share * (as_it_was_.loss - told.p_after);
    std::vector<Instant> moments;
    for (const Instant moment : cool_moments())
      if (moment > told.from) moments.push_back(moment);
    // The benefit falls as the action waits, so the last moment that keeps enough of it is found by halving.
    const auto late = std::ranges::partition_point(moments, [&](Instant moment) {
      return as_it_was_.loss - under(treatment(candidate, moment)).loss >= worth;
    });
    return late == moments.begin() ? told.from : *(late - 1);
  }

 private:
  const Models& models() const { return season_.models; }

  LossUnder under(const Treatment& treatment) const {
    std::vector<UnionStates> none;
    const UnionStates states = runs_.under(treatment, {}, none);
    const auto members = static_cast<double>(states.members());
    LossUnder result{mean_loss(runs_.run().limits(), states), 0};
    for (std::size_t i = 0; i < states.members(); ++i)
      result.heat_loss += (1 - survival_parts(runs_.run().limits(), states, i).heat) / members;
    return result;
  }

  /// From `when` on, what the action changes is kept up whatever else is done later.
  Treatment treatment(const Candidate& candidate, Instant when) const {
    const GraftCase& graft = runs_.run().graft();
    std::vector<Setting> settings;
    for (const Setting& setting : graft.settings)
      if (setting.from <= when) settings.push_back(setting);
    settings.push_back(kept_up(graft.setting_at(when), candidate));
    settings.back().from = when;
    for (const Setting& setting : graft.settings)
      if (setting.from > when) settings.push_back(kept_up(setting, candidate));
    const std::vector<Instant> waterings(candidate.action.waters ? 1 : 0, when);
    return runs_.run().treated(std::move(settings), waterings);
  }

  Prospects prospects(Instant when) const {
    const LocalDay today = season_.clock.day_of(when);
    Prospects p;
    for (const WhyDay& day : days_) {
      if (day.day < today) {
        p.stage = stage_of(runs_.run().stages(), day.healing);
        p.bud_clock = day.bud_clock;
        continue;
      }
      p.hot = p.hot || has(day.flags, DayFlag::heat);
      p.cold = p.cold || has(day.flags, DayFlag::cold);
    }
    p.mild_and_damp = mild_and_damp(when);
    return p;
  }

  /// Weather of the week after `when` in which bagged bare wood moulds.
  bool mild_and_damp(Instant when) const {
    const MouldDay& mould = season_.models.mould_day;
    const std::size_t from = season_.index_of(when);
    const std::size_t to = std::min(runs_.end(), from + std::size_t{24} * 7);
    if (from >= to) return false;
    double warm_hours = 0, humidity = 0;
    for (std::size_t hour = from; hour < to; ++hour) {
      const double air_c = season_.outlook.weather[Variable::air_temperature].value[hour];
      warm_hours += air_c >= mould.low_c && air_c <= mould.high_c ? 1 : 0;
      humidity += season_.outlook.weather[Variable::relative_humidity].value[hour];
    }
    const auto hours = static_cast<double>(to - from);
    return warm_hours / hours * 24 >= mould.hours && humidity / hours / 100 >= mould.damp_air_share;
  }

  void try_at(Instant moment) {
    const GraftRun then(
        season_, graft_case(record_.row, record_.lines, season_.site, season_.clock, season_.models, moment));
    for (const Action& action : possible_actions(then, prospects(moment)))
      if (!action.forbidden) consider(action, moment);
  }

  /// As the method usually is, where it was not.
  void try_wrap() {
    const Setting& before = runs_.run().graft().settings.front();
    Action wrap;
    wrap.act.kind = ActKind::wrap;
    wrap.after = with_usual_protection(runs_.run().graft(), before, season_.models);
    wrap.after.cover = before.cover;
    if (wrap.after.wrap == before.wrap && wrap.after.edges_open == before.edges_open) return;
    wrap.act.to = wrap.after.wrap;
    wrap.minutes = models().why.minutes_wrap;
    consider(wrap, season_.hour(runs_.begin()));
  }

  bool harms(const LossUnder& with) const {
    const double more_heat = with.heat_loss - as_it_was_.heat_loss;
    return more_heat > models().actions.harm_limit &&
           more_heat > models().actions.harm_share * (as_it_was_.loss - with.loss);
  }

  void consider(const Action& action, Instant when) {
    Candidate candidate;
    candidate.action = action;
    candidate.before = runs_.run().graft().setting_at(when);
    const LossUnder with = under(treatment(candidate, when));
    if (harms(with)) return;
    candidate.told = {action.act, when, when, with.loss, action.minutes, action.needs};
    const auto known = std::ranges::find(tried_, act_name(action.act),
                                         [](const Candidate& c) { return act_name(c.action.act); });
    if (known == tried_.end()) {
      tried_.push_back(std::move(candidate));
    } else if (with.loss < known->told.p_after) {
      *known = std::move(candidate);
    }
  }

  std::vector<Instant> cool_moments() const {
    std::vector<Instant> moments;
    for (std::size_t i = runs_.begin(); i < runs_.end(); ++i) {
      const Instant when = season_.hour(i);
      const auto local = when.time_since_epoch() + season_.clock.offset_at(when);
      const auto hour = (std::chrono::floor<std::chrono::hours>(local).count() % 24 + 24) % 24;
      if (std::ranges::find(saving_hours_local, hour) != saving_hours_local.end()) moments.push_back(when);
    }
    return moments;
  }

  const Counterfactuals& runs_;
  const GraftRecord& record_;
  const std::vector<WhyDay>& days_;
  const Season& season_;
  LossUnder as_it_was_;
  std::vector<Candidate> tried_;
};

}  // namespace

std::vector<SavingAction> tried_actions(const Counterfactuals& runs, const GraftRecord& record,
                                        const std::vector<WhyDay>& days) {
  ActionsInHindsight hindsight(runs, record, days);
  std::vector<SavingAction> actions;
  for (const Candidate& candidate : hindsight.tried()) actions.push_back(candidate.told);
  return actions;
}

std::vector<SavingAction> saving_actions(const Counterfactuals& runs, const GraftRecord& record,
                                         const std::vector<WhyDay>& days, double loss) {
  ActionsInHindsight hindsight(runs, record, days);
  std::vector<Candidate> candidates = hindsight.tried();
  double best = 0;
  for (const Candidate& candidate : candidates) best = std::max(best, loss - candidate.told.p_after);
  const Models& models = runs.run().season().models;
  const double least = std::max(models.actions.worth_share * best, models.why.saved_share * loss);
  std::vector<SavingAction> saving;
  for (Candidate& candidate : candidates) {
    const double saved = loss - candidate.told.p_after;
    if (saved < least || !(saved > 0)) continue;
    candidate.told.by = hindsight.latest(candidate);
    saving.push_back(candidate.told);
  }
  std::ranges::stable_sort(saving, {}, [](const SavingAction& a) { return std::pair(a.minutes, a.p_after); });
  return saving;
}

}  // namespace graftcast
