#pragma once
// Work on the stock and the young shoot after grafting.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/date_band.hpp"
#include "graftcast/day_flag.hpp"
#include "graftcast/reason.hpp"

namespace graftcast {

enum class CareWork : std::uint8_t {
  rub_suckers,
  open_corner,  ///< The steps of hardening off ...
  open_half,
  take_bag_off,
  cover_again,
  shade_off,  ///< ... up to here.
  slit_wrap,
  remove_wrap,
  head_back,
  lop,  ///< Of an evergreen bud: the stock is cut three quarters through.
  stake,
  thin,
};

/// The code in JSON: `rub-suckers`, `open-corner`, `open-half`, `take-bag-off`, `cover-again`, `shade-off`,
/// `slit-wrap`, `remove-wrap`, `head-back` (`lop` too), `stake`, `thin`.
std::string_view care_name(CareWork work);

struct CareTask {
  std::string id = {};  ///< Of the graft.
  CareWork work = CareWork::rub_suckers;
  DateBand due = {};                  ///< All three alike where it is a single day.
  std::optional<LocalDay> done = {};  ///< When a note says so (last, where it is to be repeated).
  bool at_bud = false;                ///< Below or at a bud and not a union, where that makes a difference.
  bool wakes_bud = false;             ///< Of head_back: a late bud that has slept through the winter.
  int every_days = 0;                 ///< Of rub_suckers: to be repeated.
  int put_off_days = 0;               ///< Of a step: days passed over ...
  std::optional<DayFlag> put_off_for = {};  ///< ... the first for this.
  std::optional<GustsAhead> gusts = {};     ///< Of stake: what hurries it.

  bool is_open() const { return due.median.has_value() || due.p10.has_value(); }
  bool is_due(LocalDay today) const { return due.median && *due.median <= today; }
};

/// Work that is due, the same of several grafts put together.
struct DueTask {
  CareTask first;                ///< In the order of the ledger.
  std::vector<std::string> ids;  ///< Of all grafts.
  LocalDay due{};                ///< The earliest.
};

}  // namespace graftcast
