#pragma once
// What the tests of the weather layer share: a place, tables in memory, readings made by hand.

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <string_view>

#include "graftcast/calendar_time.hpp"
#include "graftcast/error.hpp"
#include "weather/reading.hpp"
#include "weather/table_reader.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast::testing {

inline const Location terrace{41.2, -7.5, 260};

inline const Clock& lisbon() {
  static const Clock clock("Europe/Lisbon");
  return clock;
}

/// The instant that an ISO time with an offset or `Z` names.
inline Instant at(std::string_view text) {
  const auto parsed = parse_time(text).value();
  return Instant(parsed.reading.time_since_epoch() - parsed.offset.value());
}

inline LocalDay day(std::string_view text) {
  return parse_day(text).value();
}

inline Readings table(std::string_view text, const SourceSettings& source = {},
                      const Clock& clock = lisbon()) {
  return read_table_text(text, "log.csv", source, terrace, clock);
}

/// What reading the table complains of; empty when it does not.
inline std::string complaint(std::string_view text, const SourceSettings& source = {}) {
  try {
    table(text, source);
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

inline const Channel* find_channel(const Block& block, Quantity quantity, Kind kind) {
  for (const Channel& channel : block.channels) {
    if (channel.quantity == quantity && channel.kind == kind) return &channel;
  }
  return nullptr;
}

inline const Channel& channel(const Readings& readings, Quantity quantity, Kind kind = Kind::mean) {
  for (const Block& block : readings.blocks) {
    if (const auto* const found = find_channel(block, quantity, kind)) return *found;
  }
  throw std::runtime_error("no such channel");
}

/// The note of a kind; a count of 0 where there is none.
inline QualityNote note(const std::vector<QualityNote>& notes, std::string_view kind) {
  for (const QualityNote& each : notes) {
    if (each.kind == kind) return each;
  }
  return {};
}

/// Readings of one quantity in equal steps from `begin` on.
inline Readings stepped(Quantity quantity, Kind kind, Instant begin, std::chrono::seconds step,
                        std::vector<double> values) {
  Readings readings;
  readings.source = "made";
  Block block;
  for (std::size_t k = 0; k < values.size(); ++k) {
    const Instant from = begin + step * static_cast<long>(k);
    block.spans.push_back({from, kind == Kind::instant ? from : from + step});
  }
  block.channels.push_back({quantity, kind, std::move(values)});
  readings.blocks.push_back(std::move(block));
  return readings;
}

}  // namespace graftcast::testing
