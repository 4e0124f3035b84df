#pragma once
// Which weeks of the year are for grafting? A graft made in each week of a season, in the weather of past
// years.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/when.hpp"

namespace graftcast {

/// One week of the season; the graft is made in its middle.
struct SeasonWeek {
  LocalDay first_day{};
  WhenDay usual;
  std::optional<WhenDay> covered;
  std::optional<bool> bark_slips;  ///< In most years; only for methods that need it.
  WhenVerdict verdict = WhenVerdict::wait;

  /// The better chance of the two, 0..1; 0 where the bark does not slip.
  double best_take() const;
};

/// Weeks in a row that are about as good as the season's best.
struct SeasonStretch {
  LocalDay from{}, to{};  ///< First day of the first and last day of the last week.
  std::size_t weeks = 0;
  double low = 0, high = 0;  ///< Least and greatest `best_take` among them.
  bool needs_cover = false;  ///< In at least one of them.
};

/// When the trade grafts the species, of whatever method (windows of models/species.json).
struct UsualSeason {
  LocalDay from{}, to{};
};

/// The answer for one species and method.
struct SeasonAnswer {
  WhenCandidate usual;  ///< What was asked; without days.
  std::optional<WhenCandidate> covered;
  std::vector<SeasonWeek> weeks;           ///< Those whose weather is known, in order.
  std::optional<SeasonStretch> best;       ///< Absent where every week says `wait`.
  std::vector<UsualSeason> usual_seasons;  ///< Those that begin in this season, in order.
};

struct SeasonReport {
  std::string name;                   ///< `2025/26`.
  LocalDay midwinter{};               ///< Its first day.
  std::vector<std::string> years;     ///< Past seasons that the weather is from; empty: monthly climate.
  std::size_t unknown_weeks = 0;      ///< Left out.
  std::vector<SeasonAnswer> answers;  ///< The best chance of any week first.
  std::vector<Notice> notices;
};

/// `2025/26`, the season that begins with the midwinter of 2025.
std::string season_name(LocalDay midwinter);

}  // namespace graftcast
