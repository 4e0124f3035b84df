// One life of all members from grafting to now, weighed by what was noted.

#include <algorithm>
#include <cmath>
#include <numeric>

#include "ensemble/distributions.hpp"
#include "ensemble/graft_run.hpp"
#include "note_evidence.hpp"
#include "note_tempering.hpp"

namespace graftcast {

namespace {

constexpr double contradiction = 1e-3;  // mean likelihood of the notes below which they fit no member
constexpr double redrawing_shrinkage = 0.98;

/// What is told of a day's beginning, in single precision.
void to_single_precision(UnionStates& states) {
  for (auto* values : {&states.healing, &states.water, &states.bud_clock, &states.leaf_share})
    *values = values->cast<float>().cast<double>();
}

/// Which grafts of a batch, in a row from the best to the worst, the notes of some of them speak of.
class PlacesInBatch {
 public:
  explicit PlacesInBatch(int count) : end_(count) {}

  struct Places {
    int from, to;                ///< Of those the note speaks of.
    int others_from, others_to;  ///< Of those not yet taken or dead that it does not speak of.
  };
  Places of(const Observation& note) {
    // More were seen than are left where some were split off since.
    const int spoken_of = std::clamp(note.count, 0, end_ - begin_);
    Places places{begin_, begin_ + spoken_of, begin_ + spoken_of, end_};
    if (is_sign_of_failing(note.event)) places = {end_ - spoken_of, end_, begin_, end_ - spoken_of};
    // The next that take or die are others.
    if (note.event == Event::taken) begin_ = places.to;
    if (note.event == Event::dead) end_ = places.from;
    return places;
  }

 private:
  int begin_ = 0, end_;
};

/// Mean over members of the likelihood of what was noted of one graft of the batch.
double mean_likelihood_of_one(const NoteEvidence& notes, int batch) {
  double sum = 0;
  for (const double l : notes.log_likelihood) sum += std::exp(l / batch);
  return sum / static_cast<double>(notes.log_likelihood.size());
}

/// Where the model says dead and the owner saw it green, the owner's eyes count.
void believe_that_it_lives(UnionNow& now) {
  constexpr double least = 1e-300;
  now.contradicted = true;
  for (std::size_t i = 0; i < now.weights.size(); ++i)
    now.alive_weights[i] = now.weights[i] / std::max(now.survival[i], least);
}

}  // namespace

double UnionNow::alive() const {
  const double sum = std::inner_product(alive_weights.begin(), alive_weights.end(), survival.begin(), 0.0);
  return std::clamp(sum, 0.0, 1.0);
}

std::vector<std::size_t> GraftRun::observation_hours() const {
  std::vector<std::size_t> hours;
  for (const Observation& seen : graft_.observations)
    hours.push_back(std::clamp(season_.index_of(seen.when), begin_, season_.now()));
  return hours;
}

GraftRun::Life GraftRun::live(std::span<const std::size_t> marks) const {
  // Observations need the states at their own hours too: both kinds of marks go through one run.
  const std::vector<std::size_t> seen = observation_hours();
  Life life{fresh(), std::vector<UnionStates>(marks.size()), std::vector<UnionStates>(seen.size())};
  std::vector<std::pair<std::size_t, UnionStates*>> wanted;
  for (std::size_t k = 0; k < marks.size(); ++k) wanted.emplace_back(marks[k], &life.at_marks[k]);
  for (std::size_t k = 0; k < seen.size(); ++k) wanted.emplace_back(seen[k], &life.at_observations[k]);
  std::ranges::stable_sort(wanted, {}, &std::pair<std::size_t, UnionStates*>::first);
  std::vector<std::size_t> hours;
  for (const auto& [hour, states] : wanted) hours.push_back(hour);
  std::vector<UnionStates> at_hours;
  run(as_it_is_, begin_, season_.now(), life.states, hours, at_hours);
  for (std::size_t i = 0; i < wanted.size(); ++i) *wanted[i].second = std::move(at_hours[i]);
  for (UnionStates& states : life.at_marks) to_single_precision(states);
  return life;
}

UnionNow GraftRun::to_now(std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks) {
  Life life = live(marks);
  NoteEvidence notes = evidence(life);
  UnionNow now;
  now.contradicted = mean_likelihood_of_one(notes, graft_.count) < contradiction;
  NoteTempering tempering(notes.log_likelihood.size());
  while (!now.contradicted && !tempering.count_notes(notes.log_likelihood)) {
    const std::vector<std::size_t> ancestors =
        tempering.ancestors(season_.settings.seed, name_key(graft_.id));
    draw_anew(ancestors, tempering.weights(), tempering.rounds());
    life = live(marks);
    NoteEvidence drawn = evidence(life);
    tempering.redrawn(ancestors, notes.log_likelihood, drawn.log_likelihood);
    notes = std::move(drawn);
  }
  now.weights = tempering.weights();
  now.alive_weights = now.weights;
  for (std::size_t i = 0; i < now.weights.size() && !now.contradicted; ++i)
    now.alive_weights[i] *= notes.alive_factor[i];
  now.redrawn = tempering.rounds();
  now.survival = survival(limits_, life.states);
  if (last_seen_alive() && (now.contradicted || now.alive() < 0.5)) believe_that_it_lives(now);
  now.states = std::move(life.states);
  at_marks = std::move(life.at_marks);
  return now;
}

bool GraftRun::last_seen_alive() const {
  const auto of_life = std::find_if(graft_.observations.rbegin(), graft_.observations.rend(),
                                    [](const Observation& o) { return about(o.event).tells_life; });
  return of_life != graft_.observations.rend() && !is_sign_of_failing(of_life->event);
}

void GraftRun::draw_anew(std::span<const std::size_t> ancestors, std::span<const double> weights, int round) {
  const MemberQuantiles& before = own_quantiles_ ? *own_quantiles_ : season_.quantiles;
  own_quantiles_ = std::make_shared<const MemberQuantiles>(
      before.redrawn(ancestors, weights, redrawing_shrinkage, season_.settings.seed, name_key(graft_.id),
                     static_cast<std::uint64_t>(round)));
  members_.clear();
}

NoteEvidence GraftRun::evidence(const Life& life) const {
  const ObservationConstants& constants = season_.models.observation;
  const UnionMembers& member = members(graft_.settings.back());
  const std::size_t count = life.states.members();
  PlacesInBatch places(graft_.count);
  std::vector<NoteOfBatch> notes;
  for (std::size_t k = 0; k < life.at_observations.size(); ++k) {
    const Observation& seen = graft_.observations[k];
    const UnionStates& then = life.at_observations[k];
    const PlacesInBatch::Places its = places.of(seen);
    NoteOfBatch note{its.from, its.to, {}, survival(limits_, then)};
    NoteOfBatch others{its.others_from, its.others_to, {}, note.survival};
    const auto joined =
        joined_share<Eigen::ArrayXd>(season_.constants, member.vascular_healing, then.healing);
    for (std::size_t i = 0; i < count; ++i) {
      note.chance.push_back(
          note_chance(constants, seen.event, then, i, joined[static_cast<Eigen::Index>(i)]));
      others.chance.push_back({1 - note.chance.back().if_alive, 1 - note.chance.back().if_dead});
    }
    notes.push_back(std::move(note));
    if (about(seen.event).at_a_glance && others.from < others.to) notes.push_back(std::move(others));
  }
  return note_evidence(notes, count, graft_.count, std::clamp(graft_.taken, 0, graft_.count),
                       std::clamp(graft_.lost, 0, graft_.count - std::clamp(graft_.taken, 0, graft_.count)));
}

}  // namespace graftcast
