#pragma once
// What notes about a batch say of each member, and of the life of the grafts they speak of.

#include <cstddef>
#include <span>
#include <vector>

#include "ensemble/survival.hpp"

namespace graftcast {

/// One note as evidence. The grafts of a batch stand in a row from the best to the worst; the note speaks of
/// the places [from, to). Vectors have one entry a member.
struct NoteOfBatch {
  int from = 0, to = 1;
  std::vector<NoteChance> chance;
  std::vector<double> survival;  ///< Chance to be alive at the time of the note, before it is counted.
};

struct NoteEvidence {
  std::vector<double> log_likelihood;  ///< Of all notes, every graft that was seen counted.
  /// Chance that an open graft is alive later, relative to the same without notes: a graft seen green lived
  /// until then, which is the same fact as its survival and must not count twice.
  std::vector<double> alive_factor;
};

/// Evidence of `notes` (in order of time) about a batch of `count`, of which the first `taken` and the last
/// `lost` are closed. Grafts of a batch share the member's numbers and have each their own limits, so that
/// counts are binomial. Empty notes: all zero and one.
NoteEvidence note_evidence(std::span<const NoteOfBatch> notes, std::size_t members, int count, int taken,
                           int lost);

}  // namespace graftcast
