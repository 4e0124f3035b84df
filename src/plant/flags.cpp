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
  const auto& hazards = models.hazards;
  DayFlags flags;
  const Entry& heat = hazards.at("heat-day");
  const double allowance = day.warm_species ? heat.value("warm_species_k") : 0.0;
  if (day.tissue_max_c >= by_stage(heat, day.stage, "_c") + allowance) flags.push_back(DayFlag::heat);
  if (day.net_loss >= by_stage(hazards.at("drying-day"), day.stage, "_share_per_day"))
    flags.push_back(DayFlag::drying);
  if (day.tissue_min_c <= by_stage(hazards.at("cold-day"), day.stage, "_c")) flags.push_back(DayFlag::cold);
  if (day.mouldy_hours >= hazards.at("mould-day").value("hours")) flags.push_back(DayFlag::mould);
  if (day.union_unsealed && day.rain_mm >= hazards.at("soaked-day").value("rain_mm"))
    flags.push_back(DayFlag::soaked);
  if (day.gust_m_s >= gust_limit_m_s(hazards.at("wind-day"), day)) flags.push_back(DayFlag::wind);
  return flags;
}

}  // namespace graftcast
