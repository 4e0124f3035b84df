// What a year of kept forecasts costs each morning: a station's log and one answer of MET Norway a day.

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "benchmark/invented_nursery.hpp"
#include "services/cache_files.hpp"
#include "temporary_folder.hpp"
#include "weather/forecast_skill.hpp"

namespace {

using namespace graftcast;

/// An answer of the usual length: 60 hours one by one, then six-hourly up to ten days.
std::string met_answer(Hour made) {
  std::string entries;
  for (int lead = 1; lead <= 240; lead += lead < 60 ? 1 : 6) {
    const Hour hour = made + std::chrono::hours(lead);
    const int clock_h = static_cast<int>(hour.time_since_epoch().count() % 24);
    const double air_c = 15 - 6 * std::cos(2 * std::numbers::pi * (clock_h - 3) / 24);
    fmt::format_to(std::back_inserter(entries),
                   R"({}{{"time":"{}","data":{{"instant":{{"details":{{"air_pressure_at_sea_level":1015.0,)"
                   R"("air_temperature":{:.1f},"cloud_area_fraction":40.5,"relative_humidity":61.2,)"
                   R"("wind_from_direction":290.1,"wind_speed":2.1}}}},)"
                   R"("next_{}_hours":{{"summary":{{"symbol_code":"cloudy"}},)"
                   R"("details":{{"precipitation_amount":0.0}}}}}}}})",
                   entries.empty() ? "" : ",", utc_text(hour), air_c, lead < 60 ? 1 : 6);
  }
  return fmt::format(
      R"({{"type":"Feature","geometry":{{"type":"Point","coordinates":[0.45,40.95,110]}},)"
      R"("properties":{{"meta":{{"updated_at":"{}","units":{{"air_pressure_at_sea_level":"hPa",)"
      R"("air_temperature":"celsius","cloud_area_fraction":"%","precipitation_amount":"mm",)"
      R"("relative_humidity":"%","wind_from_direction":"degrees","wind_speed":"m/s"}}}},"timeseries":[{}]}}}})",
      utc_text(made), entries);
}

/// A site with a log of three years up to `now`, and a kept forecast of each of the `days` mornings before.
struct KeptSite {
  testing::TemporaryFolder folder;
  WeatherSettings settings;
  Site site = benchmarks::nursery_site();
  Clock clock{site.time_zone};
  Knowledge knowledge;

  explicit KeptSite(int days) {
    constexpr int years = 3;
    folder.write("weather/log.csv", benchmarks::hourly_table(years));
    SourceSettings log;
    log.file = "weather/log.csv";
    SourceSettings service;
    service.service = "met-norway";
    service.contact = "grower@example.org";
    settings.sources = {log, service};
    const Hour now = std::chrono::sys_days(std::chrono::year(1997) / 12 / 28) + std::chrono::hours(5);
    knowledge = {now, false};
    const CacheFiles cache(folder.path(), service);
    for (int day = 0; day < days; ++day) {
      const Hour made = now - std::chrono::hours(24 * day + 1);
      cache.keep(made, {"https://example.org", made, {200, {}, met_answer(made)}});
    }
  }
};

void assembling_with_kept_forecasts(benchmark::State& state) {
  const KeptSite kept(static_cast<int>(state.range(0)));
  for (auto _ : state)
    benchmark::DoNotOptimize(
        assemble(kept.folder.path(), kept.site.location, kept.clock, kept.settings, kept.knowledge));
}
BENCHMARK(assembling_with_kept_forecasts)->Arg(1)->Arg(10)->Arg(365)->Unit(benchmark::kMillisecond);

void errors_of_kept_forecasts(benchmark::State& state) {
  const KeptSite kept(static_cast<int>(state.range(0)));
  const SiteWeather weather =
      assemble(kept.folder.path(), kept.site.location, kept.clock, kept.settings, kept.knowledge);
  for (auto _ : state)
    benchmark::DoNotOptimize(kept_skill(kept.folder.path(), kept.site.location, kept.clock, kept.settings,
                                        weather, kept.knowledge));
}
BENCHMARK(errors_of_kept_forecasts)->Arg(1)->Arg(30)->Arg(365)->Unit(benchmark::kMillisecond);

}  // namespace
