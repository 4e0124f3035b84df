// The table reader on arbitrary bytes: it reads or throws Error, and what it reads makes a series without a
// number that cannot be. The first byte chooses between headers and a column map, and the zone.

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "graftcast/error.hpp"
#include "weather/site_weather.hpp"
#include "weather/table_reader.hpp"
#include "weather/weather_days.hpp"

namespace {

using namespace graftcast;

SourceSettings settings_for(unsigned choice) {
  SourceSettings source;
  if ((choice & 1U) != 0) {
    source.columns = {{"time", {"t", "", "%d/%m/%Y %I:%M %p", {}}},
                      {"air_temperature", {"T", "degF", "", {"-99"}}},
                      {"precipitation", {"R", "inch", "", {}}},
                      {"wind_speed", {"W", "mph", "", {}}}};
  }
  if ((choice & 2U) != 0) source.time_zone = "+05:45";
  if ((choice & 4U) != 0) source.stamp = (choice & 8U) != 0 ? Stamp::end : Stamp::instant;
  source.as_forecast = (choice & 16U) != 0;
  return source;
}

/// Series over a few years at most, or a stamp of the year 9999 would make millions of hours.
bool is_short(const Readings& readings) {
  for (const Block& block : readings.blocks) {
    if (!block.spans.empty() &&
        block.spans.back().end - block.spans.front().begin > std::chrono::hours(24 * 400))
      return false;
  }
  return true;
}

void check(const SiteWeather& weather) {
  for (const auto& column : weather.hourly.columns) {
    if (column.value.size() != weather.hourly.size()) std::abort();
    for (std::size_t k = 0; k < column.value.size(); ++k) {
      const bool missing = column.origin[k] == Origin::missing;
      if (std::isnan(column.value[k]) != missing || (!missing && std::abs(column.value[k]) > 1e5))
        std::abort();
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Clock clock("Europe/Lisbon");
  const Location terrace{41.2, -7.5, 260};
  if (size == 0) return 0;
  const std::string_view text(reinterpret_cast<const char*>(data + 1), size - 1);
  try {
    Readings readings = read_table_text(text, "log.csv", settings_for(data[0]), terrace, clock);
    if (!is_short(readings)) return 0;
    std::vector<Readings> sources;
    sources.push_back(std::move(readings));
    const SiteWeather weather = assemble(std::move(sources), terrace, clock, {Instant{}, true});
    check(weather);
    weather_days(weather, terrace, clock, {DegreeDayMethod::hourly, Cutoff::horizontal, 5, 30});
  } catch (const DataError&) {
    return 0;  // The only thing a file's content may lead to.
  }
  return 0;
}
