#pragma once
// What is due, and when: acts by time, what is to be undone again, and the dates since grafting.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/morning.hpp"
#include "advice/since.hpp"

namespace graftcast {

enum class DueKind : std::uint8_t { act, undo, vent_bag, slit_wrap, buds_expected, check };
/// `act`, `undo`, `vent-bag`, `slit-wrap`, `buds-expected`, `check`
std::string_view due_kind_name(DueKind kind);

/// One thing that is due for one row of the ledger. A row has at most one of each kind.
struct DueWork {
  DueKind kind = DueKind::act;
  std::string id, scion, rootstock, species, method, spot;
  int count = 1;
  std::string text;  ///< What to do or to expect: "put paper over the bag".
  std::string why;   ///< May be empty.
  /// Of an act or its undoing: when the work is to begin and to end (UTC), and when to be told of it.
  std::optional<Instant> from, to, alarm;
  /// Of the others: the day, and the range it is the middle of.
  std::optional<LocalDay> day;
  DateBand band;
  bool past_due = false;             ///< The day has gone by and nothing is noted: `day` is today.
  std::optional<double> p, p_after;  ///< Of an act: risk as it is and with it.
};

/// Everything that is due from `as_of` on, by graft in the order of `report`, then of `dates`; of each graft
/// in the order of DueKind.
///
/// - An act ends at its latest useful hour and takes the minutes of its work, at least a quarter of an hour;
///   it is announced at the cool hour before, or at once where that has gone by.
/// - Vent the bag and slit the wrap are left out once the diary says so, buds once they move, and all of a
/// row
///   of which nothing lives.
/// - A check is due the day after nine in ten members' buds have moved, unless buds were seen to; today where
///   `since` or `morning` says to look.
std::vector<DueWork> due_work(const MorningReport& report, const SinceReport& dates,
                              const std::vector<GraftRecord>& records, const Clock& clock, Instant as_of);

}  // namespace graftcast
