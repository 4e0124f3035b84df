#pragma once
// Which hours the logs of a site tell all of (private to the layer).

#include <array>
#include <vector>

#include "weather/reading.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {

/// Hours of a window in which no forecast of the past is needed, since logs tell them.
class LoggedHours {
 public:
  /// From the day of `first` on, `hours` of them.
  LoggedHours(Instant first, std::size_t hours);

  /// What a log measured within the window and, without hindsight, by then.
  void add(const Readings& log, const Knowledge& knowledge);
  /// Whether logs tell temperature, humidity, wind, radiation and rain in every hour that `span` touches.
  /// Outside the window they tell nothing.
  bool cover(const Span& span) const;

 private:
  void add_channel(const Block& block, const Channel& channel, Instant until);
  void mark(std::size_t row, const Span& span);
  long index_of(Instant instant) const;

  Hour start_;
  std::array<std::vector<bool>, 5> logged_;
};

}  // namespace graftcast
