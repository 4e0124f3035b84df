#pragma once
// Work on the stock and the young shoot after grafting: what is due, and when.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "advice/date_band.hpp"
#include "graftcast/day_flag.hpp"
#include "plant/graft_case.hpp"

namespace graftcast {

/// One step of hardening a graft off to the open air.
struct HardeningStep {
  std::string task;  ///< `open-corner`, `open-half`, `take-bag-off`, `cover-again`, `shade-off`.
  LocalDay day{};
  int postponed_days = 0;          ///< Days passed over for their heat or drying.
  std::optional<DayFlag> held_by;  ///< Heat or drying: what the first of them was passed over for.
};

/// What the graft's run says of the days on which work becomes due.
struct CareDates {
  DateBand drinking, slit_wrap;
  DateBand stock_pushes;              ///< The buds of the stock begin to push.
  DateBand shoot_to_tie;              ///< A shoot that can be tied, and broken.
  DateBand shoots_to_thin;            ///< The strongest shoot can be told.
  std::optional<LocalDay> windy_day;  ///< The next one whose gusts are too much for it.
  double gust_m_s = 0;                ///< ... and how strong they are.
};

struct CareTask {
  std::string id;    ///< Of the graft.
  std::string task;  ///< `rub-suckers`, `head-back`, `thin`, `stake`, `slit-wrap`, `remove-wrap`, or a step
                     ///< of hardening off.
  std::string text;  ///< For people.
  DateBand due;      ///< All three alike where it is a single day.
  std::string why;
  std::optional<LocalDay> done;  ///< When a note says it was done (last done, where it is to be repeated).
  bool is_open() const { return due.median.has_value() || due.p10.has_value(); }
  bool is_due(LocalDay today) const { return due.median && *due.median <= today; }
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
struct DueTask {
  std::string task, text, why;
  std::vector<std::string> ids;
  LocalDay due{};  ///< The earliest.
};
std::vector<DueTask> due_tasks(std::span<const CareTask> tasks, LocalDay today);

}  // namespace graftcast
