#include "logged_hours.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace graftcast {

namespace {

/// The row of `logged_` that a quantity counts for: what the model cannot do without.
std::optional<std::size_t> row_of(const Channel& channel) {
  const bool extreme = channel.kind == Kind::minimum || channel.kind == Kind::maximum;
  switch (channel.quantity) {
    case Quantity::air_temperature:
      return 0;
    case Quantity::relative_humidity:
    case Quantity::dew_point:
      return 1;
    case Quantity::wind_speed:
      return extreme ? std::nullopt : std::optional<std::size_t>(2);
    case Quantity::shortwave:
      return extreme ? std::nullopt : std::optional<std::size_t>(3);
    case Quantity::precipitation:
      return extreme ? std::nullopt : std::optional<std::size_t>(4);
    default:
      return std::nullopt;
  }
}

}  // namespace

LoggedHours::LoggedHours(Instant first, std::size_t hours)
    : start_(std::chrono::floor<std::chrono::hours>(first)) {
  for (std::vector<bool>& row : logged_) row.assign(hours, false);
}

long LoggedHours::index_of(Instant instant) const {
  return (std::chrono::floor<std::chrono::hours>(instant) - start_).count();
}

void LoggedHours::mark(std::size_t row, const Span& span) {
  const long past = index_of(span.end - std::chrono::seconds(span.end > span.begin ? 1 : 0)) + 1;
  const long size = static_cast<long>(logged_.at(row).size());
  for (long hour = std::max(0L, index_of(span.begin)); hour < std::min(past, size); ++hour)
    logged_.at(row)[static_cast<std::size_t>(hour)] = true;
}

void LoggedHours::add_channel(const Block& block, const Channel& channel, Instant until) {
  constexpr std::chrono::hours widest_of_instants(6);
  const auto row = row_of(channel);
  if (!row) return;
  std::optional<Instant> last;  // Instants that are not too far apart tell what lies between.
  for (std::size_t k = 0; k < block.spans.size(); ++k) {
    const Span& span = block.spans[k];
    if (span.end < start_ || std::isnan(channel.value[k])) continue;
    if (span.end > until) break;
    const bool goes_on = channel.kind == Kind::instant && last && span.begin - *last <= widest_of_instants;
    mark(*row, goes_on ? Span{*last, span.begin} : span);
    last = span.begin;
  }
}

void LoggedHours::add(const Readings& log, const Knowledge& knowledge) {
  const Instant until = knowledge.hindsight ? Instant::max() : knowledge.as_of;
  for (const Block& block : log.blocks)
    for (const Channel& channel : block.channels) add_channel(block, channel, until);
}

bool LoggedHours::cover(const Span& span) const {
  const long first = index_of(span.begin);
  const long past = index_of(span.end - std::chrono::seconds(1)) + 1;
  const auto tells = [&](const std::vector<bool>& row) {
    if (first < 0 || past > static_cast<long>(row.size())) return false;
    return std::find(row.begin() + first, row.begin() + past, false) == row.begin() + past;
  };
  return std::ranges::all_of(logged_, tells);
}

}  // namespace graftcast
