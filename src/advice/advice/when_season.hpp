#pragma once
// Trying the weeks of a year.

#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/season_weeks.hpp"

namespace graftcast {

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
