#pragma once
// Wait, look or graft again: what each is worth, with the grafts that take as the unit.

#include <optional>
#include <vector>

#include "graftcast/since.hpp"

namespace graftcast {

/// What is known of one graft today. Chances 0..1.
struct Standing {
  double alive = 1;          ///< That the weather has spared it.
  double hand = 1;           ///< That it was made well, given the signs of life so far.
  double still_to_take = 1;  ///< That it will drink, both included.
  /// Of those failed by the hand and not seen yet, how many would show it to a look today, in a week, in two
  /// ...
  std::vector<double> shown_shares = {0};
  double look_is_right = 1;  ///< How sure a look is.
  LocalDay today{};
  LocalDay shows_by{};    ///< By when it shows by itself whether it took.
  bool may_look = false;  ///< A scratch or a look under the wrap is allowed today.
};

/// What a graft made in its place is worth.
struct NewGraft {
  double take = 0;             ///< Chance, made tomorrow.
  std::optional<double> days;  ///< Until it drinks (median).
  GraftWindow window;          ///< Of the species, as of today.
  GraftWindow window_then;     ///< ... as of the day on which a loss shows by itself.
};

/// Expected values. A graft found lost is replaced at once while the species' window is open, else when it
/// opens; a week in which a stock carries no living scion costs `stock_week`. A look costs `look` and saves
/// the weeks until a loss shows by itself. There is one look, so that who waits may keep it for the week in
/// which it tells most: waiting is worth as much as the best later look, or as none at all. Pure.
WaitOrRegraft wait_or_regraft(const Standing& graft, const NewGraft& anew, const OwnersCosts& costs);

}  // namespace graftcast
