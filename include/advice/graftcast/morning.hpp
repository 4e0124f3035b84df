#pragma once
// This morning's list: which fresh grafts are at risk, ranked, with what to do.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/act.hpp"
#include "graftcast/care.hpp"
#include "graftcast/cause.hpp"
#include "graftcast/event.hpp"
#include "graftcast/graft_card.hpp"
#include "graftcast/notice.hpp"
#include "graftcast/plan.hpp"
#include "graftcast/reason.hpp"
#include "graftcast/risk.hpp"
#include "graftcast/stage.hpp"

namespace graftcast {

enum class Urgency : std::uint8_t { now, soon, watch, leave };
/// The code in JSON: `now`, `soon`, `watch`, `leave`.
std::string_view urgency_name(Urgency urgency);

/// What one act would do.
struct ActOutcome {
  Act act;
  double p_after = 0;                 ///< Risk with it, 0..1.
  double saved = 0;                   ///< priority * open count * alive * (risk as it is - risk with it).
  std::map<std::string, int> needs;   ///< Supplies of one graft.
  double minutes = 0;                 ///< Work for one graft.
  std::optional<Exclusion> excluded;  ///< Why it must not be done.
  std::vector<EventNote> notes = {};  ///< What is noted once it is done.
};

/// A coming day of one graft; the first and last may be cut.
struct ComingDay {
  LocalDay day{};
  DayFlags flags;
  double tissue_max_c = 0, air_max_c = 0;
  double net_loss = 0;  ///< Share of the full water store that it takes; below 0: gained.
};

struct Advice {
  Act act;                           ///< None: nothing to do.
  bool temporary = false;            ///< To be undone again.
  std::optional<Instant> undo_from;  ///< When it may be; absent: not before the horizon.
};

struct GraftMorning : GraftCard {  // `count`: those still open.
  int rank = 1;  ///< From 1; those that differ by less than the Monte Carlo error share one.
  double age_days = 0;
  Stage stage = Stage::fresh;
  double healing = 0;                 ///< 1: bridged.
  std::optional<double> degree_days;  ///< Since grafting; absent where the log does not reach back.
  double water_now = 1;               ///< Share of the full store, mean of the members ...
  double water_low_7d = 1;            ///< ... at its lowest within the horizon.
  double tissue_max_c_7d = 0, air_max_c_7d = 0, vpd_max_kpa_7d = 0;  ///< Within the horizon.
  int heat_days = 0, drying_days = 0, cold_days = 0;                 ///< Since grafting.
  std::vector<ComingDay> coming;
  double alive = 1;  ///< Chance that an open graft still lives.
  Risk risk;         ///< Of those that live, within the horizon.
  int horizon_days = 7;
  std::optional<double> risk_until_drinking;  ///< Absent where drinking is further off than the run.
  std::optional<Cause> cause;                 ///< What takes most; absent where the risk is negligible.
  Urgency urgency = Urgency::leave;
  std::optional<Instant> act_by;
  std::vector<ActOutcome> acts;  ///< Best first; excluded ones last.
  Advice advice;
  std::vector<Reason> reasons;       ///< The main one first.
  std::vector<std::string> assumed;  ///< Columns of grafts.csv that were empty and matter.
  bool contradicted = false;         ///< The notes do not fit what the model holds possible.

  /// What was worked out for the act that is advised; null where that is none of `acts`.
  const ActOutcome* advised() const;
};

struct MorningReport {
  std::vector<GraftMorning> grafts;  ///< Ranked: by urgency, then by what is at stake.
  std::vector<DueTask> also_due;     ///< Work on stocks and shoots, of grafts that have taken too.
  MorningPlan plan;                  ///< Empty until it is asked for.
  std::vector<Notice> notices;
};

}  // namespace graftcast
