// One life of all members from grafting to now, from where a kept one ends.

#include <algorithm>
#include <limits>

#include "ensemble/graft_run.hpp"
#include "ensemble/kept_lives.hpp"
#include "life_key.hpp"

namespace graftcast {

namespace {

/// What is told of a day's beginning counts in single precision, whether or not it was kept.
void to_single_precision(UnionStates& states) {
  for (auto& pack : states)
    for (const auto field : course_fields) pack.*field = (pack.*field).cast<float>().cast<double>();
}

void add_course(const UnionStates& states, std::vector<float>& course) {
  for (const auto field : course_fields)
    for (const auto& pack : states)
      for (const double value : pack.*field) course.push_back(static_cast<float>(value));
}

/// The states at mark `index` of `life`, as far as they are told.
UnionStates states_at_mark(const KeptLife& life, std::size_t index) {
  const Pack untold = Pack::Constant(std::numeric_limits<double>::quiet_NaN());
  UnionStates states(life.states.size(),
                     {untold, untold, untold, untold, untold, untold, untold, untold, untold});
  const float* value = life.course.data() + index * states.size() * pack_size * course_fields.size();
  for (const auto field : course_fields)
    for (auto& pack : states)
      for (double& member : pack.*field) member = static_cast<double>(*value++);
  return states;
}

}  // namespace

std::vector<std::size_t> GraftRun::observation_hours() const {
  std::vector<std::size_t> hours;
  for (const Observation& seen : graft_.observations)
    hours.push_back(std::clamp(season_.index_of(seen.when), begin_, season_.now()));
  return hours;
}

LifeKey GraftRun::key_until(std::size_t end) const {
  const Drive drive{as_it_is_.stock_stress, season_.daylight, heat_factor_, graft_.cold_rows};
  return life_key(season_.constants, drive, stretches(as_it_is_, begin_, end).in_order, fresh());
}

std::vector<Hour> GraftRun::moments_until(std::size_t end, std::span<const std::size_t> hours) const {
  std::vector<Hour> moments;
  for (const std::size_t hour : hours)
    if (hour <= end) moments.push_back(season_.hour(hour));
  return moments;
}

std::shared_ptr<const KeptLife> GraftRun::kept_life(std::span<const std::size_t> marks) const {
  if (season_.settings.kept_lives == nullptr || own_quantiles_) return nullptr;
  auto kept = season_.settings.kept_lives->find(graft_.id);
  if (!kept || kept->begin != season_.hour(begin_) || kept->end > season_.hour(season_.now())) return nullptr;
  const std::size_t end = season_.index_of(kept->end);
  if (kept->marks != moments_until(end, marks) ||
      kept->observations != moments_until(end, observation_hours()) || kept->key != key_until(end))
    return nullptr;
  return kept;
}

void GraftRun::keep_life(const Life& life, std::span<const std::size_t> marks, std::size_t kept_until) const {
  if (season_.settings.kept_lives == nullptr || own_quantiles_) return;
  season_.settings.kept_lives->count_worked_out((season_.now() - kept_until) * life.states.size() *
                                                pack_size);
  // Now itself is a mark today and none tomorrow.
  const auto beyond = std::ranges::find_if(
      marks, [&](std::size_t mark) { return mark > season_.measured_until || mark >= season_.now(); });
  if (beyond == marks.begin() || *(beyond - 1) <= kept_until) return;
  const std::size_t end = *(beyond - 1);
  KeptLife kept;
  kept.key = key_until(end);
  kept.begin = season_.hour(begin_);
  kept.end = season_.hour(end);
  kept.states = life.at_marks[static_cast<std::size_t>(beyond - 1 - marks.begin())];
  kept.marks = moments_until(end, marks);
  for (std::size_t k = 0; k < kept.marks.size(); ++k) add_course(life.at_marks[k], kept.course);
  kept.observations = moments_until(end, observation_hours());
  const auto seen = observation_hours();
  for (std::size_t k = 0; k < seen.size(); ++k)
    if (seen[k] <= end) kept.at_observations.push_back(life.at_observations[k]);
  season_.settings.kept_lives->keep(graft_.id, std::move(kept));
}

GraftRun::Life GraftRun::live(std::span<const std::size_t> marks) const {
  const std::vector<std::size_t> seen = observation_hours();
  Life life{fresh(), std::vector<UnionStates>(marks.size()), std::vector<UnionStates>(seen.size())};
  std::size_t from = begin_;
  const std::shared_ptr<const KeptLife> kept = kept_life(marks);
  if (kept) {
    from = season_.index_of(kept->end);
    life.states = kept->states;
    for (std::size_t k = 0; k < kept->marks.size(); ++k) life.at_marks[k] = states_at_mark(*kept, k);
  }
  // Observations need the states at their own hours too: both kinds of marks go through one run.
  std::vector<std::pair<std::size_t, UnionStates*>> to_come;
  for (std::size_t k = kept ? kept->marks.size() : 0; k < marks.size(); ++k)
    to_come.emplace_back(marks[k], &life.at_marks[k]);
  for (std::size_t k = 0, known = 0; k < seen.size(); ++k) {
    if (kept && seen[k] <= from) {
      life.at_observations[k] = kept->at_observations[known++];
    } else {
      to_come.emplace_back(seen[k], &life.at_observations[k]);
    }
  }
  std::ranges::stable_sort(to_come, {}, &std::pair<std::size_t, UnionStates*>::first);
  std::vector<std::size_t> hours;
  for (const auto& [hour, states] : to_come) hours.push_back(hour);
  std::vector<UnionStates> at_hours;
  run(as_it_is_, from, season_.now(), life.states, hours, at_hours);
  for (std::size_t i = 0; i < to_come.size(); ++i) *to_come[i].second = std::move(at_hours[i]);
  keep_life(life, marks, from);
  for (UnionStates& states : life.at_marks) to_single_precision(states);
  return life;
}

}  // namespace graftcast
