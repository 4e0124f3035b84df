// Codes of the enumerators of the answers, as JSON has them.

#include <array>

#include "graftcast/due_work.hpp"
#include "graftcast/learn.hpp"
#include "graftcast/morning.hpp"
#include "graftcast/since.hpp"
#include "graftcast/spots.hpp"
#include "graftcast/when.hpp"
#include "graftcast/why.hpp"

namespace graftcast {

namespace {

template <class Enum, std::size_t count>
std::string_view name_of(const std::array<std::string_view, count>& names, Enum value) {
  return names.at(static_cast<std::size_t>(value));
}

}  // namespace

std::string_view urgency_name(Urgency urgency) {
  constexpr std::array<std::string_view, 4> names{"now", "soon", "watch", "leave"};
  return name_of(names, urgency);
}

std::string_view cause_name(Cause cause) {
  constexpr std::array<std::string_view, 6> names{"drying",       "heat",        "cold",
                                                  "spent-stores", "slow-callus", "bark"};
  return name_of(names, cause);
}

std::string act_name(const Act& act) {
  constexpr std::array<std::string_view, 19> names{"",
                                                   "look",
                                                   "shade",
                                                   "clear-bag",
                                                   "paper-over-bag",
                                                   "foil-over-bag",
                                                   "",
                                                   "bag-and-shade",
                                                   "paper-bag-and-shade",
                                                   "paper-and-shade",
                                                   "seal-tip",
                                                   "vent-bag",
                                                   "open-bag",
                                                   "water",
                                                   "move:",
                                                   "frost-cover",
                                                   "whitewash",
                                                   "stake",
                                                   "wrap"};
  std::string name(name_of(names, act.kind));
  return act.kind == ActKind::move || act.kind == ActKind::own_cover ? name + act.to : name;
}

std::string_view care_name(CareWork work) {
  constexpr std::array<std::string_view, 12> names{"rub-suckers", "open-corner", "open-half", "take-bag-off",
                                                   "cover-again", "shade-off",   "slit-wrap", "remove-wrap",
                                                   "head-back",   "head-back",   "stake",     "thin"};
  return name_of(names, work);
}

std::string_view verdict_name(Verdict verdict) {
  constexpr std::array<std::string_view, 3> names{"wait", "check", "re-graft"};
  return name_of(names, verdict);
}

std::string_view attempt_outcome_name(AttemptOutcome outcome) {
  constexpr std::array<std::string_view, 5> names{"taken", "lost", "open", "removed", "part"};
  return name_of(names, outcome);
}

std::string_view due_kind_name(DueKind kind) {
  constexpr std::array<std::string_view, 6> names{"act",       "undo",          "vent-bag",
                                                  "slit-wrap", "buds-expected", "check"};
  return name_of(names, kind);
}

std::string_view when_verdict_name(WhenVerdict verdict) {
  constexpr std::array<std::string_view, 3> names{"graft", "graft with cover", "wait"};
  return name_of(names, verdict);
}

std::string_view culprit_name(Culprit culprit) {
  return culprit ? factor_name(*culprit) : "not_weather";
}

std::string_view row_outcome_name(RowOutcome outcome) {
  constexpr std::array<std::string_view, 5> names{"lost", "lost-in-part", "removed", "taken", "open"};
  return name_of(names, outcome);
}

std::string_view group_by_name(GroupBy by) {
  constexpr std::array<std::string_view, 4> names{"species", "method", "spot", "grafter"};
  return name_of(names, by);
}

std::string_view rate_verdict_name(RateVerdict verdict) {
  constexpr std::array<std::string_view, 3> names{"as the weather explains", "better", "worse"};
  return name_of(names, verdict);
}

std::string_view sensor_surface_name(SensorSurface surface) {
  constexpr std::array<std::string_view, 2> names{"bark", "black"};
  return name_of(names, surface);
}

}  // namespace graftcast
