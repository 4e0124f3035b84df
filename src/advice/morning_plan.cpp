#include "advice/morning_plan.hpp"

#include <algorithm>
#include <numeric>
#include <set>

#include "advice/supply_plan.hpp"

namespace graftcast {

namespace {

// Small enough that no graft is given up for them, large enough to be seen by the solver.
constexpr double worth_of_a_minute = 1e-6;
constexpr double worth_of_a_supply = 1e-7;

int total(const std::map<std::string, int>& needs) {
  return std::accumulate(needs.begin(), needs.end(), 0,
                         [](int sum, const auto& need) { return sum + need.second; });
}

/// The problem in the solver's terms, and the way back.
class Planning {
 public:
  Planning(const MorningReport& report, const Site& site, const Models& models, std::optional<double> minutes)
      : site_(site), minutes_(minutes) {
    least_gain_ = models.urgency.watch_p / 10;
    for (const auto& [name, count] : site.supplies) {
      names_.push_back(name);
      problem_.in_store.push_back(count);
    }
    if (minutes) problem_.in_store.push_back(*minutes);
    for (const GraftMorning& graft : report.grafts) add(graft);
  }

  MorningPlan solved() {
    const Plan best = best_plan(problem_);
    MorningPlan plan;
    plan.supplies = plan.left = site_.supplies;
    plan.minutes_limit = minutes_;
    for (std::size_t row = 0; row < problem_.rows.size(); ++row) take_row(best.counts[row], row, plan);
    for (std::size_t k = 0; k < names_.size(); ++k) {
      ++problem_.in_store[k];
      plan.marginal[names_[k]] = std::max(0.0, best_plan(problem_).worth - best.worth);
      --problem_.in_store[k];
    }
    plan.not_counted.assign(not_counted_.begin(), not_counted_.end());
    return plan;
  }

 private:
  double gain(const GraftMorning& graft, const ActOutcome& action) const {
    return graft.risk.p - action.p_after;
  }

  bool is_option(const GraftMorning& graft, const ActOutcome& action) const {
    return !action.excluded && gain(graft, action) > least_gain_;
  }

  void add(const GraftMorning& graft) {
    if (graft.urgency == Urgency::leave || graft.advice.act.kind == ActKind::look) return;
    PlanRow row{graft.count, {}};
    std::vector<const ActOutcome*> actions;
    for (const ActOutcome& action : graft.acts) {
      if (!is_option(graft, action)) continue;
      actions.push_back(&action);
      row.options.push_back(option(graft, action));
    }
    if (actions.empty()) return;
    grafts_.push_back(&graft);
    actions_.push_back(std::move(actions));
    problem_.rows.push_back(std::move(row));
  }

  PlanOption option(const GraftMorning& graft, const ActOutcome& action) {
    PlanOption option;
    option.worth = action.saved / graft.count - worth_of_a_minute * action.minutes -
                   worth_of_a_supply * total(action.needs);
    for (const std::string& name : names_) {
      const auto need = action.needs.find(name);
      option.needs.push_back(need == action.needs.end() ? 0.0 : need->second);
    }
    if (minutes_) option.needs.push_back(action.minutes);
    for (const auto& [name, count] : action.needs)
      if (!site_.supplies.contains(name)) not_counted_.insert(name);
    return option;
  }

  void take_row(const std::vector<int>& counts, std::size_t row, MorningPlan& plan) const {
    const GraftMorning& graft = *grafts_[row];
    int served = 0;
    for (std::size_t k = 0; k < counts.size(); ++k) {
      if (counts[k] == 0) continue;
      served += counts[k];
      plan.assigned.push_back(assigned(graft, row, k, counts[k]));
      const PlannedAct& done = plan.assigned.back();
      for (const auto& [name, count] : done.needs)
        if (const auto left = plan.left.find(name); left != plan.left.end()) left->second -= count;
      plan.minutes += done.minutes;
      plan.saved += done.saved;
    }
    if (served < graft.count) plan.unserved.push_back(graft.id);
  }

  PlannedAct assigned(const GraftMorning& graft, std::size_t row, std::size_t option, int count) const {
    const ActOutcome& action = *actions_[row][option];
    PlannedAct done;
    done.id = graft.id;
    done.act = action.act;
    done.count = count;
    done.p_before = graft.risk.p;
    done.p_after = action.p_after;
    done.saved = action.saved / graft.count * count;
    for (const auto& [name, need] : action.needs) done.needs[name] = need * count;
    done.minutes = action.minutes * count;
    done.dearer = dearer(row, option);
    return done;
  }

  /// The best option of the row, where it would save more than the one chosen.
  std::optional<DearerAct> dearer(std::size_t row, std::size_t option) const {
    const ActOutcome& chosen = *actions_[row][option];
    const ActOutcome& best = *actions_[row].front();
    if (&chosen == &best || best.p_after >= chosen.p_after) return std::nullopt;
    DearerAct dearer{best.act, best.p_after, {}};
    for (const auto& [name, count] : best.needs) {
      const auto also = chosen.needs.find(name);
      if (also == chosen.needs.end() || also->second < count) dearer.supplies.push_back(name);
    }
    return dearer;
  }

  const Site& site_;
  std::optional<double> minutes_;
  double least_gain_ = 0;
  std::vector<std::string> names_;  // Of the counted supplies, in the solver's order.
  std::set<std::string> not_counted_;
  PlanProblem problem_;
  std::vector<const GraftMorning*> grafts_;
  std::vector<std::vector<const ActOutcome*>> actions_;  // Of each row, its options, best first.
};

}  // namespace

MorningPlan morning_plan(const MorningReport& report, const Site& site, const Models& models,
                         std::optional<double> minutes) {
  return Planning(report, site, models, minutes).solved();
}

}  // namespace graftcast
