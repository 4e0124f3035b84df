#pragma once
// A site folder opened for an answer: its records, its weather, the models.

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/session.hpp"
#include "parameters/models.hpp"
#include "records/diary.hpp"
#include "records/ledger.hpp"
#include "records/site.hpp"
#include "records/wood.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {

/// Published models, with the owner's own from `folder`/models where that is a site.
Models models_for(const std::filesystem::path& folder);

/// Place and names: what writing a record needs, and what every answer begins with.
struct OpenSite {
  std::filesystem::path folder;
  Site site;
  Clock clock;
  Models models;
  Instant as_of;
  AskSettings ask;
};
/// `moment`: that of the answers, on the site's clock. Errors: those of read_site and load_models; OpenError
/// that says how to start a site where there is none.
OpenSite open_site(const std::filesystem::path& folder, const std::function<Instant(const Clock&)>& moment,
                   const AskSettings& ask);

SiteWeather weather_of(const OpenSite& open);
/// The same; DataError that says how to bring in a log where nothing is known.
SiteWeather known_weather(const OpenSite& open);

/// How the forecasts of the service whose forecast is in use did before: nothing where none is, or none can
/// be compared yet.
std::vector<LeadSpread> own_errors_of(const OpenSite& open, const SiteWeather& weather);

/// The rows of the ledger made by `as_of`, each with its diary lines up to then.
struct OpenRecords {
  std::vector<GraftRecord> grafts;
  std::vector<std::string> warnings;
  std::vector<WoodRow> wood = {};
};
OpenRecords records_of(const OpenSite& open);

/// First moment that any of `grafts` needs; `as_of` without any.
Instant earliest_of(const OpenSite& open, const std::vector<GraftRecord>& grafts);

/// How far ahead dates are looked for: a slow union opens its wrap two to three months on.
inline constexpr int dates_ahead_days = 90;

SeasonSettings season_settings(const OpenSite& open);

}  // namespace graftcast
