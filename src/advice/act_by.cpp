// When an action must be done at the latest, and from when it can be undone.

#include <algorithm>

#include "advice/actions.hpp"
#include "cool_hours.hpp"

namespace graftcast {

namespace {

/// Hours ahead that fall at the cool hours of the site's clock, up to `end`.
std::vector<std::size_t> cool_hours(const Season& season, std::size_t end) {
  std::vector<std::size_t> hours;
  for (std::size_t i = season.now(); i < end; ++i) {
    const Instant when = season.hour(i);
    const auto local = when.time_since_epoch() + season.clock.offset_at(when);
    const auto hour_of_day =
        static_cast<int>((std::chrono::floor<std::chrono::hours>(local).count() % 24 + 24) % 24);
    if (std::find(cool_hours_local.begin(), cool_hours_local.end(), hour_of_day) != cool_hours_local.end()) {
      hours.push_back(i);
    }
  }
  return hours;
}

/// Runs under one treatment up to any of some hours, and from there on under another.
class SwitchedRuns {
 public:
  SwitchedRuns(const GraftRun& run, const UnionNow& now, const Treatment& first,
               const std::vector<std::size_t>& hours)
      : run_(run), now_(now), hours_(hours) {
    UnionStates states = now.states;
    if (!hours.empty()) run.run(first, run.season().now(), hours.back(), states, hours, at_hours_);
  }

  double risk(std::size_t hour, const Treatment& switched, std::size_t end) const {
    const auto place = std::ranges::lower_bound(hours_, hour) - hours_.begin();
    UnionStates states = at_hours_[static_cast<std::size_t>(place)];
    std::vector<UnionStates> none;
    run_.run(switched, hour, end, states, {}, none);
    return risk_at(run_, now_, states).risk.p;
  }

 private:
  const GraftRun& run_;
  const UnionNow& now_;
  const std::vector<std::size_t>& hours_;
  std::vector<UnionStates> at_hours_;
};

}  // namespace

std::size_t latest_useful_hour(const GraftRun& run, const UnionNow& now, const Action& action,
                               double risk_as_it_is, double risk_after, std::size_t end, double share) {
  const Season& season = run.season();
  const std::vector<std::size_t> hours = cool_hours(season, end);
  const SwitchedRuns until_late(run, now, run.as_it_is(), hours);
  const auto keeps = [&](std::size_t hour) {
    const Treatment late = run.changed(season.hour(hour), action.after, action.waters);
    const double risk = until_late.risk(hour, late, end);
    return risk_as_it_is - risk >= share * (risk_as_it_is - risk_after);
  };
  // The benefit falls as the action waits, so the last hour that keeps enough of it is found by halving.
  const auto first_late =
      std::partition_point(hours.begin(), hours.end(), [&](std::size_t hour) { return keeps(hour); });
  return first_late == hours.begin() ? season.now() : *(first_late - 1);
}

std::optional<std::size_t> earliest_undo_hour(const GraftRun& run, const UnionNow& now, const Action& action,
                                              double risk_as_it_is, double risk_after, std::size_t end,
                                              double share) {
  const Season& season = run.season();
  // Less than a whole day before the horizon nothing shows what the next one would take.
  std::vector<std::size_t> hours = cool_hours(season, std::max(end, season.now() + 24) - 24);
  std::erase(hours, season.now());
  const Instant at_once = season.hour(season.now());
  const SwitchedRuns treated(run, now, run.changed(at_once, action.after, action.waters), hours);
  const auto loses = [&](std::size_t hour) {
    const Treatment briefly = run.changed(at_once, action.after, action.waters, season.hour(hour));
    const double risk = treated.risk(hour, briefly, end);
    return risk_as_it_is - risk < share * (risk_as_it_is - risk_after);
  };
  // The benefit grows with the time it stays on.
  const auto first = std::partition_point(hours.begin(), hours.end(), loses);
  if (first == hours.end()) return std::nullopt;
  return *first;
}

}  // namespace graftcast
