#include <cmath>
#include <map>

#include "weather/daily_to_hourly.hpp"

namespace graftcast {

namespace {

double* extreme_or_mean(Kind kind, double& minimum, double& maximum, double& mean) {
  if (kind == Kind::minimum) return &minimum;
  return kind == Kind::maximum ? &maximum : &mean;
}

/// Where a value of this quantity and kind goes.
double* place_in(DayReading& day, Quantity quantity, Kind kind) {
  switch (quantity) {
    case Quantity::air_temperature:
      return extreme_or_mean(kind, day.minimum_temperature_c, day.maximum_temperature_c,
                             day.mean_temperature_c);
    case Quantity::relative_humidity:
      return extreme_or_mean(kind, day.minimum_humidity_pct, day.maximum_humidity_pct, day.mean_humidity_pct);
    case Quantity::dew_point:
      return &day.dew_point_c;
    case Quantity::wind_speed:
      return &day.wind_speed_m_s;
    case Quantity::gust:
      return &day.gust_m_s;
    case Quantity::shortwave:
      return &day.shortwave_mj_m2;
    case Quantity::precipitation:
      return &day.precipitation_mm;
    case Quantity::pressure:
      return &day.pressure_kpa;
    case Quantity::cloud_cover:
      return &day.cloud_cover_pct;
  }
  return nullptr;
}

/// Means of radiation and rain as the sums that a day is known by.
double as_daily(const Channel& channel, const Span& span, double value) {
  if (channel.kind != Kind::mean) return value;
  const double length_s = static_cast<double>((span.end - span.begin).count());
  if (channel.quantity == Quantity::shortwave) return value * length_s * 1e-6;
  if (channel.quantity == Quantity::precipitation) return value * length_s / 3600.0;
  return value;
}

void take_block(std::map<LocalDay, DayReading>& days, const Block& block, const Clock& clock) {
  for (std::size_t k = 0; k < block.spans.size(); ++k) {
    const Span& span = block.spans[k];
    if (!is_daily(span)) continue;
    const LocalDay day = clock.day_of(span.begin + (span.end - span.begin) / 2);
    DayReading& reading = days[day];
    reading.day = day;
    for (const Channel& channel : block.channels) {
      if (std::isnan(channel.value[k])) continue;
      *place_in(reading, channel.quantity, channel.kind) = as_daily(channel, span, channel.value[k]);
    }
  }
}

}  // namespace

std::vector<DayReading> daily_readings(const Readings& readings, const Clock& clock) {
  std::map<LocalDay, DayReading> days;
  for (const Block& block : readings.blocks) take_block(days, block, clock);
  std::vector<DayReading> list;
  list.reserve(days.size());
  for (auto& [day, reading] : days) list.push_back(reading);
  return list;
}

}  // namespace graftcast
