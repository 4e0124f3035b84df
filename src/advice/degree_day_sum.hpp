#pragma once
// Degree-days of the local days of a season.

#include "ensemble/season.hpp"
#include "graftcast/degree_days.hpp"

namespace graftcast {

/// Degree-days of the part of `day` that lies in [from, to) (hours of the series), by the site's air
/// temperature. The hourly method sums the hours; the others take the extremes of the whole local day, shared
/// by the hours counted.
double degree_days_of_day(const Season& season, std::size_t day, std::size_t from, std::size_t to,
                          const DegreeDayRule& rule);

/// The same summed over all days of [from, to).
double degree_days_between(const Season& season, std::size_t from, std::size_t to, const DegreeDayRule& rule);

}  // namespace graftcast
