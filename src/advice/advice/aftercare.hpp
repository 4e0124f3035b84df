#pragma once
// Work on the stock and the young shoot after grafting: what is due, and when.

#include <optional>
#include <span>
#include <vector>

#include "graftcast/care.hpp"
#include "plant/graft_case.hpp"

namespace graftcast {

/// One step of hardening a graft off to the open air.
struct HardeningStep {
  CareWork work = CareWork::open_corner;
  LocalDay day{};
  int put_off_days = 0;                ///< Days passed over for their heat or drying.
  std::optional<DayFlag> put_off_for;  ///< What the first of them was passed over for.
};

/// What the graft's run says of the days on which work becomes due.
struct CareDates {
  DateBand drinking, slit_wrap;
  DateBand stock_pushes;            ///< The buds of the stock begin to push.
  DateBand shoot_to_tie;            ///< A shoot that can be tied, and broken.
  DateBand shoots_to_thin;          ///< The strongest shoot can be told.
  std::optional<GustsAhead> gusts;  ///< The next that are too much for it.
};

struct CareInput {
  const GraftRow& row;
  const GraftCase& graft;
  std::span<const DiaryLine> lines;
  const CareDates& dates;
  std::span<const HardeningStep> hardening;
  const Clock& clock;
  const Models& models;
  double latitude_deg = 0;
  LocalDay today{};
};

/// All tasks of one graft, in the order in which they come. What a note says is done has no due date any
/// more; what was due long ago (`given_up_days` of models/union.json, section "aftercare") is left out.
/// Nothing for grafts that are all dead. Pure.
std::vector<CareTask> aftercare(const CareInput& input);

/// Tasks due on or before a day, the same one of several grafts put together.
std::vector<DueTask> due_tasks(std::span<const CareTask> tasks, LocalDay today);

}  // namespace graftcast
