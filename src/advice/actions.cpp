#include "advice/actions.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "plant/cover_parts.hpp"

namespace graftcast {

namespace {

/// Adds up the actions of one graft as it stands now.
class ActionList {
 public:
  ActionList(const GraftRun& run, const Prospects& prospects)
      : run_(run),
        prospects_(prospects),
        season_(run.season()),
        site_(season_.site),
        models_(season_.models),
        now_(run.graft().settings.back()) {}

  std::vector<Action> listed() {
    shade();
    covers();
    own_cover_actions();
    bag_and_shade();
    seal_tip();
    openings();
    water();
    moves();
    frost_cover();
    whitewash();
    stake();
    return std::move(actions_);
  }

 private:
  using Over = CoverParts::Over;

  bool bagged() const { return is_bag(now_.cover, models_); }
  /// What is on, with something done to it; a clear bag where nothing keeps vapour in.
  std::string bag_with(CoverParts::Over over) const {
    return cover_name({bagged() ? parts_of_cover(now_.cover, models_).bag : "clear-bag", over});
  }
  bool bleeding() const {
    const auto& seen = run_.graft().bleeding_seen;
    const double days = models_.when.bleeding_note_days;
    if (seen && season_.settings.as_of - *seen <= std::chrono::duration<double, std::ratio<86400>>(days))
      return true;
    return run_.graft().species->bleeds && prospects_.stage < Stage::drinking;
  }
  bool bare_deciduous() const {
    return run_.graft().species->growth == LeafHabit::deciduous && prospects_.bud_clock < 1;
  }
  bool leafy() const { return run_.graft().scion_state->leaves || prospects_.bud_clock >= 1; }
  double sun_at(const Setting& setting) const {
    const auto spot = site_.spots.find(setting.spot);
    return (spot == site_.spots.end() ? 1.0 : spot->second.sun_share) * (1 - setting.shade);
  }
  double minutes(const std::string& site_key, double usual) const {
    const auto own = site_.minutes.find(site_key);
    return own != site_.minutes.end() ? own->second : usual;
  }

  Action& add(ActKind kind, const Setting& after) {
    Action& action = actions_.emplace_back();
    action.act.kind = kind;
    action.act.is_bagged = bagged();
    action.after = after;
    return action;
  }

  Action& temporary(ActKind kind, const Setting& after) {
    Action& action = add(kind, after);
    action.temporary = true;
    return action;
  }

  /// Supplies that a cover takes beyond what is on already.
  std::map<std::string, int> supplies_for(const std::string& cover_name) const {
    std::map<std::string, int> needs = cover_needs(cover_name, models_);
    for (const auto& [part, count] : cover_needs(now_.cover, models_)) needs.erase(part);
    return needs;
  }

  void shade() {
    const double share = site_.shade_cloth_share;
    if (now_.shade >= share || site_.spots.empty()) return;
    Setting after = now_;
    after.shade = share;
    Action& action = temporary(ActKind::shade, after);
    action.act.shade_share = share;
    action.notes = {shade_note(share)};
    action.needs = {{"shade-cloth", 1}};
    action.minutes = minutes("shade-cloth", models_.actions.minutes_shade_cloth);
  }

  void covers() {
    if (!bagged() && now_.cover != "paper-bag") {
      Action& bag = cover_action(ActKind::clear_bag, "clear-bag", now_.shade);
      bag.minutes = minutes("clear-bag", models_.actions.minutes_clear_bag);
      if (sun_at(now_) > models_.actions.sunny_share) bag.forbidden = Exclusion::bag_in_the_sun;
    }
    if (now_.cover != bag_with(Over::paper)) {
      Action& paper = cover_action(ActKind::paper_over_bag, bag_with(Over::paper), now_.shade);
      paper.minutes = (bagged() ? 0 : minutes("clear-bag", models_.actions.minutes_clear_bag)) +
                      minutes("paper", models_.actions.minutes_paper);
    }
    if (now_.cover != bag_with(Over::foil) && site_.supplies.contains("foil")) {
      Action& foil = cover_action(ActKind::foil_over_bag, bag_with(Over::foil), now_.shade);
      foil.minutes = (bagged() ? 0 : minutes("clear-bag", models_.actions.minutes_clear_bag)) +
                     minutes("foil", models_.actions.minutes_foil);
    }
  }

  /// What the owner has of his own goes over a bare graft.
  void own_cover_actions() {
    if (now_.cover != cover_name({})) return;
    for (const std::string& name : own_covers(models_)) {
      Action& cover = cover_action(ActKind::own_cover, name, now_.shade);
      cover.act.to = name;
      cover.notes = {{Event::bag_on, name}};
      cover.minutes = minutes("clear-bag", models_.actions.minutes_clear_bag);
    }
  }

  Action& cover_action(ActKind kind, const std::string& cover, double shade_share) {
    Setting after = now_;
    after.cover = cover;
    after.shade = shade_share;
    Action& action = temporary(kind, after);
    action.notes = cover_notes(parts_of_cover(cover, models_).over);
    action.needs = supplies_for(cover);
    if (!bagged() && is_bag(cover, models_) && bare_deciduous() && prospects_.mild_and_damp)
      action.forbidden = Exclusion::moulds;
    return action;
  }

  static EventNote shade_note(double share) { return {Event::shade, fmt::format("{}", share)}; }

  /// A bag, and what is put over it.
  std::vector<EventNote> cover_notes(Over over) const {
    std::vector<EventNote> notes;
    if (!bagged()) notes.push_back({Event::bag_on, {}});
    if (over == Over::paper) notes.push_back({Event::paper_on, {}});
    if (over == Over::foil) notes.push_back({Event::foil_on, {}});
    return notes;
  }

  void bag_and_shade() {
    if (now_.cover == "none") combined(ActKind::bag_and_shade, Over::nothing);
    if (now_.cover == "none") combined(ActKind::paper_bag_and_shade, Over::paper);
    if (bagged() && now_.cover != bag_with(Over::paper)) combined(ActKind::paper_and_shade, Over::paper);
  }

  /// A cover together with the shade cloth; nothing where it is shaded as much already.
  void combined(ActKind kind, Over over) {
    const double share = std::max(site_.shade_cloth_share, now_.shade);
    if (now_.shade >= share) return;
    Action& action = cover_action(kind, bag_with(over), share);
    action.notes.push_back(shade_note(share));
    action.needs["shade-cloth"] = 1;
    action.minutes = (bagged() ? 0 : minutes("clear-bag", models_.actions.minutes_clear_bag)) +
                     (over == Over::paper ? minutes("paper", models_.actions.minutes_paper) : 0) +
                     minutes("shade-cloth", models_.actions.minutes_shade_cloth);
  }

  void seal_tip() {
    if (!now_.tip_open) return;
    Setting after = now_;
    after.tip_open = false;
    Action& action = add(ActKind::seal_tip, after);
    action.notes = {{Event::tip_sealed, {}}};
    action.minutes = minutes("seal-tip", models_.actions.minutes_paper);
  }

  void openings() {
    const bool leafy_in_heat = leafy() && prospects_.hot && prospects_.stage < Stage::drinking;
    if (bagged() && cover_optics(now_.cover, models_).vapour_kept >= 1) {
      Setting after = now_;
      after.cover = bag_with(Over::vent);
      Action& vent = add(ActKind::vent_bag, after);
      vent.notes = {{Event::bag_vented, {}}};
      vent.minutes = minutes("vent", models_.actions.minutes_vent);
      if (leafy_in_heat) vent.forbidden = Exclusion::dries_leaves;
    }
    if (now_.cover != "none") {
      Setting after = now_;
      after.cover = "none";
      Action& open = add(ActKind::open_bag, after);
      open.notes = {{now_.cover == "paper-bag" ? Event::paper_off : Event::bag_off, {}}};
      open.minutes = minutes("vent", models_.actions.minutes_vent);
      if (leafy_in_heat) open.forbidden = Exclusion::dries_leaves;
    }
  }

  void water() {
    Action& action = add(ActKind::water, now_);
    action.waters = true;
    action.notes = {{Event::watered, {}}};
    action.minutes = minutes("water", models_.actions.minutes_water);
    if (bleeding()) action.forbidden = Exclusion::bleeds;
    if (run_.waterlogged()) action.forbidden = Exclusion::waterlogged;
  }

  void moves() {
    const auto here = site_.spots.find(now_.spot);
    if (here == site_.spots.end() || !here->second.movable || !run_.graft().pot_litres) return;
    for (const auto& [name, spot] : site_.spots) {
      const bool gentler = spot.climate || spot.sun_share < here->second.sun_share ||
                           spot.wind_share < here->second.wind_share;
      if (name == now_.spot || !spot.movable || !gentler) continue;
      Setting after = now_;
      after.spot = name;
      Action& action = temporary(ActKind::move, after);
      action.act.to = name;
      action.notes = {{Event::moved, name}};
      action.minutes = minutes("move", models_.actions.minutes_move);
    }
  }

  void frost_cover() {
    if (!prospects_.cold || now_.night_gain_k > 0) return;
    Setting after = now_;
    after.night_gain_k = models_.actions.frost_cover_gain_k;
    Action& action = temporary(ActKind::frost_cover, after);
    action.notes = {{Event::frost_cover_on, {}}};
    action.needs = {{"frost-cover", 1}};
    action.minutes = minutes("frost-cover", models_.actions.minutes_frost_cover);
  }

  void whitewash() {
    if (run_.graft().organ != Organ::bud || now_.absorptance) return;
    Setting after = now_;
    after.absorptance = models_.climate.whitewash_absorptance;
    Action& action = add(ActKind::whitewash, after);
    action.notes = {{Event::whitewashed, {}}};
    action.minutes = minutes("whitewash", models_.actions.minutes_whitewash);
  }

  /// What wind breaks is no part of the risk, which is of water, heat, cold and stores: it changes no number.
  void stake() {
    if (!prospects_.windy || run_.graft().staked) return;
    Action& action = add(ActKind::stake, now_);
    action.notes = {{Event::staked, {}}};
    action.minutes = minutes("stake", models_.actions.minutes_stake);
  }

  const GraftRun& run_;
  const Prospects& prospects_;
  const Season& season_;
  const Site& site_;
  const Models& models_;
  const Setting& now_;
  std::vector<Action> actions_;
};

}  // namespace

std::vector<Action> possible_actions(const GraftRun& run, const Prospects& prospects) {
  return ActionList(run, prospects).listed();
}

RiskOfTreatment risk_of(const GraftRun& run, const UnionNow& now, const Treatment& treatment,
                        std::size_t end) {
  UnionStates states = now.states;
  std::vector<UnionStates> none;
  run.run(treatment, run.season().now(), end, states, {}, none);
  return risk_at(run, now, states);
}

RiskOfTreatment risk_at(const GraftRun& run, const UnionNow& now, const UnionStates& states) {
  RiskOfTreatment result;
  const std::vector<double> later = survival(run.limits(), states);
  result.risk = risk_between(now.alive_weights, now.survival, later);
  double alive = 0;
  SurvivalParts lost{0, 0, 0, 0};
  for (std::size_t i = 0; i < later.size(); ++i) {
    const SurvivalParts then = survival_parts(run.limits(), now.states, i);
    const SurvivalParts after = survival_parts(run.limits(), states, i);
    const double share = now.alive_weights[i] * now.survival[i];
    const auto loss = [&](double before, double behind) {
      return before > 0 ? share * (1 - behind / before) : share;
    };
    alive += share;
    lost.water += loss(then.water, after.water);
    lost.heat += loss(then.heat, after.heat);
    lost.cold += loss(then.cold, after.cold);
    lost.stores += loss(then.stores, after.stores);
  }
  if (alive > 0)
    result.lost = {lost.water / alive, lost.heat / alive, lost.cold / alive, lost.stores / alive};
  result.heat_loss = result.lost.heat;
  return result;
}

}  // namespace graftcast
