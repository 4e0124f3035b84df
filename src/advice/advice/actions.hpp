#pragma once
// What can be done for a graft, what forbids it, and what it would change.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ensemble/graft_run.hpp"
#include "graftcast/act.hpp"

namespace graftcast {

/// Something that could be done to one graft now.
struct Action {
  Act act;
  Setting after;                       ///< The setting it leads to.
  std::vector<EventNote> notes;        ///< What is noted once it is done; they lead to the same setting.
  bool waters = false;                 ///< Waters the stock to capacity.
  bool temporary = false;              ///< To be undone again: a cover, a shade, a place for the hot days.
  std::map<std::string, int> needs;    ///< Supplies for one graft.
  double minutes = 0;                  ///< Work for one graft.
  std::optional<Exclusion> forbidden;  ///< Why it must not be done.
};

/// What the coming days hold for the graft, as far as it allows or forbids actions.
struct Prospects {
  bool mild_and_damp = false;  ///< Weather in which bagged bare wood moulds.
  bool hot = false;            ///< A heat day is coming.
  bool cold = false;           ///< A cold day is coming.
  bool windy = false;          ///< A wind day is coming.
  Stage stage = Stage::fresh;
  double bud_clock = 0;
};

/// Every action that makes sense for the graft as it stands, in table order, with what forbids it.
std::vector<Action> possible_actions(const GraftRun& run, const Prospects& prospects);

/// Risk of the graft over the horizon, and the part of it that heat alone would take.
struct RiskOfTreatment {
  Risk risk;
  double heat_loss = 0;
  SurvivalParts lost{};  ///< Mean over members of the loss by each way alone.
};

/// Compares survival in `states` with that of this moment.
RiskOfTreatment risk_at(const GraftRun& run, const UnionNow& now, const UnionStates& states);

/// Runs `treatment` from `now` to hour `end` and compares survival with that of this moment.
RiskOfTreatment risk_of(const GraftRun& run, const UnionNow& now, const Treatment& treatment,
                        std::size_t end);

/// Latest hour of the series at which `action` still gets `share` of the benefit it has now, taken from the
/// cool hours (early morning and evening, local time) of the days ahead; the present hour if no later one
/// does.
std::size_t latest_useful_hour(const GraftRun& run, const UnionNow& now, const Action& action,
                               double risk_as_it_is, double risk_after, std::size_t end, double share);

/// Earliest cool hour of the series from which `action`, done now and undone then, keeps `share` of its
/// benefit over the horizon `end`; nothing where it is needed to the end.
std::optional<std::size_t> earliest_undo_hour(const GraftRun& run, const UnionNow& now, const Action& action,
                                              double risk_as_it_is, double risk_after, std::size_t end,
                                              double share);

}  // namespace graftcast
