// A season's losses, by cause, and the changes of practice that would have saved most of them.

#include <algorithm>
#include <functional>

#include "advice/when.hpp"
#include "advice/why.hpp"
#include "graftcast/season_weeks.hpp"
#include "parallel.hpp"
#include "saving_actions.hpp"
#include "why_days.hpp"

namespace graftcast {

namespace {

/// What each practice would have left of the loss of each graft; a practice that it could not have, or that
/// did it harm, saves nothing.
struct PracticeTable {
  std::vector<SavingAction> practices;     ///< One a name.
  std::vector<std::vector<double>> saved;  ///< Lost grafts saved, practice by practice, graft by graft.

  double by(std::size_t practice) const {
    double sum = 0;
    for (const double one : saved[practice]) sum += one;
    return sum;
  }
  /// Each graft takes the better of the two.
  double by(std::size_t one, std::size_t other) const {
    double sum = 0;
    for (std::size_t i = 0; i < saved[one].size(); ++i) sum += std::max(saved[one][i], saved[other][i]);
    return sum;
  }
};

void add_practices(PracticeTable& table, const std::vector<SavingAction>& tried, std::size_t graft,
                   std::size_t grafts, const GraftWhy& why) {
  for (const SavingAction& action : tried) {
    auto known = std::ranges::find(table.practices, act_name(action.act),
                                   [](const SavingAction& practice) { return act_name(practice.act); });
    if (known == table.practices.end()) {
      known = table.practices.insert(known, action);
      table.saved.emplace_back(grafts, 0.0);
    }
    const auto practice = static_cast<std::size_t>(known - table.practices.begin());
    table.saved[practice][graft] = std::max(0.0, why.lost * (why.loss - action.p_after));
  }
}

/// One practice, or two of which the second adds something.
struct PracticePair {
  std::vector<std::size_t> practices;
  double saved = 0, minutes = 0;
};

std::vector<PracticePair> pairs_of(const PracticeTable& table) {
  constexpr double nothing = 0.05;  // of one graft
  std::vector<PracticePair> pairs;
  for (std::size_t a = 0; a < table.practices.size(); ++a) {
    const double minutes = table.practices[a].minutes;
    if (table.by(a) >= nothing) pairs.push_back({{a}, table.by(a), minutes});
    for (std::size_t b = a + 1; b < table.practices.size(); ++b) {
      const double saved = table.by(a, b);
      if (saved - std::max(table.by(a), table.by(b)) >= nothing)
        pairs.push_back({{a, b}, saved, minutes + table.practices[b].minutes});
    }
  }
  return pairs;
}

/// The pair that together saves most; of those within a twentieth of it, the one with the least work. A
/// single practice only where no second adds anything. The greater saver first.
std::vector<std::size_t> best_pair(const PracticeTable& table) {
  constexpr double as_good = 0.95;
  std::vector<PracticePair> pairs = pairs_of(table);
  if (pairs.empty()) return {};
  const auto is_pair = [](const PracticePair& pair) { return pair.practices.size() == 2; };
  if (std::ranges::any_of(pairs, is_pair)) std::erase_if(pairs, std::not_fn(is_pair));
  const double most = std::ranges::max(pairs, {}, &PracticePair::saved).saved;
  std::erase_if(pairs, [&](const PracticePair& pair) { return pair.saved < as_good * most; });
  std::vector<std::size_t> best = std::ranges::min(pairs, {}, &PracticePair::minutes).practices;
  std::ranges::stable_sort(best, std::greater{}, [&](std::size_t practice) { return table.by(practice); });
  return best;
}

std::vector<PracticeChange> changes_of(const PracticeTable& table, const std::vector<GraftWhy>& grafts) {
  constexpr double counts = 0.2;  // of one graft: for the list of rows it helps
  std::vector<PracticeChange> changes;
  const std::vector<std::size_t> best = best_pair(table);
  for (const std::size_t practice : best) {
    PracticeChange change{table.practices[practice].act, table.by(practice), table.by(practice), {}};
    if (!changes.empty()) change.adds = table.by(best[0], best[1]) - table.by(best[0]);
    for (std::size_t i = 0; i < grafts.size(); ++i)
      if (table.saved[practice][i] >= counts * grafts[i].lost) change.ids.push_back(grafts[i].id);
    changes.push_back(std::move(change));
  }
  return changes;
}

/// The one that a graft is told of by: not the weather where that explains nothing.
Culprit told_culprit(const GraftWhy& graft) {
  return graft.explained ? graft.shares.front().culprit : not_weather;
}

LossGroup& group_of(std::vector<LossGroup>& groups, Culprit culprit) {
  const auto known = std::ranges::find(groups, culprit, &LossGroup::culprit);
  if (known != groups.end()) return *known;
  groups.push_back({culprit, 0, 0, {}});
  return groups.back();
}

std::vector<LossGroup> grouped(const std::vector<GraftWhy>& grafts) {
  std::vector<LossGroup> groups;
  for (const GraftWhy& graft : grafts) {
    LossGroup& group = group_of(groups, told_culprit(graft));
    group.grafts += graft.lost;
    group.ids.push_back(graft.id);
    for (const CulpritShare& share : graft.shares)
      group_of(groups, share.culprit).expected += graft.lost * share.chance;
  }
  std::ranges::stable_sort(groups, std::greater{},
                           [](const LossGroup& g) { return std::pair(g.grafts, g.expected); });
  return groups;
}

}  // namespace

std::vector<GraftRecord> lost_this_season(const Site& site, const Clock& clock, Instant as_of,
                                          const std::vector<GraftRecord>& grafts) {
  const LocalDay midwinter = midwinter_before(clock.day_of(as_of), site.location.latitude_deg);
  std::vector<GraftRecord> lost;
  for (const GraftRecord& graft : grafts) {
    if (graft.row.grafted_on >= midwinter && outcome_of(graft.row, graft.lines, as_of).dead > 0)
      lost.push_back(graft);
  }
  return lost;
}

WhyLosses why_losses(const Season& season, const std::vector<GraftRecord>& grafts, int threads) {
  const Instant as_of = season.settings.as_of;
  const std::vector<GraftRecord> lost = lost_this_season(season.site, season.clock, as_of, grafts);
  WhyLosses report;
  report.season =
      season_name(midwinter_before(season.clock.day_of(as_of), season.site.location.latitude_deg));
  report.grafts.resize(lost.size());
  std::vector<std::vector<SavingAction>> tried(lost.size());
  const HarmlessClimates climates(season);
  for_each_parallel(lost.size(), threads, [&](std::size_t i) {
    GraftWhy& graft = report.grafts[i] = why(season, climates, lost[i], {}, 1);
    const GraftRun run(
        season, graft_case(lost[i].row, lost[i].lines, season.site, season.clock, season.models, as_of));
    const Counterfactuals runs(run, climates, season.index_of(graft.until));
    tried[i] = tried_actions(runs, lost[i], graft.days);
  });
  PracticeTable table;
  for (std::size_t i = 0; i < lost.size(); ++i) {
    report.lost += report.grafts[i].lost;
    add_practices(table, tried[i], i, lost.size(), report.grafts[i]);
  }
  report.groups = grouped(report.grafts);
  report.changes = changes_of(table, report.grafts);
  return report;
}

}  // namespace graftcast
