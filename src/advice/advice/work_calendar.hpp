#pragma once
// What is due, from a morning's list and the dates since grafting.

#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/due_work.hpp"
#include "graftcast/morning.hpp"

namespace graftcast {

/// Everything that is due from `as_of` on, by graft in the order of `report`, then of `dates`; of each graft
/// in the order of DueKind.
///
/// - An act ends at its latest useful hour and takes the minutes of its work, at least a quarter of an hour;
///   it is announced at the cool hour before, or at once where that has gone by.
/// - Vent the bag and slit the wrap are left out once the diary says so, buds once they move, and all of a
///   row of which nothing lives.
/// - A check is due the day after nine in ten members' buds have moved, unless buds were seen to; today where
///   `since` or `morning` says to look.
std::vector<DueWork> due_work(const MorningReport& report, const SinceReport& dates,
                              const std::vector<GraftRecord>& records, const Clock& clock, Instant as_of);

}  // namespace graftcast
