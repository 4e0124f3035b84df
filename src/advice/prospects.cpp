#include "prospects.hpp"

#include <algorithm>

namespace graftcast {

namespace {

bool any_has(std::span<const ComingDay> coming, DayFlag flag) {
  return std::ranges::any_of(coming, [&](const ComingDay& day) { return has(day.flags, flag); });
}

/// Weather in which bagged bare wood moulds.
bool is_mild_and_damp(const Season& season) {
  const MouldDay& mould = season.models.mould_day;
  double warm_hours = 0, humidity_pct = 0;
  for (std::size_t hour = season.now(); hour < season.horizon(); ++hour) {
    const double air_c = season.outlook.weather[Variable::air_temperature].value[hour];
    warm_hours += air_c >= mould.low_c && air_c <= mould.high_c ? 1 : 0;
    humidity_pct += season.outlook.weather[Variable::relative_humidity].value[hour];
  }
  const auto hours = static_cast<double>(season.horizon() - season.now());
  return hours > 0 && warm_hours / hours * 24 >= mould.hours &&
         humidity_pct / hours / 100 >= mould.damp_air_share;
}

}  // namespace

Prospects prospects_ahead(const Season& season, const UnionNow& now, Stage stage,
                          std::span<const ComingDay> coming) {
  Prospects prospects;
  prospects.stage = stage;
  prospects.bud_clock = weighted_mean(now.states.bud_clock, now.weights);
  prospects.hot = any_has(coming, DayFlag::heat);
  prospects.cold = any_has(coming, DayFlag::cold);
  prospects.windy = any_has(coming, DayFlag::wind);
  prospects.mild_and_damp = is_mild_and_damp(season);
  return prospects;
}

}  // namespace graftcast
