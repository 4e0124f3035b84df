#pragma once
// The curve through instants (private to the layer).

#include <vector>

#include "coarse_course.hpp"
#include "hour_sums.hpp"
#include "weather/reading.hpp"

namespace graftcast {

/// Median distance of the instants; an hour where there is only one.
std::chrono::seconds usual_distance(const std::vector<Span>& spans);

/// Adds the means of the curve through a channel of instants, hour by hour; see `resample`.
void add_instants(HourSums& sums, const std::vector<Span>& spans, const Channel& channel);

/// True for instants between which the day's course has to be told: more than three hours apart.
bool is_coarse(const std::vector<Span>& spans);

/// The same for temperatures that are coarse: their course is that of the day, see CoarseCourse.
void add_coarse_temperatures(HourSums& sums, const std::vector<Span>& spans, const Channel& channel,
                             std::vector<StretchExtremes> extremes, const Location& location);

}  // namespace graftcast
