#include "outcome_rows.hpp"

#include <algorithm>
#include <numeric>

#include "ensemble/graft_run.hpp"
#include "parallel.hpp"

namespace graftcast {

namespace {

constexpr double steps_of_prior = 2;  // the runs stand two standard deviations of both groups apart
constexpr std::size_t longest_life_h = 24 * 150;  // by then a union drinks or never will

struct Steps {
  double pace, drying;
};

Steps steps_of(const Models& models) {
  const LearningConstants& learning = models.learning;
  const double both = steps_of_prior * std::sqrt(2.0);
  return {both * learning.pace_sd, both * learning.drying_sd};
}

/// Mean survival of one graft's members until they drink, and until the batch was looked at.
struct TwoChances {
  double until_it_drinks, until_looked;
};

TwoChances chances_of(const Season& season, GraftCase graft, std::optional<Instant> looked) {
  const GraftRun run(season, std::move(graft));
  const std::size_t end = std::min(season.now(), run.begin() + longest_life_h);
  std::vector<std::size_t> marks;
  for (std::size_t hour = run.begin(); hour < end; hour += 24) marks.push_back(hour);
  marks.push_back(end);
  const std::size_t look_hour = looked ? std::clamp(season.index_of(*looked), run.begin(), end) : run.begin();
  marks.push_back(look_hour);
  std::ranges::sort(marks);
  std::vector<UnionStates> at;
  UnionStates states = run.fresh();
  run.run(run.as_it_is(), run.begin(), end, states, marks, at);
  const auto look_mark = static_cast<std::size_t>(std::ranges::lower_bound(marks, look_hour) - marks.begin());
  const UntilDrinking until = until_drinking(run.limits(), at, run.stages().drinking_from);
  const std::vector<double> looked_at = survival(run.limits(), at[look_mark]);
  const auto mean = [](const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
  };
  return {mean(until.survival), mean(looked_at)};
}

OutcomeRow outcome_row(const Season& season, const GraftRecord& record, std::size_t species,
                       std::size_t method) {
  const GraftCase graft =
      graft_case(record.row, record.lines, season.site, season.clock, season.models, season.settings.as_of);
  std::optional<Instant> looked;
  for (const Observation& seen : graft.observations)
    if (about(seen.event).tells_life) looked = seen.when;
  const Steps steps = steps_of(season.models);
  std::array<std::array<double, 3>, 3> drinks{}, until_looked{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      GraftCase shifted = graft;
      shifted.shifts = {steps.pace * (static_cast<double>(i) - 1),
                        steps.drying * (static_cast<double>(j) - 1), 0};
      const TwoChances chances = chances_of(season, std::move(shifted), looked);
      drinks[i][j] = chances.until_it_drinks;
      until_looked[i][j] = chances.until_looked;
    }
  }
  return {species,
          method,
          graft.taken,
          graft.lost,
          looked ? graft.open_count() : 0,
          graft.method->take_share,
          ChanceSurface(drinks, steps.pace, steps.drying),
          ChanceSurface(until_looked, steps.pace, steps.drying)};
}

std::vector<std::string> sorted_names(const std::vector<const GraftRecord*>& records,
                                      std::string GraftRow::*name) {
  std::vector<std::string> names;
  for (const GraftRecord* record : records) names.push_back(record->row.*name);
  std::ranges::sort(names);
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

std::size_t place_of(const std::vector<std::string>& names, const std::string& name) {
  return static_cast<std::size_t>(std::ranges::lower_bound(names, name) - names.begin());
}

}  // namespace

OutcomeTable outcome_table(const Season& season, const std::vector<GraftRecord>& grafts, int threads) {
  OutcomeTable table;
  for (const GraftRecord& graft : grafts) {
    const Outcome outcome = outcome_of(graft.row, graft.lines, season.settings.as_of);
    if (outcome.taken + outcome.dead > 0) table.records.push_back(&graft);
  }
  table.species = sorted_names(table.records, &GraftRow::species);
  table.methods = sorted_names(table.records, &GraftRow::method);
  std::vector<std::optional<OutcomeRow>> rows(table.records.size());
  for_each_parallel(rows.size(), threads, [&](std::size_t i) {
    const GraftRow& row = table.records[i]->row;
    rows[i] = outcome_row(season, *table.records[i], place_of(table.species, row.species),
                          place_of(table.methods, row.method));
  });
  for (auto& row : rows) table.rows.push_back(std::move(*row));
  return table;
}

}  // namespace graftcast
