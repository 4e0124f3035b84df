// Reading: thirty years of hours as a table, alone and taken through checks, gaps and merging.

#include <benchmark/benchmark.h>

#include "benchmark/invented_nursery.hpp"
#include "graftcast/site_weather.hpp"
#include "graftcast/table_reader.hpp"
#include "temporary_folder.hpp"

namespace {

using namespace graftcast;

constexpr int years = 30;
constexpr std::int64_t rows = 8766 * years;

/// A site folder whose log is the table.
struct LogOnDisk {
  testing::TemporaryFolder folder;
  std::filesystem::path file = folder.write("weather/log.csv", benchmarks::hourly_table(years));
  std::int64_t bytes = static_cast<std::int64_t>(std::filesystem::file_size(file));
};

const LogOnDisk& log_on_disk() {
  static const LogOnDisk log;
  return log;
}

void count_rows(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations() * rows);
  state.SetBytesProcessed(state.iterations() * log_on_disk().bytes);
}

void reading_a_table(benchmark::State& state) {
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  for (auto _ : state) benchmark::DoNotOptimize(read_table(log_on_disk().file, {}, site.location, clock));
  count_rows(state);
}
BENCHMARK(reading_a_table)->Unit(benchmark::kMillisecond);

void reading_checking_and_merging(benchmark::State& state) {
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  SourceSettings source;
  source.file = "weather/log.csv";
  const Knowledge knowledge{benchmarks::this_morning(), false};
  for (auto _ : state)
    benchmark::DoNotOptimize(
        assemble(log_on_disk().folder.path(), site.location, clock, {{source}}, knowledge));
  count_rows(state);
}
BENCHMARK(reading_checking_and_merging)->Unit(benchmark::kMillisecond);

}  // namespace
