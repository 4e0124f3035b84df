#pragma once
// What is due, and when: acts by time, what is to be undone again, and the dates since grafting.

#include <cstdint>
#include <optional>
#include <string_view>

#include "graftcast/act.hpp"
#include "graftcast/date_band.hpp"
#include "graftcast/graft_card.hpp"
#include "graftcast/reason.hpp"
#include "graftcast/since.hpp"

namespace graftcast {

enum class DueKind : std::uint8_t { act, undo, vent_bag, slit_wrap, buds_expected, check };
/// The code in JSON: `act`, `undo`, `vent-bag`, `slit-wrap`, `buds-expected`, `check`.
std::string_view due_kind_name(DueKind kind);

/// One thing that is due for one row of the ledger. A row has at most one of each kind.
struct DueWork : GraftCard {
  DueKind kind = DueKind::act;
  Act act;                       ///< Of an act or its undoing; `look` where a morning asks for a check.
  std::optional<Reason> reason;  ///< Of an act.
  std::optional<VerdictGround> ground;  ///< Of a check that `since` asks for.
  /// Of an act or its undoing: when the work is to begin and to end (UTC), and when to be told of it.
  std::optional<Instant> from, to, alarm;
  /// Of the others: the day, and the range it is the middle of.
  std::optional<LocalDay> day;
  DateBand band;
  bool past_due = false;             ///< The day has gone by and nothing is noted: `day` is today.
  std::optional<double> p, p_after;  ///< Of an act: risk as it is and with it, 0..1.
};

}  // namespace graftcast
