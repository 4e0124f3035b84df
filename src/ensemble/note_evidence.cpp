#include "note_evidence.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace graftcast {

namespace {

/// Chance of `notes` for one member's graft, and with it to be alive after the last of them.
struct LifeAndNotes {
  double notes, alive_too;
};

LifeAndNotes of_one_graft(std::span<const NoteOfBatch* const> notes, std::size_t member) {
  // It died before the k-th note and after the one before, or lives: the ways add up.
  double sum = 0;
  double alive_so_far = 1;
  double survival_before = 1;
  for (std::size_t k = 0; k < notes.size(); ++k) {
    const double survival_then = std::min(notes[k]->survival[member], survival_before);
    double dead_since = survival_before - survival_then;
    for (std::size_t later = k; later < notes.size(); ++later)
      dead_since *= notes[later]->chance[member].if_dead;
    sum += alive_so_far * dead_since;
    alive_so_far *= notes[k]->chance[member].if_alive;
    survival_before = survival_then;
  }
  return {sum + alive_so_far * survival_before, alive_so_far};
}

/// Bounds between which the same notes hold.
std::vector<int> bounds_of(std::span<const NoteOfBatch> notes, int count, int taken, int lost) {
  std::set<int> bounds{0, count, taken, count - lost};
  for (const NoteOfBatch& note : notes) bounds.insert({note.from, note.to});
  return {bounds.begin(), bounds.end()};
}

std::vector<const NoteOfBatch*> notes_at(std::span<const NoteOfBatch> notes, int place) {
  std::vector<const NoteOfBatch*> its;
  for (const NoteOfBatch& note : notes) {
    if (note.from <= place && place < note.to) its.push_back(&note);
  }
  return its;
}

}  // namespace

NoteEvidence note_evidence(std::span<const NoteOfBatch> notes, std::size_t members, int count, int taken,
                           int lost) {
  NoteEvidence evidence{std::vector<double>(members, 0.0), std::vector<double>(members, 1.0)};
  if (notes.empty() || count < 1) return evidence;
  std::vector<double> alive(members, 0.0);
  int open = 0;
  const std::vector<int> bounds = bounds_of(notes, count, taken, lost);
  for (std::size_t b = 0; b + 1 < bounds.size(); ++b) {
    const int size = bounds[b + 1] - bounds[b];
    const bool is_open = bounds[b] >= taken && bounds[b + 1] <= count - lost;
    const auto its = notes_at(notes, bounds[b]);
    open += is_open ? size : 0;
    for (std::size_t i = 0; i < members; ++i) {
      const LifeAndNotes life = of_one_graft(its, i);
      evidence.log_likelihood[i] += size * std::log(life.notes);
      if (is_open) alive[i] += size * life.alive_too / life.notes;
    }
  }
  if (open > 0) {
    for (std::size_t i = 0; i < members; ++i) evidence.alive_factor[i] = alive[i] / open;
  }
  return evidence;
}

}  // namespace graftcast
