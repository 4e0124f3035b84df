#include "plant/flags.hpp"

#include <array>

namespace graftcast {

namespace {

double at_stage(const LimitsByStage& limits, Stage stage) {
  return limits[static_cast<std::size_t>(stage)];
}

/// A shoot catches wind, a stake holds it.
double gust_limit_m_s(const WindDay& wind, const UnionDay& day) {
  return at_stage(wind.by_stage(), day.stage) * (1 - wind.shoot_share * day.shoot_share) *
         (day.staked ? wind.stake_factor : 1.0);
}

}  // namespace

std::string_view day_flag_name(DayFlag flag) {
  constexpr std::array<std::string_view, 6> names{"heat", "drying", "cold", "mould", "soaked", "wind"};
  return names.at(static_cast<std::size_t>(flag));
}

DayFlags day_flags(const UnionDay& day, const Models& models) {
  DayFlags flags;
  const double allowance_k = day.warm_species ? models.heat_day.warm_species_k : 0.0;
  if (day.tissue_max_c >= at_stage(models.heat_day.by_stage(), day.stage) + allowance_k)
    flags.push_back(DayFlag::heat);
  if (day.net_loss >= at_stage(models.drying_day.by_stage(), day.stage)) flags.push_back(DayFlag::drying);
  if (day.tissue_min_c <= at_stage(models.cold_day.by_stage(), day.stage)) flags.push_back(DayFlag::cold);
  if (day.mouldy_hours >= models.mould_day.hours) flags.push_back(DayFlag::mould);
  if (day.union_unsealed && day.rain_mm >= models.soaked_day.rain_mm) flags.push_back(DayFlag::soaked);
  if (day.gust_m_s >= gust_limit_m_s(models.wind_day, day)) flags.push_back(DayFlag::wind);
  return flags;
}

}  // namespace graftcast
