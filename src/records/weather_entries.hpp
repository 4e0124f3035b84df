#pragma once
// The part of site.json that is about the weather (private to the layer).

#include <filesystem>
#include <optional>

#include "json_entry.hpp"
#include "records/site.hpp"

namespace graftcast {

/// Reads `weather`. `clock` is the site's; `folder` as in site_from_text.
WeatherSettings read_weather_settings(const JsonEntry& weather, const Clock& clock,
                                      const std::optional<std::filesystem::path>& folder);

/// The clock of the IANA zone that `entry` names. Error: DataError at the entry, with the nearest names.
Clock clock_of(const JsonEntry& entry);

}  // namespace graftcast
