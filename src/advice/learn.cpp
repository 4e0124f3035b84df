#include "advice/learn.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "outcome_rows.hpp"
#include "parallel.hpp"

namespace graftcast {

namespace {

constexpr double negligible_gain = 1e-6;  // of a Brier score

ShiftPrior prior_of(const Models& models) {
  const LearningConstants& learning = models.learning;
  const Shifts sd{learning.pace_sd, learning.drying_sd, learning.failure_sd};
  return {sd, sd};
}

/// Adds up scores of chances for what became of single grafts.
class ScoreSum {
 public:
  void add(const OutcomeRow& row, double take) {
    const double p = std::clamp(take, 1e-6, 1 - 1e-6);
    brier_ += row.taken * (1 - p) * (1 - p) + row.lost * p * p;
    log_ -= row.taken * std::log(p) + row.lost * std::log(1 - p);
    count_ += row.taken + row.lost;
  }
  TakeScore score() const { return count_ > 0 ? TakeScore{brier_ / count_, log_ / count_} : TakeScore{}; }

 private:
  double brier_ = 0, log_ = 0, count_ = 0;
};

TakeScore score_of(const OutcomeTable& table, const std::vector<double>& takes) {
  ScoreSum sum;
  for (std::size_t i = 0; i < takes.size(); ++i) sum.add(table.rows[i], takes[i]);
  return sum.score();
}

/// Take rate of all other batches, with one outcome of each kind added so that it is never sure.
std::vector<double> rates_without(const OutcomeTable& table) {
  double taken = 1, all = 2;
  for (const OutcomeRow& row : table.rows) {
    taken += row.taken;
    all += row.taken + row.lost;
  }
  std::vector<double> rates;
  for (const OutcomeRow& row : table.rows)
    rates.push_back((taken - row.taken) / (all - row.taken - row.lost));
  return rates;
}

std::vector<double> takes_under(const OutcomeTable& table, const Eigen::VectorXd& shifts) {
  std::vector<double> takes;
  for (const OutcomeRow& row : table.rows) takes.push_back(take_chance(row, table.groups(), shifts));
  return takes;
}

/// Of every batch the chance that a fit to the others gives it.
std::vector<double> held_back_takes(const OutcomeTable& table, const ShiftPrior& prior,
                                    const Eigen::VectorXd& start, int threads) {
  std::vector<double> takes(table.rows.size());
  for_each_parallel(takes.size(), threads, [&](std::size_t i) {
    const NormalPosterior without = fit_shifts(table.rows, table.groups(), prior, start, i);
    takes[i] = take_chance(table.rows[i], table.groups(), without.mean);
  });
  return takes;
}

std::vector<ReliabilityBin> reliability_of(const OutcomeTable& table, const std::vector<double>& takes) {
  constexpr std::size_t bins = 10;
  std::vector<ReliabilityBin> result(bins);
  for (std::size_t b = 0; b < bins; ++b) {
    result[b].from = static_cast<double>(b) / bins;
    result[b].to = static_cast<double>(b + 1) / bins;
  }
  for (std::size_t i = 0; i < takes.size(); ++i) {
    ReliabilityBin& bin = result[std::min(bins - 1, static_cast<std::size_t>(takes[i] * bins))];
    const int count = table.rows[i].taken + table.rows[i].lost;
    bin.count += count;
    bin.forecast += count * takes[i];
    bin.observed += table.rows[i].taken;
  }
  std::erase_if(result, [](const ReliabilityBin& bin) { return bin.count == 0; });
  for (ReliabilityBin& bin : result) {
    bin.forecast /= bin.count;
    bin.observed /= bin.count;
  }
  return result;
}

LearnedShifts shifts_at(const NormalPosterior& fit, std::size_t group, int outcomes) {
  const auto at = static_cast<Eigen::Index>(3 * group);
  const auto sd = [&](Eigen::Index k) { return std::sqrt(fit.covariance(at + k, at + k)); };
  return {{fit.mean[at], fit.mean[at + 1], fit.mean[at + 2]}, {sd(0), sd(1), sd(2)}, outcomes};
}

Learned learned_of(const OutcomeTable& table, const NormalPosterior& fit, const Season& season) {
  Learned learned;
  learned.fitted_at = utc_text(season.settings.as_of);
  std::vector<int> species(table.species.size(), 0), methods(table.methods.size(), 0);
  for (const OutcomeRow& row : table.rows) {
    species[row.species] += row.taken + row.lost;
    methods[row.method] += row.taken + row.lost;
    learned.outcomes += row.taken + row.lost;
  }
  for (std::size_t s = 0; s < species.size(); ++s)
    learned.species[table.species[s]] = shifts_at(fit, s, species[s]);
  for (std::size_t m = 0; m < methods.size(); ++m)
    learned.methods[table.methods[m]] = shifts_at(fit, table.species.size() + m, methods[m]);
  return learned;
}

const std::string& group_of(const GraftRow& row, GroupBy by) {
  constexpr std::array members{&GraftRow::species, &GraftRow::method, &GraftRow::spot, &GraftRow::grafter};
  return row.*members.at(static_cast<std::size_t>(by));
}

RateVerdict verdict_of(const TakeGroup& group) {
  if (group.expected < group.interval.low) return RateVerdict::better;
  if (group.expected > group.interval.high) return RateVerdict::worse;
  return RateVerdict::as_the_weather_explains;
}

void add_groups(const OutcomeTable& table, const std::vector<double>& published, GroupBy by,
                std::vector<TakeGroup>& groups) {
  std::map<std::string, TakeGroup> named;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const OutcomeRow& row = table.rows[i];
    const std::string& name = group_of(table.records[i]->row, by);
    TakeGroup& group = named[name];
    const int closed = row.taken + row.lost;
    group.by = by;
    group.name = name;
    group.taken += row.taken;
    group.lost += row.lost;
    group.open += row.alive;
    group.expected += closed * published[i];
    group.through_weather += closed * row.weather.at(0, 0).chance;
  }
  for (auto& [name, group] : named) {
    const double closed = group.taken + group.lost;
    group.rate = group.taken / closed;
    group.interval = wilson_interval(group.taken, closed);
    group.expected /= closed;
    group.through_weather /= closed;
    group.verdict = verdict_of(group);
    groups.push_back(group);
  }
}

/// Whether the shifts are used, and why.
LearnVerdict verdict_of(const LearnReport& report) {
  if (report.outcomes < report.least_outcomes) return LearnVerdict::too_few;
  const bool is_better = report.held_back.brier < report.uncalibrated.brier - negligible_gain;
  return is_better ? LearnVerdict::better : LearnVerdict::no_better;
}

}  // namespace

LearnReport learn(const Season& season, const std::vector<GraftRecord>& grafts,
                  const std::vector<GroupBy>& groups, int threads) {
  const OutcomeTable table = outcome_table(season, grafts, threads);
  LearnReport report;
  report.batches = static_cast<int>(table.rows.size());
  report.least_outcomes = static_cast<int>(season.models.learning.least_outcomes);
  for (const GraftRecord& graft : grafts) {
    const Outcome outcome = outcome_of(graft.row, graft.lines, season.settings.as_of);
    report.outcomes += outcome.taken + outcome.dead;
    report.open += outcome.open;
  }
  const Eigen::VectorXd none = Eigen::VectorXd::Zero(table.groups().size());
  const std::vector<double> published = takes_under(table, none);
  for (const GroupBy by : groups) add_groups(table, published, by, report.groups);
  if (!table.rows.empty()) {
    const ShiftPrior prior = prior_of(season.models);
    const NormalPosterior fit = fit_shifts(table.rows, table.groups(), prior, none);
    const std::vector<double> held_back = held_back_takes(table, prior, fit.mean, threads);
    report.uncalibrated = score_of(table, published);
    report.held_back = score_of(table, held_back);
    report.plain_rate = score_of(table, rates_without(table));
    report.reliability = reliability_of(table, held_back);
    report.learned = learned_of(table, fit, season);
  }
  report.verdict = verdict_of(report);
  return report;
}

TakeScore score_of_published(const Season& season, const std::vector<GraftRecord>& grafts, int threads) {
  const OutcomeTable table = outcome_table(season, grafts, threads);
  return score_of(table, takes_under(table, Eigen::VectorXd::Zero(table.groups().size())));
}

}  // namespace graftcast
