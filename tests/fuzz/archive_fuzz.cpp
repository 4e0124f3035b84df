// A reader of a public archive on arbitrary bytes: it reads or throws DataError, and what it reads makes a
// series without a number that cannot be. Built once for each reader (FUZZED_READER, FUZZED_SEPARATOR).

#include <cmath>

#include "fuzz_input.hpp"
#include "weather/archive_readers.hpp"
#include "weather/site_weather.hpp"

namespace {

using namespace graftcast;

/// Series over a few years at most, or a stamp of the year 9999 would make millions of hours.
bool is_short(const Readings& readings) {
  std::optional<Span> extent;
  for (const Block& block : readings.blocks) {
    for (const Span& span : block.spans) {
      if (!extent) extent = span;
      extent->begin = std::min(extent->begin, span.begin);
      extent->end = std::max(extent->end, span.end);
    }
  }
  return !extent || extent->end - extent->begin <= std::chrono::hours(24 * 400);
}

void check_readings(const Readings& readings) {
  for (const Block& block : readings.blocks) {
    for (std::size_t k = 1; k < block.spans.size(); ++k)
      fuzzing::require(block.spans[k - 1].begin <= block.spans[k].begin, "spans rise");
    for (const Channel& channel : block.channels)
      fuzzing::require(channel.value.size() == block.spans.size(), "a value a span");
  }
}

void check_series(const SiteWeather& weather) {
  for (const auto& column : weather.hourly.columns) {
    for (std::size_t k = 0; k < column.value.size(); ++k) {
      const bool missing = column.origin[k] == Origin::missing;
      fuzzing::require(std::isnan(column.value[k]) == missing,
                       "what is missing is marked so, and nothing else");
      fuzzing::require(missing || std::abs(column.value[k]) < 1e5, "values are possible");
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Clock clock("Europe/Lisbon");
  const Location terrace{41.2, -7.5, 260};
  fuzzing::tolerate_bad_data([&] {
    DelimitedRows rows =
        DelimitedRows::from_memory(fuzzing::text_of(data, size), FUZZED_SEPARATOR, "archive");
    Readings readings = FUZZED_READER(rows, {}, terrace, clock);
    check_readings(readings);
    if (!is_short(readings)) return;
    std::vector<Readings> sources;
    sources.push_back(std::move(readings));
    check_series(assemble(std::move(sources), terrace, clock, {Instant{}, true}));
  });
  return 0;
}
