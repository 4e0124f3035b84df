#pragma once
// `weather add --propose`: how foreign tables are best taken in.

#include <string>
#include <vector>

#include "command.hpp"
#include "global_options.hpp"
#include "open_site.hpp"
#include "weather/weather_file.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast::cli {

/// How many rows or days a file gives, from when to when.
std::string read_words(const std::string& file, const std::string& reader, const WeatherFileSummary& summary,
                       const Clock& clock);

/// For each of `files` the column map with the reason for each column, the command that would add it, and the
/// entry that would stand in site.json. Nothing is written. `given` is kept. Errors: those of
/// propose_columns.
Answer propose(const std::vector<std::string>& files, const SourceSettings& given, const OpenSite& open,
               const GlobalOptions& global);

}  // namespace graftcast::cli
