#include "plant/flags.hpp"

namespace graftcast {

namespace {

double by_stage(const Entry& hazard, Stage stage, const char* suffix) {
  return hazard.value(std::string(stage_name(stage)) + suffix);
}

/// A shoot catches wind, a stake holds it.
double gust_limit_m_s(const Entry& wind, const UnionDay& day) {
  return by_stage(wind, day.stage, "_m_s") * (1 - wind.value("shoot_share") * day.shoot_share) *
         (day.staked ? wind.value("stake_factor") : 1.0);
}

}  // namespace

std::vector<std::string> day_flags(const UnionDay& day, const Models& models) {
  const auto& hazards = models.hazards;
  std::vector<std::string> flags;
  const Entry& heat = hazards.at("heat-day");
  const double allowance = day.warm_species ? heat.value("warm_species_k") : 0.0;
  if (day.tissue_max_c >= by_stage(heat, day.stage, "_c") + allowance) flags.emplace_back("heat");
  if (day.net_loss >= by_stage(hazards.at("drying-day"), day.stage, "_share_per_day"))
    flags.emplace_back("drying");
  if (day.tissue_min_c <= by_stage(hazards.at("cold-day"), day.stage, "_c")) flags.emplace_back("cold");
  if (day.mouldy_hours >= hazards.at("mould-day").value("hours")) flags.emplace_back("mould");
  if (day.union_unsealed && day.rain_mm >= hazards.at("soaked-day").value("rain_mm"))
    flags.emplace_back("soaked");
  if (day.gust_m_s >= gust_limit_m_s(hazards.at("wind-day"), day)) flags.emplace_back("wind");
  return flags;
}

}  // namespace graftcast
