// One union carried hour by hour. Items are hours times members.

#include <benchmark/benchmark.h>

#include "benchmark/invented_nursery.hpp"

namespace {

using namespace graftcast;

void hours_of_a_union(benchmark::State& state) {
  const Models& models = benchmarks::published_models();
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  const HourlyWeather weather = benchmarks::fine_weather(site, benchmarks::days_behind);
  const Ambient open_air =
      ambient_of(site.location, weather, 0, one_course(weather, 0, weather.size()), models.climate);
  GraftRow row = benchmarks::nursery_grafts(1, 1).front().row;
  const GraftCase graft = graft_case(row, {}, site, clock, models, weather.end());
  const Setting& setting = graft.settings.front();
  const ScionClimate climate = scion_climate(open_air, exposure_of(graft, setting, site, models), models);
  MemberQuantiles quantiles(1, static_cast<int>(state.range(0)));
  quantiles.set_match_shapes(models);
  const UnionMembers members = union_members(graft, setting, models, quantiles);
  const std::vector<double> unstressed(weather.size(), 1), daylight(weather.size(), 1);
  const Drive drive{unstressed, daylight, heat_factor(models.heat, *graft.species), graft.cold_rows};
  const Stretch whole{0, weather.size(), &climate, 0, &members, false};
  const UnionConstants constants = union_constants(models);
  std::vector<UnionStates> no_marks;
  for (auto _ : state) {
    UnionStates states = fresh_states(members.members());
    run_union(constants, drive, {&whole, 1}, states, {}, no_marks);
    benchmark::DoNotOptimize(states);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(weather.size()) * state.range(0));
}
BENCHMARK(hours_of_a_union)->Arg(8)->Arg(64)->Arg(512)->Unit(benchmark::kMicrosecond);

}  // namespace
