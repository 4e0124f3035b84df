// What a graft's charts are read against, from the models.

#include <string>

#include "ensemble/survival.hpp"
#include "report/page.hpp"

namespace graftcast {

PageLevels page_levels(const Season& season, const GraftRecord& graft) {
  const GraftCase of =
      graft_case(graft.row, graft.lines, season.site, season.clock, season.models, season.settings.as_of);
  const HeatDay& heat = season.models.heat_day;
  const double allowance_k = of.species->climate == HomeClimate::temperate ? 0.0 : heat.warm_species_k;
  PageLevels levels;
  levels.stages = stage_limits(season.models, *of.species);
  levels.lost_water = survival_limits(of, season.models).lost_water;
  levels.heat_limit_c = heat.by_stage();
  for (double& limit_c : levels.heat_limit_c) limit_c += allowance_k;
  levels.cold_limit_c = season.models.cold_day.by_stage();
  return levels;
}

}  // namespace graftcast
