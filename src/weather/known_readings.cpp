#include "known_readings.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "text/tr.hpp"
#include "valid_years.hpp"

namespace graftcast {

namespace {

/// Rows that have ended by `as_of`; rows rise by begin and, within a block, by end.
std::size_t rows_ended_by(const Block& block, Instant as_of) {
  const auto end = std::partition_point(block.spans.begin(), block.spans.end(),
                                        [&](const Span& span) { return span.end <= as_of; });
  return static_cast<std::size_t>(end - block.spans.begin());
}

}  // namespace

void drop_invalid_years(Readings& readings) {
  constexpr std::chrono::days longest_span(2);
  std::size_t outside = 0;
  for (Block& block : readings.blocks) {
    const auto begins_before = [](Instant limit) {
      return [limit](const Span& span) { return span.begin < limit; };
    };
    const auto first =
        std::ranges::partition_point(block.spans, begins_before(first_valid_instant)) - block.spans.begin();
    const auto past =
        std::ranges::partition_point(block.spans, begins_before(past_valid_instants - longest_span)) -
        block.spans.begin();
    const auto size = static_cast<std::ptrdiff_t>(block.spans.size());
    if (first == 0 && past == size) continue;
    outside = std::max(outside, static_cast<std::size_t>(size - (past - first)));
    const auto cut = [&](auto& rows) {
      rows.erase(rows.begin() + past, rows.end());
      rows.erase(rows.begin(), rows.begin() + first);
    };
    cut(block.spans);
    for (Channel& channel : block.channels) cut(channel.value);
  }
  std::erase_if(readings.blocks, [](const Block& block) { return block.spans.empty(); });
  if (outside == 0) return;
  readings.notes.push_back(
      {readings.source,
       "beyond-era",
       outside,
       tr("before 1801 or after 2198, where the sun's place cannot be worked out; left out"),
       {}});
}

void keep_known(Readings& readings, const Knowledge& knowledge) {
  if (knowledge.hindsight) return;
  if (readings.is_forecast) {
    if (!readings.made_at || *readings.made_at <= knowledge.as_of) return;
    readings.blocks.clear();
    readings.notes.push_back(
        {readings.source,
         "later-forecast",
         1,
         tr("made after {time} and therefore not used", "time"_a = utc_text(knowledge.as_of)),
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
       tr("measured after {time} and therefore not used", "time"_a = utc_text(knowledge.as_of)),
       {}});
}

}  // namespace graftcast
