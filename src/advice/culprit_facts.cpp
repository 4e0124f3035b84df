#include "culprit_facts.hpp"

#include <algorithm>

#include "ensemble/counterfactual.hpp"

namespace graftcast {

namespace {

template <class Of>
const WhyDay& most(const GraftWhy& graft, Of&& of) {
  return *std::ranges::max_element(graft.days, {}, of);
}

const std::string& cover_on(const GraftRun& run, LocalDay day) {
  return run.graft().setting_at(run.season().clock.noon_of(day)).cover;
}

/// Hot in the open, or by the sun on its cover: both are told of the hottest day.
template <class Fact>
Fact hottest(const GraftWhy& graft, const GraftRun& run) {
  const WhyDay& day = most(graft, &WhyDay::tissue_max_c);
  return {day.day, cover_on(run, day.day), day.tissue_max_c, day.air_max_c};
}

DryAir dry_air(const GraftWhy& graft) {
  const WhyDay& day = most(graft, &WhyDay::vpd_max_kpa);
  return {day.day, day.vpd_max_kpa, day.own_vpd_max_kpa,
          std::ranges::min(graft.days, {}, &WhyDay::water).water};
}

StrongWind strong_wind(const GraftWhy& graft) {
  const WhyDay& day = most(graft, &WhyDay::wind_max_m_s);
  return {day.day, day.wind_max_m_s};
}

LackOfCover lack_of_cover(const GraftRun& run) {
  const Setting& had = run.graft().settings.front();
  const Setting usual = with_usual_protection(run.graft(), had, run.season().models);
  LackOfCover lack;
  if (usual.wrap != had.wrap) {
    lack.wrap = had.wrap;
    lack.usual_wrap = usual.wrap;
  } else {
    lack.tip_open = had.tip_open;
    lack.edges_open = had.edges_open && !usual.edges_open;
  }
  if (usual.cover != had.cover) {
    lack.cover = had.cover;
    lack.usual_cover = usual.cover;
  }
  return lack;
}

ShortOfWater short_of_water(const GraftWhy& graft, const GraftRun& run) {
  const auto short_days =
      std::ranges::count_if(graft.days, [](const WhyDay& day) { return day.stock_stress_min < 1; });
  const WhyDay& day = most(graft, [](const WhyDay& d) { return -d.stock_stress_min; });
  return {static_cast<std::size_t>(short_days), graft.days.size(), day.day, day.stock_stress_min,
          run.graft().watering_assumed};
}

ColdTissue cold_tissue(const GraftWhy& graft) {
  const WhyDay& day = most(graft, [](const WhyDay& d) { return -d.tissue_min_c; });
  return {day.day, day.tissue_min_c, day.air_min_c};
}

SlowCallus slow_callus(const GraftWhy& graft, const GraftRun& run) {
  const Species& species = *run.graft().species;
  return {std::min(1.0, graft.healing), graft.age_days, species.bridge_days / run.graft().method->rate_factor,
          species.callus_optimum_c};
}

CulpritFact factor_fact(const GraftWhy& graft, const GraftRun& run, Factor factor) {
  switch (factor) {
    case Factor::heat:
      return hottest<HotTissue>(graft, run);
    case Factor::dry_air:
      return dry_air(graft);
    case Factor::wind:
      return strong_wind(graft);
    case Factor::cover_sun:
      return hottest<SunHeatedCover>(graft, run);
    case Factor::missing_cover:
      return lack_of_cover(run);
    case Factor::dry_stock:
      return short_of_water(graft, run);
    case Factor::cold:
      return cold_tissue(graft);
    case Factor::slow_callus:
      return slow_callus(graft, run);
    case Factor::early_push:
      return BudsAhead{graft.buds_moved_on.median, graft.drinking_from.median};
    default:
      return PoorMatch{run.graft().match_share, run.graft().match_one_side};
  }
}

}  // namespace

CulpritFact culprit_fact(const GraftWhy& graft, const GraftRun& run, Culprit culprit) {
  if (graft.days.empty()) return {};
  if (!culprit) return PlainFailure{graft.plain_failure, graft.method};
  return factor_fact(graft, run, *culprit);
}

}  // namespace graftcast
