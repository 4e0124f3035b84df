// Notes as evidence, against the enumeration of every way in which a batch can have lived.

#include "note_evidence.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace graftcast {
namespace {

NoteOfBatch note(int from, int to, NoteChance chance, double survival) {
  return {from, to, {chance}, {survival}};
}

/// Of a batch of `count`: chance of all notes, and expected number alive among the open ones with the notes.
struct Enumerated {
  double notes = 0, alive_too = 0;
};

/// Every graft dies before one of the notes or lives on: all combinations, each with its probability.
Enumerated enumerate(const std::vector<NoteOfBatch>& notes, int count, int taken, int lost) {
  const int fates = static_cast<int>(notes.size()) + 1;
  const auto fate_share = [&](int fate) {
    const double before = fate == 0 ? 1 : notes[static_cast<std::size_t>(fate) - 1].survival[0];
    const double after = fate == fates - 1 ? 0 : notes[static_cast<std::size_t>(fate)].survival[0];
    return before - after;
  };
  Enumerated sum;
  const int combinations = static_cast<int>(std::pow(fates, count));
  for (int combination = 0; combination < combinations; ++combination) {
    double p = 1;
    int alive = 0;
    for (int graft = 0, rest = combination; graft < count; ++graft, rest /= fates) {
      const int fate = rest % fates;
      p *= fate_share(fate);
      for (int k = 0; k < fates - 1; ++k) {
        const NoteOfBatch& n = notes[static_cast<std::size_t>(k)];
        const bool speaks = graft >= n.from && graft < n.to;
        if (speaks) p *= k < fate ? n.chance[0].if_alive : n.chance[0].if_dead;
      }
      alive += fate == fates - 1 && graft >= taken && graft < count - lost ? 1 : 0;
    }
    sum.notes += p;
    sum.alive_too += p * alive;
  }
  return sum;
}

TEST(NoteEvidence, IsWhatTheEnumerationOfAllFatesGives) {
  std::mt19937_64 random(5);
  const auto uniform = [&](double low, double high) {
    return std::uniform_real_distribution(low, high)(random);
  };
  for (int round = 0; round < 300; ++round) {
    const int count = 1 + round % 4;
    const int lost = round % 3 == 0 && count > 1 ? 1 : 0;
    const int taken = round % 5 == 0 && count - lost > 1 ? 1 : 0;
    std::vector<NoteOfBatch> notes;
    double survival = 1;
    for (int k = 0; k < 1 + round % 3; ++k) {
      survival *= uniform(0.3, 1);
      const int from = static_cast<int>(uniform(0, count));
      const int to = from + 1 + static_cast<int>(uniform(0, count - from));
      notes.push_back(note(from, to, {uniform(0.03, 0.97), uniform(0.03, 0.97)}, survival));
    }
    const NoteEvidence evidence = note_evidence(notes, 1, count, taken, lost);
    const Enumerated truth = enumerate(notes, count, taken, lost);
    EXPECT_NEAR(std::exp(evidence.log_likelihood[0]), truth.notes, 1e-12);
    const double alive = evidence.alive_factor[0] * survival * (count - taken - lost);
    EXPECT_NEAR(alive, truth.alive_too / truth.notes, 1e-12);
  }
}

TEST(NoteEvidence, WithoutNotesSaysNothing) {
  const NoteEvidence evidence = note_evidence({}, 3, 5, 0, 0);
  EXPECT_EQ(evidence.log_likelihood, std::vector<double>(3, 0.0));
  EXPECT_EQ(evidence.alive_factor, std::vector<double>(3, 1.0));
}

TEST(NoteEvidence, CountsABatchAsABinomial) {
  const auto chance_of = [](int dead) {
    const std::vector notes{note(0, 12 - dead, {1, 1e-12}, 0.7), note(12 - dead, 12, {1e-12, 1}, 0.7)};
    return std::exp(note_evidence(notes, 1, 12, 0, dead).log_likelihood[0]);
  };
  // Published: Binomial(12, 0.3) at 3 is 0.2397 (tables of the binomial distribution, e.g. CRC Standard
  // Mathematical Tables); one order of the dead among 220.
  EXPECT_NEAR(220 * chance_of(3), 0.2397, 5e-5);
}

TEST(NoteEvidence, DoesNotUnderflowForALargeBatch) {
  const std::vector notes{note(0, 5000, {0.9, 0.1}, 0.4)};
  const NoteEvidence evidence = note_evidence(notes, 1, 5000, 0, 0);
  EXPECT_NEAR(evidence.log_likelihood[0], 5000 * std::log(0.9 * 0.4 + 0.1 * 0.6), 1e-8);
}

}  // namespace
}  // namespace graftcast
