// A whole morning: 60 days behind, 10 days of forecast, every action tried. Reading is not counted. The rows
// named `_BigO` are the slopes: time a graft, time a member.

#include <benchmark/benchmark.h>

#include "advice/morning.hpp"
#include "benchmark/invented_nursery.hpp"

namespace {

using namespace graftcast;

struct MorningSize {
  std::size_t rows;
  int count;
  int members = 64;
};

void run_mornings(benchmark::State& state, const MorningSize& size) {
  constexpr int threads = 2;
  const Models& models = benchmarks::published_models();
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  const HourlyWeather weather =
      benchmarks::fine_weather(site, benchmarks::days_behind + benchmarks::days_ahead);
  const std::vector<GraftRecord> grafts = benchmarks::nursery_grafts(size.rows, size.count);
  SeasonSettings settings;
  settings.as_of = benchmarks::this_morning();
  settings.members = size.members;
  for (auto _ : state) {
    const Season season(site, clock, models, weather, benchmarks::first_hour(), settings);
    benchmark::DoNotOptimize(morning(season, grafts, threads));
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(size.rows));
  state.SetComplexityN(state.range(0));
}

void morning_of_single_grafts(benchmark::State& state) {
  run_mornings(state, {static_cast<std::size_t>(state.range(0)), 1});
}
BENCHMARK(morning_of_single_grafts)
    ->RangeMultiplier(10)
    ->Range(10, 10'000)
    ->Complexity(benchmark::oN)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

void morning_of_ten_grafts_with_members(benchmark::State& state) {
  run_mornings(state, {10, 1, static_cast<int>(state.range(0))});
}
BENCHMARK(morning_of_ten_grafts_with_members)
    ->RangeMultiplier(4)
    ->Range(16, 4096)
    ->Complexity(benchmark::oN)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

void morning_of_batches_of_fifty(benchmark::State& state) {
  run_mornings(state, {static_cast<std::size_t>(state.range(0)), 50});
}
BENCHMARK(morning_of_batches_of_fifty)->Arg(2000)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
