#include "ensemble/counterfactual.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "graftcast/air.hpp"
#include "graftcast/convection.hpp"
#include "plant/cover_parts.hpp"

namespace graftcast {

namespace {

constexpr double never_c = -1e9;        // no hour is as cold
constexpr double never_pushes = 1e300;  // degree-days that no season brings together

/// The past in the open with air of at least `humidity_share`.
Ambient damp_ambient(const Ambient& past, double humidity_share) {
  Ambient damp = past;
  for (Eigen::Index hour = 0; hour < damp.air_c.cols(); ++hour) {
    for (Eigen::Index row = 0; row < damp.air_c.rows(); ++row) {
      const double saturated_kpa = raw::saturation_vapour_pressure_kpa(damp.air_c(row, hour));
      damp.vapour_kpa(row, hour) = std::max(damp.vapour_kpa(row, hour), humidity_share * saturated_kpa);
    }
  }
  return damp;
}

/// Boundary layers are thicker where the wind is weaker: nowhere thinner than in `wind_m_s`.
void calm(ScionClimate& climate, const Ambient& ambient, double diameter_m, double wind_m_s) {
  for (Eigen::Index hour = 0; hour < climate.boundary_mol.cols(); ++hour) {
    const double pressure_kpa = ambient.pressure_kpa[static_cast<std::size_t>(hour)];
    for (Eigen::Index row = 0; row < climate.boundary_mol.rows(); ++row) {
      const double exchange_w_m2_k = raw::cylinder_heat_transfer_w_m2_k(
          wind_m_s, diameter_m, static_cast<double>(climate.surround_c(row, hour)), pressure_kpa);
      float& boundary_mol = climate.boundary_mol(row, hour);
      boundary_mol =
          std::min(boundary_mol, static_cast<float>(raw::vapour_conductance_mol_m2_s(exchange_w_m2_k)));
    }
  }
}

/// Lethal doses an hour at the temperature at which callus of the species grows best.
double harmless_heat_per_hour(const Species& species, const HeatConstants& heat) {
  const double above_k = species.callus_optimum_c - heat.reference_c;
  return 6.0 * std::exp(above_k * std::numbers::ln10 / heat.slope_k) * heat_factor(heat, species);
}

}  // namespace

std::string_view factor_name(Factor factor) {
  constexpr std::array<std::string_view, factor_count> names{
      "heat",      "dry_air", "wind",        "cover_sun",  "missing_cover",
      "dry_stock", "cold",    "slow_callus", "early_push", "match"};
  return names[static_cast<std::size_t>(factor)];
}

Setting with_usual_protection(const GraftCase& graft, Setting setting, const Models& models) {
  const Method& method = *graft.method;
  const Wrap& usual = models.wraps.at(method.usual_wrap);
  if (models.wraps.at(setting.wrap).bud_bare && !usual.bud_bare) setting.wrap = method.usual_wrap;
  if (usual.tip_sealed == TipSeal::yes) setting.tip_open = false;
  if (usual.cut_edges_sealed) setting.edges_open = false;
  const bool evergreen = graft.species->growth == LeafHabit::evergreen;
  const std::string& usual_cover = evergreen ? method.usual_cover_evergreen : method.usual_cover;
  const auto kept = [&](const std::string& cover) { return cover_optics(cover, models).vapour_kept; };
  if (kept(setting.cover) < kept(usual_cover)) setting.cover = usual_cover;
  return setting;
}

HarmlessClimates::HarmlessClimates(const Season& season)
    : season_(season),
      humidity_share_(season.models.why.harmless_humidity_share),
      wind_m_s_(season.models.why.harmless_wind_m_s),
      damp_(damp_ambient(season.past, humidity_share_)),
      damp_climates_(damp_, 0, damp_.hours(), season.models) {}

const ScionClimate& HarmlessClimates::with_any_wind(const Exposure& exposure, bool dry_air_as_it_was) const {
  return dry_air_as_it_was ? season_.past_climate(exposure) : *damp_climates_.of(exposure);
}

const ScionClimate& HarmlessClimates::of(Exposure exposure, bool dry_air_as_it_was,
                                         bool wind_as_it_was) const {
  if (!dry_air_as_it_was && exposure.spot.climate) {
    double& humidity_pct = exposure.spot.climate->relative_humidity_pct;
    humidity_pct = std::max(humidity_pct, 100 * humidity_share_);
  }
  // Within a cover the air stands still.
  if (wind_as_it_was || exposure.cover.wall) return with_any_wind(exposure, dry_air_as_it_was);
  Slot* slot = nullptr;
  {
    const std::scoped_lock lock(mutex_);
    auto& held = calm_[(dry_air_as_it_was ? "dry " : "damp ") + exposure.key()];
    if (!held) held = std::make_unique<Slot>();
    slot = held.get();
  }
  std::call_once(slot->once, [&] {
    slot->climate = with_any_wind(exposure, dry_air_as_it_was);
    calm(slot->climate, season_.past, exposure.diameter_m, wind_m_s_);
  });
  return slot->climate;
}

Counterfactuals::Counterfactuals(const GraftRun& run, const HarmlessClimates& climates, std::size_t end)
    : run_(run),
      climates_(climates),
      end_(std::clamp(end, run.begin(), std::max(run.begin(), run.season().now()))),
      watered_stress_(run.season().hours(), 1.0) {
  for (const Setting& setting : run.as_it_is().settings)
    protected_.push_back(with_usual_protection(run.graft(), setting, run.season().models));
}

const UnionMembers& Counterfactuals::members(const Setting& setting, const Factors& as_they_were) const {
  const bool pushes = has(as_they_were, Factor::early_push);
  const bool mismatched = has(as_they_were, Factor::match);
  const std::scoped_lock lock(mutex_);
  auto& held = members_[{setting.wrap, setting.tip_open, setting.edges_open, pushes, mismatched}];
  if (held.members() > 0) return held;
  held = union_members(run_.graft(), setting, run_.season().models, run_.season().quantiles);
  if (!pushes) held.bud_push_degree_days.setConstant(never_pushes);
  if (!mismatched) held.cambium_match.setOnes();
  return held;
}

std::vector<Stretch> Counterfactuals::stretches(const std::vector<Setting>& settings,
                                                const Factors& as_they_were) const {
  const Season& season = run_.season();
  std::vector<Stretch> result;
  for (std::size_t k = 0; k < settings.size(); ++k) {
    const std::size_t starts = std::max(begin(), k == 0 ? 0 : season.index_of(settings[k].from));
    const std::size_t ends =
        std::min(end_, k + 1 < settings.size() ? season.index_of(settings[k + 1].from) : end_);
    if (starts >= ends) continue;
    Exposure exposure = exposure_of(run_.graft(), settings[k], season.site, season.models);
    if (exposure.cover.wall && !has(as_they_were, Factor::cover_sun))
      exposure.cover.light_passed = exposure.cover.light_absorbed = 0;
    const bool closes =
        exposure.cover.vapour_kept > 0 && (k == 0 || settings[k - 1].cover != settings[k].cover);
    const ScionClimate& climate =
        climates_.of(exposure, has(as_they_were, Factor::dry_air), has(as_they_were, Factor::wind));
    result.push_back({starts, ends, &climate, 0, &members(settings[k], as_they_were), closes});
  }
  return result;
}

UnionStates Counterfactuals::through(const std::vector<Setting>& settings,
                                     std::span<const double> stock_stress, const Factors& as_they_were,
                                     std::span<const std::size_t> marks,
                                     std::vector<UnionStates>& at_marks) const {
  static const std::vector<ColdRow> no_frost_kills;
  const Season& season = run_.season();
  const Species& species = *run_.graft().species;
  UnionConstants constants = season.constants;
  constants.callus_at_optimum = !has(as_they_were, Factor::slow_callus);
  Drive drive;
  drive.stock_stress = has(as_they_were, Factor::dry_stock) ? stock_stress : watered_stress_;
  drive.daylight = season.daylight;
  drive.heat_factor = heat_factor(season.models.heat, species);
  drive.cold_rows = run_.graft().cold_rows;
  if (!has(as_they_were, Factor::heat))
    drive.heat_limit_per_hour = harmless_heat_per_hour(species, season.models.heat);
  if (!has(as_they_were, Factor::cold)) {
    constants.frost_callus_c = never_c;
    drive.cold_rows = &no_frost_kills;
  }
  const auto lived = stretches(settings, as_they_were);
  UnionStates states =
      fresh_states(static_cast<std::size_t>(season.quantiles.members()), run_.graft().first_water);
  run_union(constants, drive, lived, states, marks, at_marks);
  return states;
}

UnionStates Counterfactuals::states(const Factors& as_they_were) const {
  std::vector<UnionStates> none;
  const bool missing = has(as_they_were, Factor::missing_cover);
  return through(missing ? run_.as_it_is().settings : protected_, run_.as_it_is().stock_stress, as_they_were,
                 {}, none);
}

double Counterfactuals::loss(const Factors& as_they_were) const {
  return mean_loss(run_.limits(), states(as_they_were));
}

UnionStates Counterfactuals::under(const Treatment& treatment, std::span<const std::size_t> marks,
                                   std::vector<UnionStates>& at_marks) const {
  return through(treatment.settings, treatment.stock_stress, all_factors(), marks, at_marks);
}

std::pair<const ScionClimate*, Eigen::Index> Counterfactuals::climate_at(std::size_t hour) const {
  const Season& season = run_.season();
  const Setting& setting = run_.graft().setting_at(season.hour(hour));
  const Exposure exposure = exposure_of(run_.graft(), setting, season.site, season.models);
  return {&season.past_climate(exposure), static_cast<Eigen::Index>(hour)};
}

double mean_loss(const SurvivalLimits& limits, const UnionStates& states) {
  double sum = 0;
  const std::vector<double> alive = survival(limits, states);
  for (const double one : alive) sum += one;
  return std::clamp(1 - sum / static_cast<double>(alive.size()), 0.0, 1.0);
}

}  // namespace graftcast
