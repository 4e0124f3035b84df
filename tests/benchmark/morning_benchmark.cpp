// A whole morning: 60 days behind, 10 days of forecast, 64 members, every action tried. Reading is not
// counted.

#include <benchmark/benchmark.h>

#include "benchmark/invented_nursery.hpp"
#include "graftcast/morning.hpp"

namespace {

using namespace graftcast;

void run_mornings(benchmark::State& state, std::size_t rows, int count) {
  constexpr int threads = 2;
  const Models& models = benchmarks::published_models();
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  const HourlyWeather weather =
      benchmarks::fine_weather(site, benchmarks::days_behind + benchmarks::days_ahead);
  const std::vector<GraftRecord> grafts = benchmarks::nursery_grafts(rows, count);
  SeasonSettings settings;
  settings.as_of = benchmarks::this_morning();
  for (auto _ : state) {
    const Season season(site, clock, models, weather, benchmarks::first_hour(), settings);
    benchmark::DoNotOptimize(morning(season, grafts, threads));
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(rows));
}

void morning_of_single_grafts(benchmark::State& state) {
  run_mornings(state, static_cast<std::size_t>(state.range(0)), 1);
}
BENCHMARK(morning_of_single_grafts)
    ->Arg(10)
    ->Arg(100)
    ->Arg(1000)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

void morning_of_batches_of_fifty(benchmark::State& state) {
  run_mornings(state, static_cast<std::size_t>(state.range(0)), 50);
}
BENCHMARK(morning_of_batches_of_fifty)->Arg(2000)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
