// What a graft's charts are read against, from the models.

#include <string>

#include "ensemble/survival.hpp"
#include "report/page.hpp"

namespace graftcast {

PageLevels page_levels(const Season& season, const GraftRecord& graft) {
  const GraftCase of =
      graft_case(graft.row, graft.lines, season.site, season.clock, season.models, season.settings.as_of);
  const Entry& heat = season.models.hazards.at("heat-day");
  const Entry& cold = season.models.hazards.at("cold-day");
  const double allowance_k = of.species->word("climate") == "temperate" ? 0.0 : heat.value("warm_species_k");
  PageLevels levels;
  levels.stages = stage_limits(season.models, *of.species);
  levels.lost_water = survival_limits(of, season.models).lost_water;
  for (std::size_t i = 0; i < levels.heat_limit_c.size(); ++i) {
    const std::string by_stage = std::string(stage_name(static_cast<Stage>(i))) + "_c";
    levels.heat_limit_c.at(i) = heat.value(by_stage) + allowance_k;
    levels.cold_limit_c.at(i) = cold.value(by_stage);
  }
  return levels;
}

}  // namespace graftcast
