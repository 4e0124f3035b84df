#include "known_by.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace graftcast {

namespace {

/// Rows that have ended by `as_of`; rows rise by begin and, within a block, by end.
std::size_t rows_ended_by(const Block& block, Instant as_of) {
  const auto end = std::partition_point(block.spans.begin(), block.spans.end(),
                                        [&](const Span& span) { return span.end <= as_of; });
  return static_cast<std::size_t>(end - block.spans.begin());
}

}  // namespace

void keep_known(Readings& readings, const Knowledge& knowledge) {
  if (knowledge.hindsight) return;
  if (readings.is_forecast) {
    if (!readings.made_at || *readings.made_at <= knowledge.as_of) return;
    readings.blocks.clear();
    readings.notes.push_back({readings.source,
                              "later-forecast",
                              1,
                              fmt::format("made after {} and therefore not used", utc_text(knowledge.as_of)),
                              {utc_text(*readings.made_at)}});
    return;
  }
  std::size_t later = 0;
  for (Block& block : readings.blocks) {
    const std::size_t kept = rows_ended_by(block, knowledge.as_of);
    later = std::max(later, block.spans.size() - kept);
    block.spans.resize(kept);
    for (Channel& channel : block.channels) channel.value.resize(kept);
  }
  if (later == 0) return;
  readings.notes.push_back(
      {readings.source,
       "later-rows",
       later,
       fmt::format("measured after {} and therefore not used", utc_text(knowledge.as_of)),
       {}});
}

}  // namespace graftcast
