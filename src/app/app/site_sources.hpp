#pragma once
// Entries of weather.sources in site.json.

#include <filesystem>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "graftcast/calendar_time.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// The entry of a file source, without what is as by default.
nlohmann::ordered_json source_entry(const SourceSettings& source);

/// `site_text` with `entries` at the end of weather.sources; everything else stays as it is, byte for byte.
/// Error: DataError when the text is no site.json.
std::string with_sources(const std::string& site_text, const std::string& shown_name,
                         const std::vector<nlohmann::ordered_json>& entries);

/// Adds entries for `sources` to `folder`/site.json, durably; a file that has an entry already is passed
/// over. Hold the site's lock around it. Errors: DataError (also where the result would not be a valid site),
/// WriteError.
void add_sources(const std::filesystem::path& folder, const std::vector<SourceSettings>& sources);

}  // namespace graftcast
