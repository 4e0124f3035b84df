#pragma once
// Stored answers read again (private to the layer).

#include "logged_hours.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {

/// Farther from the site than this an answer is for another place: grid cells of the services are up to 50 km
/// wide.
inline constexpr double farthest_km = 30;

/// Reads a stored answer of `source`. Errors: those of the service's reader, or of the table reader for
/// `url`.
ServiceAnswer read_stored_answer(const StoredAnswer& stored, const SourceSettings& source,
                                 const Location& location, const Clock& clock, const std::string& name);

/// Whether the source is a service whose answers look ahead.
bool gives_forecasts(const SourceSettings& source);

/// As `saved_forecasts`, without those that only tell hours which logs tell; `told` may be null.
std::vector<Readings> needed_forecasts(const std::filesystem::path& site_folder, const SourceSettings& source,
                                       const Location& location, const Clock& clock,
                                       const Knowledge& knowledge, const LoggedHours* logged);

}  // namespace graftcast
