#include "advice/wait_or_regraft.hpp"

#include <algorithm>

namespace graftcast {

namespace {

double weeks_between(LocalDay from, LocalDay to) {
  return std::max(0.0, static_cast<double>((to - from).count()) / 7);
}

/// The look of one graft, in any of the coming weeks.
class Looks {
 public:
  Looks(const Standing& graft, const NewGraft& anew, const OwnersCosts& costs)
      : graft_(graft),
        anew_(anew),
        costs_(costs),
        take_(std::clamp(graft.still_to_take, 0.0, 1.0)),
        weeks_(weeks_between(graft.today, graft.shows_by)) {}

  /// Share that is lost, and would show it, `week` weeks from now.
  double lost_by(std::size_t week) const {
    const double of_the_hand = graft_.alive * (1 - graft_.hand) * graft_.shown_shares[week];
    return std::min(1 - take_, 1 - graft_.alive + of_the_hand);
  }

  /// Worth of the stock once it is known on `day` that nothing lives on it.
  double free_stock(LocalDay day) const {
    const GraftWindow& window = window_on(day);
    const double idle_weeks = window.open ? 0 : weeks_between(day, window.opens);
    return anew_.take - costs_.graft - costs_.stock_week * idle_weeks;
  }

  double without() const {
    // Those lost later lie idle for half of the time, on the whole.
    const double lost = lost_by(0);
    return take_ + lost * seen_late(weeks_) + (1 - take_ - lost) * seen_late(weeks_ / 2);
  }

  double in(std::size_t week) const {
    const auto later = static_cast<double>(week);
    const double lost_now = lost_by(0), lost_then = lost_by(week) - lost_now;
    const double found = free_stock(graft_.today + std::chrono::days(7 * static_cast<int>(week)));
    const double right = graft_.look_is_right;
    const double of_now = right * (found - costs_.stock_week * later) + (1 - right) * seen_late(weeks_);
    const double of_then =
        right * (found - costs_.stock_week * later / 2) + (1 - right) * seen_late(weeks_ - later / 2);
    const double rest = (1 - take_ - lost_now - lost_then) * seen_late((weeks_ - later) / 2);
    return take_ - costs_.look + lost_now * of_now + lost_then * of_then + rest;
  }

  double kept_for_later() const {
    double best = without();
    for (std::size_t week = 1; week < graft_.shown_shares.size() && static_cast<double>(week) < weeks_;
         ++week)
      best = std::max(best, in(week));
    return best;
  }

 private:
  const GraftWindow& window_on(LocalDay day) const {
    const GraftWindow& window = anew_.window;
    return day <= (window.open ? window.closes : window.opens) ? window : anew_.window_then;
  }
  /// Of a stock that lay idle for so long until the loss showed by itself.
  double seen_late(double idle_weeks) const {
    return free_stock(graft_.shows_by) - costs_.stock_week * std::max(0.0, idle_weeks);
  }

  const Standing& graft_;
  const NewGraft& anew_;
  const OwnersCosts& costs_;
  double take_, weeks_;
};

}  // namespace

WaitOrRegraft wait_or_regraft(const Standing& graft, const NewGraft& anew, const OwnersCosts& costs) {
  const Looks looks(graft, anew, costs);
  WaitOrRegraft answer;
  answer.costs = costs;
  answer.new_take = anew.take;
  answer.new_days = anew.days;
  answer.window_closes = anew.window.closes;
  answer.window_opens = anew.window.opens;
  answer.shows_by = graft.shows_by;
  if (anew.window.open)
    answer.season_left_days = static_cast<int>((anew.window.closes - graft.today).count());
  answer.shows_lost = looks.lost_by(0) * graft.look_is_right;
  answer.value_wait = looks.kept_for_later();
  answer.value_regraft = looks.free_stock(graft.today);
  if (graft.may_look) answer.value_look = looks.in(0);
  return answer;
}

}  // namespace graftcast
