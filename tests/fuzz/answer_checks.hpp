#pragma once
// What must hold of every answer of a service that can be read.

#include <algorithm>
#include <cmath>

#include "fuzz_input.hpp"
#include "weather/forecast_services.hpp"
#include "weather/site_weather.hpp"

namespace graftcast::fuzzing {

inline constexpr Location terrace{41.2, -7.5, 260};

inline AnswerOrigin fuzzed_origin() {
  return {"answer", Instant(std::chrono::hours(486'000)), ""};
}

/// Intervals that rise, as many values as intervals, no infinite number, and hours that are known or missing.
inline void check_readings(Readings readings) {
  for (const Block& block : readings.blocks) {
    require(std::ranges::is_sorted(block.spans, {}, &Span::begin), "intervals rise");
    for (const Channel& channel : block.channels) {
      require(channel.value.size() == block.spans.size(), "a value for each interval");
      require(std::ranges::none_of(channel.value, [](double value) { return std::isinf(value); }),
              "no infinite value");
    }
    // A series of years would only cost the fuzzer its time.
    if (!block.spans.empty() && block.spans.back().end - block.spans.front().begin > std::chrono::days(100))
      return;
  }
  static const Clock clock("Europe/Lisbon");
  std::vector<Readings> sources;
  sources.push_back(std::move(readings));
  const SiteWeather weather = assemble(std::move(sources), terrace, clock, {Instant{}, true});
  for (const auto& column : weather.hourly.columns)
    for (std::size_t k = 0; k < column.value.size(); ++k) {
      const bool missing = column.origin[k] == Origin::missing;
      require(std::isnan(column.value[k]) == missing, "what is missing is marked");
      require(missing || std::abs(column.value[k]) < 1e5, "no impossible number");
    }
}

inline void check_answer(ServiceAnswer answer) {
  require(!answer.readings.blocks.empty(), "an answer that is read says something");
  if (answer.place) distance_km(terrace, *answer.place);
  for (Readings& member : answer.members) check_readings(std::move(member));
  check_readings(std::move(answer.readings));
}

}  // namespace graftcast::fuzzing
