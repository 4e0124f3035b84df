#pragma once
// Extraterrestrial radiation by the hours of a series (private to the layer).

#include <algorithm>
#include <vector>

#include "graftcast/sun.hpp"
#include "weather/resample.hpp"

namespace graftcast {

/// The last 800 days of a series: long enough for every season, short enough for every morning.
class SunHours {
 public:
  SunHours(const QuantityHours& hours, const Location& location)
      : first_(hours.size() > most_hours ? hours.size() - most_hours : 0) {
    outside_w_m2_.reserve(hours.size() - first_);
    for (std::size_t k = first_; k < hours.size(); ++k) {
      outside_w_m2_.push_back(sun_period(hours.hour(k), location.latitude_deg, location.longitude_deg)
                                  .mean_extraterrestrial_w_m2);
    }
  }

  /// Index, in the series, of the first hour that is looked at.
  std::size_t first() const { return first_; }
  /// For an hour of the series from `first` on.
  double outside_w_m2(std::size_t hour) const { return outside_w_m2_[hour - first_]; }

 private:
  static constexpr std::size_t most_hours = 800 * 24;
  std::size_t first_;
  std::vector<double> outside_w_m2_;
};

}  // namespace graftcast
