#include "weather/resample.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "graftcast/sun.hpp"
#include "hour_sums.hpp"
#include "humidity.hpp"
#include "instant_curve.hpp"

namespace graftcast {

namespace {

const Channel* find_channel(const Block& block, Quantity quantity, Kind kind) {
  for (const Channel& channel : block.channels) {
    if (channel.quantity == quantity && channel.kind == kind) return &channel;
  }
  return nullptr;
}

/// Coarse instants of humidity as dew points, which run smoothly where relative humidity does not.
Block with_dew_points(const Block& block) {
  const Channel* const air = find_channel(block, Quantity::air_temperature, Kind::instant);
  const Channel* const humidity = find_channel(block, Quantity::relative_humidity, Kind::instant);
  if (air == nullptr || humidity == nullptr || usual_distance(block.spans) <= std::chrono::hours(1))
    return block;
  Block changed{block.spans, {}};
  for (const Channel& channel : block.channels) {
    if (channel.quantity != Quantity::relative_humidity) changed.channels.push_back(channel);
  }
  if (find_channel(block, Quantity::dew_point, Kind::instant) != nullptr) return changed;
  Channel dew{Quantity::dew_point, Kind::instant, {}};
  for (std::size_t k = 0; k < block.spans.size(); ++k) {
    dew.value.push_back(dew_point_of(air->value[k], humidity->value[k]));
  }
  changed.channels.push_back(std::move(dew));
  return changed;
}

bool is_used(const Channel& channel) {
  const bool extreme = channel.kind == Kind::minimum || channel.kind == Kind::maximum;
  return !extreme || channel.quantity == Quantity::gust;
}

/// From the first hour any reading touches to the last.
std::optional<Span> extent_of(const Readings& readings) {
  std::optional<Span> extent;
  for (const Block& block : readings.blocks) {
    for (const Span& span : block.spans) {
      if (is_daily(span)) continue;
      const Instant end = span.end == span.begin ? span.begin + std::chrono::hours(1) : span.end;
      if (!extent) extent = Span{span.begin, end};
      extent->begin = std::min(extent->begin, span.begin);
      extent->end = std::max(extent->end, end);
    }
  }
  return extent;
}

/// Mean over its interval that a reading tells: sums are divided by their length.
double mean_rate(const Channel& channel, const Span& span, double value) {
  if (channel.kind != Kind::sum) return value;
  const double length_s = static_cast<double>((span.end - span.begin).count());
  return channel.quantity == Quantity::shortwave ? value * 1e6 / length_s : value * 3600.0 / length_s;
}

/// Spreads the mean irradiance of a long interval as extraterrestrial radiation runs.
void spread_shortwave(HourSums& sums, const Span& span, double mean_w_m2, const Location& location) {
  const auto outside = [&](const Span& part) {
    return sun_period(part.begin, location.latitude_deg, location.longitude_deg, part.end - part.begin)
        .mean_extraterrestrial_w_m2;
  };
  double all = 0;
  sums.each_hour(span, [&](std::size_t, const Span& part) {
    all += outside(part) * static_cast<double>((part.end - part.begin).count());
  });
  const double mean_outside = all / static_cast<double>((span.end - span.begin).count());
  sums.each_hour(span, [&](std::size_t hour, const Span& part) {
    sums.add(hour, part, mean_outside > 0 ? mean_w_m2 * outside(part) / mean_outside : mean_w_m2);
    sums.mark_spread(hour);
  });
}

void add_interval(HourSums& sums, const Channel& channel, const Span& span, double value,
                  const Location& location) {
  const double mean = mean_rate(channel, span, value);
  const bool is_long = span.end - span.begin > std::chrono::hours(1);
  if (is_long && channel.quantity == Quantity::shortwave) {
    spread_shortwave(sums, span, mean, location);
    return;
  }
  sums.each_hour(span, [&](std::size_t hour, const Span& part) {
    sums.add(hour, part, mean);
    if (is_long) sums.mark_spread(hour);
  });
}

void write_maxima(QuantityHours& into, const HourSums& grid, const Block& block, const Channel& channel,
                  Origin origin) {
  auto& column = into[channel.quantity];
  for (std::size_t k = 0; k < block.spans.size(); ++k) {
    const double value = channel.value[k];
    if (std::isnan(value) || is_daily(block.spans[k])) continue;
    grid.each_hour(block.spans[k], [&](std::size_t hour, const Span&) {
      if (column.value[hour] >= value) return;  // False for NaN, so that the first one counts.
      column.value[hour] = value;
      column.origin[hour] = origin;
    });
  }
}

void add_intervals(HourSums& sums, const Block& block, const Channel& channel, const Location& location) {
  for (std::size_t k = 0; k < block.spans.size(); ++k) {
    const Span& span = block.spans[k];
    if (std::isnan(channel.value[k]) || span.end <= span.begin ||
        span.end - span.begin >= std::chrono::hours(20))
      continue;
    add_interval(sums, channel, span, channel.value[k], location);
  }
}

/// Every interval a full hour of the clock, as in most logs.
bool is_hourly(const Block& block) {
  return std::all_of(block.spans.begin(), block.spans.end(), [](const Span& span) {
    return span.end - span.begin == std::chrono::hours(1) &&
           std::chrono::floor<std::chrono::hours>(span.begin) == span.begin;
  });
}

/// Hours as they are: quicker, and exact to the last digit.
void copy_hours(QuantityHours& into, const Block& block, const Channel& channel, Origin origin) {
  auto& column = into[channel.quantity];
  for (std::size_t k = 0; k < block.spans.size(); ++k) {
    if (std::isnan(channel.value[k])) continue;
    const auto hour = static_cast<std::size_t>((block.spans[k].begin - into.start) / std::chrono::hours(1));
    column.value[hour] = mean_rate(channel, block.spans[k], channel.value[k]);
    column.origin[hour] = origin;
  }
}

/// The extremes of temperature that are given for stretches within the day, rising.
std::vector<StretchExtremes> stretch_extremes(const Readings& readings) {
  std::vector<StretchExtremes> all;
  for (const Block& block : readings.blocks) {
    const Channel* const least = find_channel(block, Quantity::air_temperature, Kind::minimum);
    const Channel* const greatest = find_channel(block, Quantity::air_temperature, Kind::maximum);
    if (least == nullptr && greatest == nullptr) continue;
    for (std::size_t k = 0; k < block.spans.size(); ++k) {
      if (is_daily(block.spans[k])) continue;
      all.push_back(
          {block.spans[k], least ? least->value[k] : unknown, greatest ? greatest->value[k] : unknown});
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const StretchExtremes& a, const StretchExtremes& b) {
    return a.span.begin < b.span.begin;
  });
  return all;
}

bool is_coarse_temperature(const Block& block, const Channel& channel) {
  return channel.kind == Kind::instant && channel.quantity == Quantity::air_temperature &&
         is_coarse(block.spans);
}

void write_channel(QuantityHours& into, HourSums& sums, const Block& block, const Channel& channel,
                   Origin origin, const Location& location) {
  if (channel.kind == Kind::maximum) {
    write_maxima(into, sums, block, channel, origin);
    return;
  }
  sums.clear();
  if (channel.kind == Kind::instant) {
    add_instants(sums, block.spans, channel);
  } else {
    add_intervals(sums, block, channel, location);
  }
  sums.write(into[channel.quantity], origin);
}

}  // namespace

QuantityHours unknown_hours(Hour start, std::size_t count) {
  QuantityHours empty;
  empty.start = start;
  for (auto& column : empty.columns) {
    column.value.assign(count, unknown);
    column.origin.assign(count, Origin::missing);
  }
  return empty;
}

QuantityHours resample(const Readings& readings, const Location& location) {
  const auto extent = extent_of(readings);
  if (!extent) return {};
  const Hour start = std::chrono::floor<std::chrono::hours>(extent->begin);
  const auto count =
      static_cast<std::size_t>((std::chrono::ceil<std::chrono::hours>(extent->end) - start).count());
  QuantityHours result = unknown_hours(start, count);
  HourSums sums(start, count);  // One for all channels: its arrays are large.
  const Origin origin = readings.is_forecast ? Origin::forecast : Origin::measured;
  for (const Block& given : readings.blocks) {
    std::optional<Block> changed;
    if (find_channel(given, Quantity::relative_humidity, Kind::instant) != nullptr)
      changed = with_dew_points(given);
    const Block& block = changed ? *changed : given;
    const bool hourly = is_hourly(block);
    for (const Channel& channel : block.channels) {
      if (!is_used(channel)) continue;
      if (hourly) {
        copy_hours(result, block, channel, origin);
      } else if (is_coarse_temperature(block, channel)) {
        sums.clear();
        add_coarse_temperatures(sums, block.spans, channel, stretch_extremes(readings), location);
        sums.write(result[channel.quantity], origin);
      } else {
        write_channel(result, sums, block, channel, origin, location);
      }
    }
  }
  return result;
}

}  // namespace graftcast
