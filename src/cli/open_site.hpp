#pragma once
// A site folder opened for an answer: its records, its weather, the models.

#include <memory>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "global_options.hpp"
#include "parameters/models.hpp"
#include "records/diary.hpp"
#include "records/ledger.hpp"
#include "records/site.hpp"
#include "records/wood.hpp"
#include "report/report_basis.hpp"
#include "weather/site_weather.hpp"

namespace graftcast::cli {

/// Published models, with the owner's own from `folder`/models where that is a site.
Models models_for(const std::filesystem::path& folder);

/// Place and names: what commands that write records need.
struct OpenSite {
  std::filesystem::path folder;
  Site site;
  Clock clock;
  Models models;
  Instant as_of;
};
/// Errors: those of read_site and load_models; OpenError that says how to start a site where there is none.
OpenSite open_site(const GlobalOptions& options);

SiteWeather weather_of(const OpenSite& open, const GlobalOptions& options);
/// The same; DataError that says how to bring in a log where nothing is known.
SiteWeather known_weather(const OpenSite& open, const GlobalOptions& options);

/// How the forecasts of the service whose forecast is in use did before: nothing where none is, or none can
/// be compared yet.
std::vector<LeadSpread> own_errors_of(const OpenSite& open, const SiteWeather& weather,
                                      const GlobalOptions& options);

/// The rows of the ledger made by `as_of`, each with its diary lines up to then.
struct OpenRecords {
  std::vector<GraftRecord> grafts;
  std::vector<std::string> warnings;
  std::vector<WoodRow> wood = {};
};
OpenRecords records_of(const OpenSite& open);

/// First moment that any of `grafts` needs; `as_of` without any.
Instant earliest_of(const OpenSite& open, const std::vector<GraftRecord>& grafts);

/// The basis of an answer of `command`: place, moment, ensemble; weather and warnings are the caller's to
/// add.
ReportBasis basis_of(std::string command, const OpenSite& open, const GlobalOptions& options);
/// The same without a site.
ReportBasis basis_of(std::string command, const GlobalOptions& options);

void append(std::vector<std::string>& lines, const std::vector<std::string>& more);

/// How far ahead dates are looked for: a slow union opens its wrap two to three months on.
inline constexpr int dates_ahead_days = 90;

SeasonSettings season_settings(const OpenSite& open, const GlobalOptions& options);

/// `json` as it is printed.
std::string dumped(const nlohmann::ordered_json& json);

/// An answer: `json` with --json, else `text`, with the warnings beside it.
Answer answered(const GlobalOptions& options, const ReportBasis& basis,
                const std::function<nlohmann::ordered_json()>& json,
                const std::function<std::string()>& text);

}  // namespace graftcast::cli
