// The page from answers that are worked out already.

#include <cmath>
#include <utility>

#include <benchmark/benchmark.h>

#include "report/page.hpp"
#include "report/sample_reports.hpp"

namespace graftcast {
namespace {

GraftSince ninety_days(std::string id) {
  GraftSince graft = testing::sample_since().grafts.front();
  graft.id = std::move(id);
  graft.days.clear();
  for (int i = 0; i < 90 + page_outlook_days; ++i) {
    SinceDay day;
    day.day = testing::day_of_june(9) + std::chrono::days(i - 89);
    day.ahead = i >= 90;
    day.tissue_max_c = 28.3 + i % 7 * 2.1;
    day.air_max_c = 25.2 + i % 6;
    day.healing = day.healing_high = 0.0213 * i;
    day.healing_low = 0.0171 * i;
    day.water = day.water_high = 1 - 0.0021 * i;
    day.water_low = 1 - 0.0033 * i;
    if (i % 5 == 4) day.flags = {DayFlag::heat, DayFlag::drying};
    graft.days.push_back(std::move(day));
  }
  SinceHours hours;
  hours.start = std::chrono::floor<std::chrono::hours>(testing::june(9, 4)) - std::chrono::days(89);
  for (int i = 0; i < 24 * (90 + page_chart_days); ++i) {
    const double turn = std::sin(i % 24 / 24.0 * 6.28);
    hours.air_c.push_back(20 + 9 * turn);
    hours.tissue_c.push_back(24 + 14 * turn);
    hours.water.push_back(0.95 - 0.0001 * i + 0.02 * turn);
    hours.water_low.push_back(hours.water.back() - 0.05);
    hours.water_high.push_back(hours.water.back() + 0.03);
    hours.healing.push_back(0.0009 * i);
  }
  graft.hours = std::move(hours);
  return graft;
}

void page_of_sixty_grafts_over_ninety_days(benchmark::State& state) {
  PageContent content;
  for (int i = 0; i < 60; ++i) {
    const std::string id = "R" + std::to_string(i);
    content.morning.grafts.push_back(testing::sample_graft(id, static_cast<Urgency>(i % 4)));
    content.since.grafts.push_back(ninety_days(id));
    content.levels[id].lost_water = 0.79;
    content.levels[id].heat_limit_c = {34, 36, 38, 42, 45};
  }
  const ReportBasis basis = testing::sample_basis("page");
  std::size_t bytes = 0;
  for (auto _ : state) bytes = page_html(content, basis, {}).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(page_of_sixty_grafts_over_ninety_days)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace graftcast
