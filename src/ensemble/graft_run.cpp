#include "ensemble/graft_run.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "graftcast/air.hpp"
#include "plant/cover_parts.hpp"

namespace graftcast {

namespace {

Stage stage_at(const StageLimits& limits, const UnionStates& states, std::span<const double> weights) {
  return stage_of(limits, weighted_mean(states.healing, weights));
}

/// Extremes of the tissue over some hours: those of each course or side, averaged.
struct TissueExtremes {
  double highest_c, lowest_c;
};
TissueExtremes tissue_extremes(const ScionClimate& climate, Eigen::Index first, Eigen::Index count) {
  const auto hours = climate.tissue_c.middleCols(first, count);
  return {hours.rowwise().maxCoeff().cast<double>().mean(), hours.rowwise().minCoeff().cast<double>().mean()};
}

}  // namespace

GraftRun::GraftRun(const Season& season, GraftCase graft, Start start)
    : season_(season),
      graft_(std::move(graft)),
      limits_(survival_limits(graft_, season.models)),
      stages_(stage_limits(season.models, *graft_.species)),
      begin_(start == Start::when_made ? season.index_of(graft_.grafted)
                                       : std::min(season.index_of(graft_.grafted), season.now())),
      heat_factor_(heat_factor(season.models.heat, *graft_.species)),
      warm_species_(graft_.species->climate != HomeClimate::temperate) {
  const StockWater stock = stock_of(graft_.settings, graft_.waterings);
  as_it_is_ = {graft_.settings, stock.stress};
  waterlogged_ = graft_.pot_litres.has_value() && stock.waterlogged;
  if (season.now() > begin_) depletion_now_ = stock.depletion[season.now() - 1];
}

Treatment GraftRun::changed(Instant when, const Setting& setting, bool watered,
                            std::optional<Instant> undone) const {
  Treatment treatment;
  for (const Setting& s : graft_.settings) {
    if (s.from <= when) treatment.settings.push_back(s);
  }
  treatment.settings.push_back(setting);
  treatment.settings.back().from = when;
  if (undone) {
    treatment.settings.push_back(graft_.settings.back());
    treatment.settings.back().from = *undone;
  }
  std::vector<Watering> waterings = graft_.waterings;
  if (watered) waterings.push_back({when, std::nullopt});
  treatment.stock_stress = stock_of(treatment.settings, waterings).stress;
  return treatment;
}

Treatment GraftRun::treated(std::vector<Setting> settings, std::span<const Instant> more) const {
  std::vector<Watering> waterings = graft_.waterings;
  for (const Instant when : more) waterings.push_back({when, std::nullopt});
  std::vector<double> stress = stock_of(settings, waterings).stress;
  return {std::move(settings), std::move(stress)};
}

StockWater GraftRun::stock_of(const std::vector<Setting>& settings,
                              std::span<const Watering> waterings) const {
  std::vector<StockHour> hours(season_.hours());
  const auto reached_by_rain = [&](const Setting& s) {
    const auto spot = season_.site.spots.find(s.spot);
    return spot == season_.site.spots.end() || spot->second.rain;
  };
  for (std::size_t k = 0; k < settings.size(); ++k) {
    const std::size_t from = k == 0 ? 0 : season_.index_of(settings[k].from);
    const std::size_t to = k + 1 < settings.size() ? season_.index_of(settings[k + 1].from) : hours.size();
    for (std::size_t i = from; i < to; ++i) {
      hours[i].et0_mm = season_.et0_mm[i];
      hours[i].full_head = settings[k].full_head;
      const auto& rain = season_.outlook.weather[Variable::precipitation];
      if (rain.known(i) && reached_by_rain(settings[k])) hours[i].rain_mm = rain.value[i];
    }
  }
  for (const Watering& watering : waterings) {
    const std::size_t at = season_.index_of(watering.when);
    if (at >= hours.size()) continue;
    hours[at].watered_full = hours[at].watered_full || !watering.litres;
    hours[at].watered_l += watering.litres.value_or(0);
  }
  if (graft_.watering_assumed) {
    const auto step = static_cast<std::size_t>(24 * season_.models.stock.watering_assumed_days);
    for (std::size_t at = begin_; at < hours.size(); at += step) hours[at].watered_full = true;
  }
  // Before the union exists its stock is taken as full: the run starts there.
  const auto lived = std::span(hours).subspan(begin_);
  StockWater water = stock_water(season_.models.stock, graft_.pot_litres,
                                 lived.first(season_.now() - std::min(begin_, season_.now())));
  const bool waterlogged = water.waterlogged;
  water = stock_water(season_.models.stock, graft_.pot_litres, lived);
  water.waterlogged = waterlogged;
  water.stress.insert(water.stress.begin(), begin_, 1.0);
  water.depletion.insert(water.depletion.begin(), begin_, 0.0);
  return water;
}

const UnionMembers& GraftRun::members(const Setting& setting) const {
  auto& held = members_[{setting.wrap, setting.tip_open, setting.edges_open}];
  if (held.members() == 0) {
    held =
        union_members(graft_, setting, season_.models, own_quantiles_ ? *own_quantiles_ : season_.quantiles);
  }
  return held;
}

GraftRun::Stretches GraftRun::stretches(const Treatment& treatment, std::size_t from, std::size_t to) const {
  Stretches result;
  const auto& settings = treatment.settings;
  for (std::size_t k = 0; k < settings.size(); ++k) {
    const std::size_t starts = k == 0 ? 0 : season_.index_of(settings[k].from);
    const std::size_t ends =
        k + 1 < settings.size() ? season_.index_of(settings[k + 1].from) : season_.hours();
    const Exposure exposure = exposure_of(graft_, settings[k], season_.site, season_.models);
    const bool closes =
        exposure.cover.vapour_kept > 0 && (k == 0 || settings[k - 1].cover != settings[k].cover);
    const auto add = [&](std::size_t low, std::size_t high, std::size_t climate_begin, auto&& climate) {
      const std::size_t a = std::max({low, starts, from});
      const std::size_t b = std::min({high, ends, to});
      if (a >= b) return;
      result.in_order.push_back(
          {a, b, climate(), climate_begin, &members(settings[k]), closes && a == std::max(starts, begin_)});
    };
    const auto held = [&](std::shared_ptr<const ScionClimate> climate) {
      return result.held.emplace_back(std::move(climate)).get();
    };
    add(0, season_.now(), 0, [&] { return &season_.past_climate(exposure); });
    add(season_.now(), season_.horizon(), season_.now(),
        [&] { return held(season_.near_climate(exposure)); });
    add(season_.horizon(), season_.hours(), season_.horizon(),
        [&] { return held(season_.far_climate(exposure)); });
  }
  return result;
}

void GraftRun::run(const Treatment& treatment, std::size_t from, std::size_t to, UnionStates& states,
                   std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks) const {
  const Drive drive{treatment.stock_stress, season_.daylight, heat_factor_, graft_.cold_rows};
  const Stretches stretches_of_run = stretches(treatment, from, to);
  run_union(season_.constants, drive, stretches_of_run.in_order, states, marks, at_marks);
}

UnionStates GraftRun::fresh() const {
  return fresh_states(static_cast<std::size_t>(season_.quantiles.members()), graft_.first_water);
}

std::vector<double> GraftRun::tissue_c(const Treatment& treatment, std::size_t from, std::size_t to) const {
  std::vector<double> mean_c;
  const Stretches of_hours = stretches(treatment, std::max(from, begin_), to);
  for (const Stretch& stretch : of_hours.in_order) {
    for (std::size_t hour = stretch.begin; hour < stretch.end; ++hour) {
      const auto column = static_cast<Eigen::Index>(hour - stretch.climate_begin);
      mean_c.push_back(stretch.climate->tissue_c.col(column).cast<double>().mean());
    }
  }
  return mean_c;
}

UnionDay GraftRun::day(const Treatment& treatment, const DaySpan& span, const UnionStates& before,
                       const UnionStates& after, std::span<const double> weights) const {
  UnionDay day;
  day.day = span.day;
  day.warm_species = warm_species_;
  day.stage = stage_at(stages_, before, weights);
  day.net_loss = weighted_mean(before.water, weights) - weighted_mean(after.water, weights);
  day.staked = graft_.staked && season_.hour(span.begin) >= *graft_.staked;
  day.shoot_share = weighted_mean(after.leaf_share, weights);
  day.tissue_max_c = day.air_max_c = -273;
  day.tissue_min_c = day.air_min_c = 273;
  const MouldDay& mould = season_.models.mould_day;
  const auto& weather = season_.outlook.weather;
  const Stretches of_day = stretches(treatment, std::max(span.begin, begin_), span.end);
  for (const Stretch& stretch : of_day.in_order) {
    const auto first = static_cast<Eigen::Index>(stretch.begin - stretch.climate_begin);
    const auto count = static_cast<Eigen::Index>(stretch.end - stretch.begin);
    const TissueExtremes tissue = tissue_extremes(*stretch.climate, first, count);
    day.tissue_max_c = std::max(day.tissue_max_c, tissue.highest_c);
    day.tissue_min_c = std::min(day.tissue_min_c, tissue.lowest_c);
    const Setting& setting = setting_at(treatment.settings, season_.hour(stretch.begin));
    const CoverOptics cover = cover_optics(setting.cover, season_.models);
    const auto spot = season_.site.spots.find(setting.spot);
    const bool open_to_rain = !cover.wall && (spot == season_.site.spots.end() || spot->second.rain);
    day.union_unsealed = day.union_unsealed || (setting.wrap == "none" && day.stage < Stage::drinking);
    for (std::size_t hour = stretch.begin; hour < stretch.end; ++hour) {
      const auto column = static_cast<Eigen::Index>(hour - stretch.climate_begin);
      const double air_c = weather[Variable::air_temperature].value[hour];
      const double humidity = weather[Variable::relative_humidity].value[hour];
      day.air_max_c = std::max(day.air_max_c, air_c);
      day.air_min_c = std::min(day.air_min_c, air_c);
      day.vpd_max_kpa =
          std::max(day.vpd_max_kpa, raw::saturation_vapour_pressure_kpa(air_c) * (1.0 - humidity / 100.0));
      const double inside_c = stretch.climate->surround_c.col(column).cast<double>().mean();
      const bool wet = cover.vapour_kept >= mould.wet_share;
      if (wet && inside_c >= mould.low_c && inside_c <= mould.high_c) day.mouldy_hours += 1;
      if (open_to_rain && weather[Variable::precipitation].known(hour)) {
        day.rain_mm += weather[Variable::precipitation].value[hour];
      }
      if (weather[Variable::gust].known(hour)) {
        day.gust_m_s = std::max(day.gust_m_s, weather[Variable::gust].value[hour]);
      }
    }
  }
  return day;
}

}  // namespace graftcast
