#pragma once
// The curve through instants (private to the layer).

#include <vector>

#include "graftcast/reading.hpp"
#include "hour_sums.hpp"

namespace graftcast {

/// Median distance of the instants; an hour where there is only one.
std::chrono::seconds usual_distance(const std::vector<Span>& spans);

/// Adds the means of the curve through a channel of instants, hour by hour; see `resample`.
void add_instants(HourSums& sums, const std::vector<Span>& spans, const Channel& channel);

}  // namespace graftcast
