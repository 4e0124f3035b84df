#include "graftcast/wait_or_regraft.hpp"

#include <algorithm>

namespace graftcast {

namespace {

double weeks_between(LocalDay from, LocalDay to) {
  return std::max(0.0, static_cast<double>((to - from).count()) / 7);
}

/// Worth of the stock once it is known on `day` that nothing lives on it; `window` as seen then.
double worth_of_free_stock(const NewGraft& anew, const OwnersCosts& costs, LocalDay day,
                           const GraftWindow& window) {
  const double idle_weeks = window.open ? 0 : weeks_between(day, window.opens);
  return anew.take - costs.graft - costs.stock_week * idle_weeks;
}

}  // namespace

WaitOrRegraft wait_or_regraft(const Standing& graft, const NewGraft& anew, const OwnersCosts& costs) {
  const double take = std::clamp(graft.still_to_take, 0.0, 1.0);
  // Lost already, whether or not a look would show it; and lost later.
  const double lost_now =
      std::min(1 - take, (1 - graft.alive) + graft.alive * (1 - graft.hand) * graft.shown_share);
  const double lost_later = 1 - take - lost_now;
  const double weeks = weeks_between(graft.today, graft.shows_by);
  const double now = worth_of_free_stock(anew, costs, graft.today, anew.window);
  const double later = worth_of_free_stock(anew, costs, graft.shows_by, anew.window_then);

  WaitOrRegraft answer;
  answer.costs = costs;
  answer.new_take = anew.take;
  answer.new_days = anew.days;
  answer.window_closes = anew.window.closes;
  answer.window_opens = anew.window.opens;
  answer.shows_by = graft.shows_by;
  if (anew.window.open)
    answer.season_left_days = static_cast<int>((anew.window.closes - graft.today).count());
  answer.shows_lost = lost_now * graft.look_is_right;
  // Those lost later lie idle for half of the time, on the whole.
  const double rest = take + lost_later * (later - costs.stock_week * weeks / 2);
  const double unseen = later - costs.stock_week * weeks;
  answer.value_wait = rest + lost_now * unseen;
  answer.value_regraft = now;
  if (graft.may_look)
    answer.value_look = rest - costs.look + answer.shows_lost * now + (lost_now - answer.shows_lost) * unseen;
  return answer;
}

}  // namespace graftcast
