#pragma once
// site.json: the place, its spots and supplies.

#include <filesystem>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/degree_days.hpp"
#include "graftcast/error.hpp"
#include "graftcast/spot.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Overrides of the species' own degree-days; any subset.
struct DegreeDaySettings {
  std::optional<DegreeDayMethod> method;
  std::optional<double> base_c;
  std::optional<double> upper_c;
  std::optional<Cutoff> cutoff;
};

struct Site {
  int format = 1;
  std::string name;
  Location location;
  std::string time_zone;
  std::map<std::string, Spot> spots;
  std::map<std::string, int> supplies;  ///< Covers at hand: `clear-bag`, `paper`, `shade-cloth`, ...
  /// Those among them that only a cover of the owner's own can need, with their places in the file.
  std::map<std::string, Position> own_supplies;
  std::map<std::string, double> minutes;  ///< Minutes of work per action.
  std::map<std::string, double> costs;    ///< `stock_week`, `look`, `graft`, against one graft taken.
  DegreeDaySettings degree_days;
  double shade_cloth_share = 0.5;  ///< What the owner's shade cloth keeps off.
  WeatherSettings weather;
};

/// Reads and checks `folder`/site.json. Unknown keys are an error with the nearest known name, except
/// `x-...`. Errors: OpenError, DataError (line and column of the entry; also for a newer `format`).
Site read_site(const std::filesystem::path& folder);

/// The same from the text of the file. `folder` is the site folder that sources' paths must stay in; without
/// one, symbolic links are not looked at. Errors: DataError.
Site site_from_text(std::string_view text, const std::string& shown_name,
                    const std::optional<std::filesystem::path>& folder = std::nullopt);

/// Error: DataError at the first supply that no cover needs: neither a usual one nor one of `own`, what the
/// owner's own covers need.
void check_supplies(const Site& site, std::span<const std::string> own);

/// What a site folder starts with.
struct NewSite {
  std::string name;
  Location location;
  std::string time_zone;  ///< IANA name.
  std::map<std::string, Spot> spots;
  std::map<std::string, int> supplies;
};

/// The text of a new site.json. Error: DataError when a name is not UTF-8.
std::string site_text(const NewSite& site);

/// Starts a site folder, made where it is not there: site.json, grafts.csv and diary.csv with their headers,
/// and the folder weather/. site.json comes last, so that a folder with one is complete. Files that are there
/// stay. Errors: DataError without a position (an entry out of its range), UsageError (the folder has a
/// site.json already), WriteError.
Site create_site(const std::filesystem::path& folder, const NewSite& site);

}  // namespace graftcast
