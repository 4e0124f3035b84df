#pragma once
// What of a source is known at a moment (private to the layer).

#include "weather/reading.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {

/// Takes away what was measured after `knowledge.as_of` (an interval counts when it has ended), and all of a
/// forecast made later. What is taken away is noted. With hindsight nothing is.
void keep_known(Readings& readings, const Knowledge& knowledge);

/// Takes away rows before 1801 and after 2198, where the sun's place cannot be worked out, and notes it.
void drop_invalid_years(Readings& readings);

}  // namespace graftcast
