#pragma once
// state.json of a cache (private to the layer).

#include <string>

#include "weather/forecast_cache.hpp"

namespace graftcast {

std::string state_text(const FetchState& state);
/// Error: DataError that says to delete the file.
FetchState parse_state(std::string_view text, const std::string& name);

}  // namespace graftcast
