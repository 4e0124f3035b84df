#pragma once
// What to ask which service (private to the layer).

#include <string>

#include "weather/forecast_cache.hpp"

namespace graftcast {

/// Service, address and place: what a state and a cache are about.
std::string subject_of(Service service, const SourceSettings& source, const Location& location);

/// Address of the forecast; of the National Weather Service, that of the point, which names the grid cell.
/// Coordinates have at most four decimals. `now` sets the days of an archive.
std::string request_url(Service service, const SourceSettings& source, const Location& location, Instant now);
std::string accepted_type(Service service);

/// Address of the raw forecast of the grid cell that a /points answer names. Error: DataError when it names
/// none.
std::string gridpoint_url(const SourceSettings& source, std::string_view points, const std::string& name);

/// `PROGRAM (CONTACT)`. Error: DataError when the contact tells no way to reach anyone.
std::string user_agent(const std::string& program, const SourceSettings& source);

/// A number with at most `decimals` decimals, without zeros at the end.
std::string short_number(double value, int decimals);

}  // namespace graftcast
