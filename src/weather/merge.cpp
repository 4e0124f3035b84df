#include "merge.hpp"

#include <algorithm>
#include <cmath>

#include "humidity.hpp"

namespace graftcast {

namespace {

struct Extent {
  Hour start;
  Hour end;
};

std::optional<Extent> extent_of(const std::vector<SourceHours>& sources) {
  std::optional<Extent> extent;
  for (const SourceHours& source : sources) {
    if (source.hours.size() == 0) continue;
    const Hour end = source.hours.hour(source.hours.size());
    if (!extent) extent = Extent{source.hours.start, end};
    extent->start = std::min(extent->start, source.hours.start);
    extent->end = std::max(extent->end, end);
  }
  return extent;
}

/// The hours of the only source there is.
QuantityHours with_source(QuantityHours hours) {
  for (auto& column : hours.columns) column.source.assign(hours.size(), 0);
  return hours;
}

/// Takes what `from` knows and `into` does not.
void take_missing(HourlyWeather::Column& into, std::size_t shift, const HourlyWeather::Column& from,
                  std::uint16_t source) {
  for (std::size_t k = 0; k < from.value.size(); ++k) {
    if (into.known(k + shift) || !from.known(k)) continue;
    into.value[k + shift] = from.value[k];
    into.origin[k + shift] = from.origin[k];
    into.source[k + shift] = source;
  }
}

/// Where humidity and temperature come from two sources, humidity that keeps the first one's vapour pressure.
void carry_over_humidity(QuantityHours& merged, const std::vector<SourceHours>& sources) {
  auto& humidity = merged[Quantity::relative_humidity];
  const auto& air = merged[Quantity::air_temperature];
  for (std::size_t k = 0; k < merged.size(); ++k) {
    if (!humidity.known(k) || !air.known(k)) continue;
    if (humidity.source[k] == air.source[k]) continue;
    const QuantityHours& own = sources[humidity.source[k]].hours;
    const auto index = static_cast<std::size_t>((merged.hour(k) - own.start).count());
    const double own_air_c = own[Quantity::air_temperature].value[index];
    if (std::isnan(own_air_c)) continue;
    humidity.value[k] = humidity_of(air.value[k], dew_point_of(own_air_c, humidity.value[k]));
  }
}

}  // namespace

void sort_by_trust(std::vector<SourceHours>& sources) {
  std::stable_sort(sources.begin(), sources.end(), [](const SourceHours& a, const SourceHours& b) {
    if (a.is_forecast != b.is_forecast) return b.is_forecast;
    return a.is_forecast && a.made_at > b.made_at;
  });
}

QuantityHours merge(std::vector<SourceHours>& sources) {
  const auto extent = extent_of(sources);
  if (!extent) return {};
  if (sources.size() == 1) return with_source(std::move(sources.front().hours));
  QuantityHours merged =
      unknown_hours(extent->start, static_cast<std::size_t>((extent->end - extent->start).count()));
  for (auto& column : merged.columns) column.source.assign(merged.size(), 0);
  for (std::size_t index = 0; index < sources.size(); ++index) {
    const QuantityHours& hours = sources[index].hours;
    if (hours.size() == 0) continue;
    const auto shift = static_cast<std::size_t>((hours.start - merged.start).count());
    for (std::size_t q = 0; q < quantity_count; ++q) {
      take_missing(merged.columns[q], shift, hours.columns[q], static_cast<std::uint16_t>(index));
    }
  }
  carry_over_humidity(merged, sources);
  return merged;
}

}  // namespace graftcast
