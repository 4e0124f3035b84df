#pragma once
// Which weeks of the year are for grafting? A graft made in each week of a season, in the weather of past
// years.

#include <optional>
#include <string>
#include <vector>

#include "advice/when.hpp"

namespace graftcast {

/// One week of the season; the graft is made in its middle.
struct SeasonWeek {
  LocalDay first_day{};
  WhenDay usual;
  std::optional<WhenDay> covered;
  std::optional<bool> bark_slips;  ///< In most years; only for methods that need it.
  std::string verdict;             ///< `graft`, `graft with cover`, `wait`.

  /// The better chance of the two; 0 where the bark does not slip.
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

/// The usual seasons of `species` that begin in the season of `midwinter`; half a year later in the south.
std::vector<UsualSeason> usual_seasons(const Species& species, LocalDay midwinter, double latitude_deg);

/// The weeks of the season of `settings.as_of`, from midwinter to midwinter. Members take the log's seasons
/// in turn; without one that is known for half a year, courses of the log's monthly climate. Each graft is
/// followed as in `when_to_graft`. Errors: DataError for names that the models or the site do not have;
/// RangeError where no week is known.
SeasonReport season_to_graft(const Site& site, const Clock& clock, const Models& models,
                             const HourlyWeather& weather, const SeasonSettings& settings,
                             const std::vector<WhenAsk>& asked, int threads);

}  // namespace graftcast
