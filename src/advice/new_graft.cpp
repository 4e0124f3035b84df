#include "new_graft.hpp"

#include <algorithm>

namespace graftcast {

namespace {

constexpr int longest_days = 60;  // most drink by then; who does not counts as it stands

GraftCase case_of_new(const GraftRun& run, GraftRow row) {
  const Season& season = run.season();
  row.grafted_on = season.clock.day_of(season.settings.as_of) + std::chrono::days(1);
  row.grafted_at.reset();
  row.wood.reset();
  row.spot = run.graft().settings.back().spot;
  row.shade = run.graft().settings.front().shade;
  return graft_case(row, {}, season.site, season.clock, season.models,
                    season.clock.begin_of(row.grafted_on + std::chrono::days(1)));
}

}  // namespace

NewGraft new_graft(const GraftRun& run, const GraftRow& row) {
  const Season& season = run.season();
  const GraftRun anew(season, case_of_new(run, row), GraftRun::Start::when_made);
  std::vector<std::size_t> marks;
  for (const DaySpan& day : season.days)
    if (day.begin > anew.begin() && day.begin <= anew.begin() + 24 * longest_days) marks.push_back(day.begin);
  NewGraft made;
  if (marks.empty()) return made;
  std::vector<UnionStates> at;
  UnionStates states = anew.fresh();
  anew.run(anew.as_it_is(), anew.begin(), marks.back(), states, marks, at);
  const UntilDrinking until = until_drinking(anew.limits(), at, anew.stages().drinking_from);
  const std::size_t members = until.first.size();
  const std::vector<double> weights(members, 1.0 / static_cast<double>(members));
  const std::vector<double> firsts(until.first.begin(), until.first.end());
  for (const double survival : until.survival) made.take += survival / static_cast<double>(members);
  made.take *= anew.graft().take_share();
  const auto median = static_cast<std::size_t>(weighted_quantile(firsts, weights, 0.5));
  if (median < marks.size()) made.days = static_cast<double>(marks[median] - anew.begin()) / 24;
  return made;
}

}  // namespace graftcast
