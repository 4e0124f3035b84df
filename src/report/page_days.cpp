#include "page_days.hpp"

#include <algorithm>

namespace graftcast {

namespace {

ChartDay chart_day(const SinceDay& day, const PageLevels& levels) {
  ChartDay shown;
  shown.day = day.day;
  shown.ahead = day.ahead;
  shown.tissue_c = day.tissue_max_c;
  shown.air_c = day.air_max_c;
  shown.water = day.water;
  shown.water_low = day.water_low;
  shown.water_high = day.water_high;
  shown.healing = day.healing;
  shown.healing_low = day.healing_low;
  shown.healing_high = day.healing_high;
  shown.stage = stage_of(levels.stages, day.healing);
  shown.limit_c = levels.heat_limit_c.at(static_cast<std::size_t>(shown.stage));
  shown.coldest_c = day.tissue_min_c;
  shown.cold_limit_c = levels.cold_limit_c.at(static_cast<std::size_t>(shown.stage));
  shown.flags = day.flags;
  return shown;
}

/// `next` joined to `shown`: the worst of heat and water, the healing of the end.
void join(ChartDay& shown, const ChartDay& next) {
  ChartDay joined = next;
  joined.days = shown.days + 1;
  joined.tissue_c = std::max(shown.tissue_c, next.tissue_c);
  joined.air_c = std::max(shown.air_c, next.air_c);
  joined.limit_c = std::min(shown.limit_c, next.limit_c);
  joined.coldest_c = std::min(shown.coldest_c, next.coldest_c);
  joined.cold_limit_c = std::max(shown.cold_limit_c, next.cold_limit_c);
  joined.water = std::min(shown.water, next.water);
  joined.water_low = std::min(shown.water_low, next.water_low);
  joined.water_high = std::min(shown.water_high, next.water_high);
  for (const DayFlag flag : shown.flags)
    if (!has(joined.flags, flag)) joined.flags.push_back(flag);
  shown = std::move(joined);
}

}  // namespace

std::vector<ChartDay> chart_days(const GraftSince& graft, const PageLevels& levels, LocalDay today) {
  const LocalDay last = today + std::chrono::days(page_chart_days);
  const auto count = static_cast<std::size_t>(
      std::ranges::count_if(graft.days, [&](const SinceDay& d) { return d.day <= last; }));
  // Past and coming are joined apart, so that none is both: that may take one column more.
  const std::size_t together = count <= most_chart_days ? 1 : count / (most_chart_days - 1) + 1;
  std::vector<ChartDay> days;
  for (const SinceDay& day : graft.days) {
    if (day.day > last) break;
    ChartDay next = chart_day(day, levels);
    if (!days.empty() && days.back().ahead == next.ahead && days.back().days < static_cast<int>(together)) {
      join(days.back(), next);
    } else {
      days.push_back(std::move(next));
    }
  }
  return days;
}

std::size_t first_ahead(std::span<const ChartDay> days) {
  return static_cast<std::size_t>(std::ranges::find(days, true, &ChartDay::ahead) - days.begin());
}

}  // namespace graftcast
