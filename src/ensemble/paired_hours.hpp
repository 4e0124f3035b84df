#pragma once
// The hours in which a thermometer's log and the site's weather can be held against each other (private to
// the layer).

#include <cstddef>
#include <vector>

#include "parameters/models.hpp"
#include "plant/ambient.hpp"

namespace graftcast {

/// The hours that both logs know, and the open air around them.
struct PairedHours {
  Ambient ambient;
  std::vector<Eigen::Index> used;  ///< Hours of the ambient.
  Eigen::ArrayXd seen_c;           ///< Of the thermometer, one a used hour.
  std::vector<double> wind_open, wind_spot;
  std::size_t light_measured = 0, wind_measured = 0;
};

/// Hours measured in both.
PairedHours paired_hours(const HourlyWeather& open, const HourlyWeather& at_spot, const Location& location,
                         const Models& models);

/// Correlation of neighbours: of values whose places follow each other; 0 to 0.99.
double correlation_from_hour_to_hour(const Eigen::ArrayXd& values, const std::vector<Eigen::Index>& places);

/// How many independent values `count` of such a correlation are worth (Bayley & Hammersley 1946, recalled).
double effective_number(double count, double correlation);

}  // namespace graftcast
