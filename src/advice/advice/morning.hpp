#pragma once
// This morning's list: which fresh grafts are at risk, ranked, with what to do.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "advice/aftercare.hpp"
#include "advice/since.hpp"
#include "ensemble/season.hpp"
#include "ensemble/survival.hpp"
#include "plant/stage.hpp"

namespace graftcast {

enum class Urgency { now, soon, watch, leave };
std::string_view urgency_name(Urgency urgency);  ///< `now`, `soon`, `watch`, `leave`

/// What weather would most likely lose it to.
/// `drying`, `heat`, `cold`, `spent-stores`, or empty where the risk is negligible.
using Cause = std::string;

/// What one action would do.
struct ActionOutcome {
  std::string action;                ///< `shade`, `clear-bag`, `paper-over-bag`, `move:SPOT`, ...
  std::string text;                  ///< For people: "put paper over the bag".
  double p_after = 0;                ///< Risk with it.
  double saved = 0;                  ///< priority * open count * alive * (risk as it is - risk with it).
  std::map<std::string, int> needs;  ///< Supplies of one graft.
  double minutes = 0;                ///< Work for one graft.
  std::string excluded;              ///< Why it must not be done; empty where it may.
  std::vector<EventNote> notes;      ///< What is noted once it is done.
};

/// A coming day of one graft.
struct ComingDay {
  LocalDay day{};
  DayFlags flags;
  double tissue_max_c = 0, air_max_c = 0, net_loss = 0;
};

struct Advice {
  std::string action;  ///< Empty: nothing to do.
  std::string text;
  bool temporary = false;            ///< To be undone again.
  std::optional<Instant> undo_from;  ///< When it may be; absent: not before the horizon.
};

struct GraftMorning {
  std::string id, scion, rootstock, species, method, spot;
  int rank = 1;  ///< From 1; those that differ by less than the Monte Carlo error share one.
  int count = 1;
  double priority = 1;
  LocalDay grafted_on{};
  double age_days = 0;
  Stage stage = Stage::fresh;
  double healing = 0;
  std::optional<double> degree_days;  ///< Since grafting; absent where the log does not reach back.
  double water_now = 1, water_low_7d = 1;
  double tissue_max_c_7d = 0, air_max_c_7d = 0, vpd_max_kpa_7d = 0;
  int heat_days = 0, drying_days = 0, cold_days = 0;  ///< Since grafting.
  std::vector<ComingDay> coming;
  double alive = 1;  ///< Chance that an open graft still lives.
  Risk risk;         ///< Of those that live.
  int horizon_days = 7;
  std::optional<double> risk_until_drinking;  ///< Absent where drinking is further off than the run.
  Cause cause;
  Urgency urgency = Urgency::leave;
  std::optional<Instant> act_by;
  std::vector<ActionOutcome> actions;  ///< Best first; excluded ones last.
  Advice advice;
  std::vector<std::string> reasons;
  std::vector<std::string> assumed;  ///< Cells that were empty and matter.
  bool contradicted = false;         ///< The notes do not fit what the model holds possible.
};

/// One treatment for some or all grafts of a row.
struct PlannedAction {
  std::string id, action, text;
  int count = 1;
  double p_before = 0, p_after = 0;
  double saved = 0;                  ///< priority * count * alive * (risk as it is - risk with it).
  std::map<std::string, int> needs;  ///< Supplies in all.
  double minutes = 0;                ///< Work in all.
  std::string why;                   ///< Why this, and not the one that would save more by itself.
};

struct MorningPlan {
  std::map<std::string, int> supplies;  ///< At hand.
  std::map<std::string, int> left;      ///< Of them, once the plan is carried out.
  std::vector<std::string>
      not_counted;  ///< Supplies that actions need and site.json does not count: none is short.
  std::optional<double> minutes_limit;
  double minutes = 0;                      ///< Work in all.
  double saved = 0;                        ///< Priority-weighted grafts that the plan saves, expected.
  std::vector<PlannedAction> assigned;     ///< In the order of the list.
  std::vector<std::string> unserved;       ///< Ids that need something and get nothing, or not all of them.
  std::map<std::string, double> marginal;  ///< What one more of each supply would save.
};

struct MorningReport {
  std::vector<GraftMorning> grafts;  ///< Ranked: by urgency, then by what is at stake.
  std::vector<DueTask> also_due;     ///< Work on stocks and shoots, of grafts that have taken too.
  MorningPlan plan;                  ///< Of morning_plan; empty until it is asked for.
  std::vector<std::string> warnings;
  std::vector<std::string> cautions;
};

/// Runs every open graft of the site. Deterministic for equal input and seed on any number of threads.
MorningReport morning(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

/// What `morning` says, and what `since` says of the grafts that are open, in the order of the ledger, with
/// their hours up to the end of the local day `hours_to`: from one life of each.
struct MorningAndSince {
  MorningReport morning;
  SinceReport since;
};
MorningAndSince morning_and_since(const Season& season, const std::vector<GraftRecord>& grafts,
                                  LocalDay hours_to, int threads);

}  // namespace graftcast
