// The climate at one place: weather split into beam, sky and evaporation, then the scion under its cover.
// Items are hours times courses: one for weather that has been, one a member for weather to come.

#include <benchmark/benchmark.h>

#include "benchmark/invented_nursery.hpp"

namespace {

using namespace graftcast;

/// Weather of `days` days in `courses` equal courses.
Ambient ambient(int days, Eigen::Index courses) {
  const Site site = benchmarks::nursery_site();
  const HourlyWeather weather = benchmarks::fine_weather(site, days);
  const WeatherArrays one = one_course(weather, 0, weather.size());
  const WeatherArrays many{one.air_c.replicate(courses, 1), one.vapour_kpa.replicate(courses, 1),
                           one.wind_m_s.replicate(courses, 1), one.global_w_m2.replicate(courses, 1)};
  return ambient_of(site.location, weather, 0, many, benchmarks::published_models().climate);
}

void scion_climate_of_a_place(benchmark::State& state, const char* cover, Organ organ) {
  constexpr int days = 21;
  const Models& models = benchmarks::published_models();
  const auto courses = static_cast<Eigen::Index>(state.range(0));
  const Ambient open_air = ambient(days, courses);
  Exposure exposure;
  exposure.spot = benchmarks::nursery_site().spots.at("bench");
  exposure.cover = cover_optics(models.covers.at(cover));
  exposure.organ = organ;
  exposure.bark_conductance_mol = 0.002;
  for (auto _ : state) benchmark::DoNotOptimize(scion_climate(open_air, exposure, models));
  state.SetItemsProcessed(state.iterations() * 24 * days * courses);
}
BENCHMARK_CAPTURE(scion_climate_of_a_place, open_stick, "none", Organ::stick)
    ->Arg(1)
    ->Arg(64)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(scion_climate_of_a_place, bagged_stick, "clear-bag", Organ::stick)
    ->Arg(1)
    ->Arg(64)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(scion_climate_of_a_place, open_bud, "none", Organ::bud)
    ->Arg(1)
    ->Arg(64)
    ->Unit(benchmark::kMicrosecond);

void open_air_of_a_site(benchmark::State& state) {
  const auto courses = static_cast<Eigen::Index>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(ambient(21, courses));
  state.SetItemsProcessed(state.iterations() * 24 * 21 * courses);
}
BENCHMARK(open_air_of_a_site)->Arg(1)->Arg(64)->Unit(benchmark::kMicrosecond);

}  // namespace
