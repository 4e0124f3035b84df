#pragma once
// One hour of one union: water, healing, buds, heat, cold and stores.
//
// Written once for Lanes of any width: the ensemble steps as many members at a time as the processor computes
// at once. All values are per member. Time step: 1 h.
//
// Symbols of the specification, in the names used here:
//   W water [share of the full store]          H healing [1 = callus bridge]
//   B bud_clock [1 = buds push]                Lf leaf_share [1 = first leaves full grown]
//   Q heat_dose [1 = median lethal]            R stores_spent [1 = median exhausted]
//   U joined, the share of vessels connected   Kst stock_water_stress (FAO-56 Ks) [0..1]

#include "plant/union_numbers.hpp"

namespace graftcast {

/// Physical constants shared by all members of one union; from models/union.json.
struct UnionConstants {
  double joining_width = 0;               ///< Width of the logistic of U in healing.
  double leaf_growth_supply = 0;          ///< How much the vessels grow with the leaves they feed.
  double frost_callus_c = 0;              ///< Below this, fresh callus freezes.
  double frost_setback_healing = 0;       ///< Healing left after that.
  double stock_floor = 0;                 ///< Share of the healing pace left with a dry stock.
  double match_floor = 0;                 ///< Share of the healing pace left without any cambium match.
  double leaf_closing_water = 0;          ///< Water at which stomata are shut.
  double leaf_closing_range = 0;          ///< ... and how far above it they are open.
  double leaf_conductance_night_mol = 0;  ///< mol m-2 s-1.
  double leaf_conductance_open_mol = 0;   ///< Added when open, mol m-2 s-1.
  double leaf_out_days = 0;               ///< Days from push to full leaves at the optimum.
  double leaf_water_floor = 0;            ///< Water below which young shoots shrivel.
  double leaf_water_range = 0;
  double shrivelled_kept = 0;  ///< Share of the leaves that is left after an hour of shrivelling.
  double connected_relief =
      0;  ///< A connected shoot wilts deep and refills overnight: reserve is W + this * U.
  bool callus_at_optimum = false;  ///< What if callus had grown as at the optimum at any temperature.
};

/// A member as the hours need it: what stays the same is worked out once, so that no hour divides by it
/// again.
template <class Real>
struct PreparedMember {
  PreparedMember(const UnionConstants& constant, const UnionMember<Real>& member);

  Real vascular_healing, callus_lower_c, callus_upper_c;
  Real per_callus_rise_k, per_callus_fall_k, rise_over_fall;
  Real healing_per_hour;  ///< At the optimum, with moisture and stock unhindered.
  Real stops_water, per_moisture_range;
  Real base_supply_per_day, joined_supply_per_day;  ///< The latter with the cambium that meets.
  Real bark_conductance_mol, bark_area_m2, bare_conductance_area, bare_area_m2;
  Real own_leaf_area_m2, shoot_leaf_area_m2;
  Real loss_per_mol_s;  ///< Turns mol/s into shares of the full store per day.
  Real bud_base_c, bud_clock_per_k_hour, stores_per_hour;
  Real heat_kept;           ///< Share of the dose that is left after an hour.
  Real heat_dose_per_rate;  ///< What an hour at a steady rate adds to it.
};

/// The hour's climate and stock.
template <class Real>
struct UnionHour {
  Real tissue_c;            ///< Ts.
  Real deficit_bark;        ///< Mole-fraction difference tissue to surroundings, >= 0.
  Real deficit_leaf;        ///< Mole-fraction difference leaf to surroundings, >= 0.
  Real boundary_mol;        ///< Boundary-layer conductance for vapour, mol m-2 s-1, > 0.
  Real heat_per_hour;       ///< Median lethal doses an hour at Ts (60 / t).
  Real respiration;         ///< Q10 factor at Ts, 1 at the reference temperature.
  Real stock_water_stress;  ///< Kst, 0..1.
  Real daylight;            ///< 1 by day, 0 by night.
};

/// `x` held between `low` and `high`.
template <class Real>
Real clamped(const Real& x, double low, double high) {
  return x.max(low).min(high);
}

/// Share of vessels connected: U = 1 / (1 + exp(-(H - Hm) / width)), Hm = (1 + Hv) / 2.
template <class Real>
Real joined_share(const UnionConstants& constant, const Real& vascular_healing, const Real& healing) {
  const Real distance = (0.5 * (1.0 + vascular_healing) - healing) * (1.0 / constant.joining_width);
  return 1.0 / (1.0 + distance.exp());
}

/// Callus response to temperature, 0..1: Yan & Hunt (1999) eq. 4 with a lower cardinal temperature; 0 outside
/// it. The cardinal temperatures must be ordered lower < optimum < upper.
template <class Real>
Real callus_rate(const PreparedMember<Real>& its, const Real& tissue_c) {
  const Real above = (tissue_c - its.callus_lower_c).max(0.0);
  const Real below = (its.callus_upper_c - tissue_c).max(0.0);
  // The floor keeps the power of zero at (nearly) zero without a branch.
  const Real power = ((above * its.per_callus_rise_k).max(1e-30).log() * its.rise_over_fall).exp();
  return below * its.per_callus_fall_k * power;
}

/// Conductance of a surface in series with its boundary layer.
template <class Real>
Real in_series(const Real& surface, const Real& boundary) {
  return surface * boundary / (surface + boundary);
}

/// Water lost at the present state, as share of the full store per day (l of the specification).
template <class Real>
Real water_loss_per_day(const UnionConstants& constant, const PreparedMember<Real>& its,
                        const UnionState<Real>& state, const UnionHour<Real>& hour, const Real& joined) {
  const Real opening = clamped<Real>(
      (state.water - constant.leaf_closing_water) * (1.0 / constant.leaf_closing_range), 0.0, 1.0);
  const Real leaf_conductance =
      constant.leaf_conductance_night_mol +
      hour.daylight * constant.leaf_conductance_open_mol * joined * hour.stock_water_stress * opening;
  const Real leaf_area = its.own_leaf_area_m2 + its.shoot_leaf_area_m2 * state.leaf_share;
  const Real bare_boundary = its.bare_area_m2 * hour.boundary_mol;
  const Real bare =
      its.bare_conductance_area * bare_boundary / (its.bare_conductance_area + bare_boundary).max(1e-300);
  const Real bark = in_series<Real>(its.bark_conductance_mol, hour.boundary_mol) * its.bark_area_m2;
  const Real leaves = in_series<Real>(leaf_conductance, hour.boundary_mol) * leaf_area;
  return ((bark + bare) * hour.deficit_bark + leaves * hour.deficit_leaf) * its.loss_per_mol_s;
}

/// Water supplied to an empty scion, as share of the full store per day (k of the specification).
template <class Real>
Real water_supply_per_day(const UnionConstants& constant, const PreparedMember<Real>& its,
                          const UnionState<Real>& state, const UnionHour<Real>& hour, const Real& joined) {
  const Real grown_vessels = 1.0 + constant.leaf_growth_supply * state.leaf_share * joined;
  return (its.base_supply_per_day + its.joined_supply_per_day * joined * grown_vessels) *
         hour.stock_water_stress;
}

/// The water budget of one hour, in shares of the full store: next = before + gained - lost.
template <class Real>
struct WaterStep {
  Real next, gained, lost;
};

/// dW/dt = k (1 - W) - l, exact over `step_days` for constant k and l, held within 0..1 (an empty store loses
/// no more, a full one takes no more).
template <class Real>
WaterStep<Real> step_water(const Real& water, const Real& supply_per_day, const Real& loss_per_day,
                           double step_days) {
  // (1 - exp(-k dt)) / k; below k dt = 1e-6 its series, which is exact to 1e-12 there.
  const Real k = supply_per_day * step_days;
  const Real fraction = (k > 1e-6).select((1.0 - (-k).exp()) / k.max(1e-6), 1.0 - 0.5 * k);
  const Real free = water + (supply_per_day * (1.0 - water) - loss_per_day) * fraction * step_days;
  const Real next = clamped<Real>(free, 0.0, 1.0);
  const Real lost = loss_per_day * step_days - (next - free).max(0.0);
  return {next, next - water + lost, lost};
}

inline constexpr double union_step_days = 1.0 / 24.0;

template <class Real>
PreparedMember<Real>::PreparedMember(const UnionConstants& constant, const UnionMember<Real>& member)
    : vascular_healing(member.vascular_healing),
      callus_lower_c(member.callus_lower_c),
      callus_upper_c(member.callus_upper_c),
      stops_water(member.stops_water),
      base_supply_per_day(member.base_supply_per_day),
      bark_conductance_mol(member.bark_conductance_mol),
      bark_area_m2(member.bark_area_m2),
      bare_conductance_area(member.bare_conductance_area),
      bare_area_m2(member.bare_area_m2),
      own_leaf_area_m2(member.own_leaf_area_m2),
      shoot_leaf_area_m2(member.shoot_leaf_area_m2),
      bud_base_c(member.bud_base_c) {
  const Real rise = member.callus_optimum_c - member.callus_lower_c;
  const Real fall = member.callus_upper_c - member.callus_optimum_c;
  per_callus_rise_k = 1.0 / rise;
  per_callus_fall_k = 1.0 / fall;
  rise_over_fall = rise / fall;
  healing_per_hour = (constant.match_floor + (1.0 - constant.match_floor) * member.cambium_match) /
                     member.bridge_days * union_step_days;
  per_moisture_range = 1.0 / (member.full_water - member.stops_water);
  joined_supply_per_day = member.joined_supply_per_day * member.cambium_match;
  loss_per_mol_s = 86400.0 / member.water_store_mol;
  bud_clock_per_k_hour = union_step_days / member.bud_push_degree_days;
  stores_per_hour = union_step_days / member.stores_days;
  // dQ/dt = 1/t - Q/tau, exact over the step.
  heat_kept = (-union_step_days / member.heat_recovery_days).exp();
  heat_dose_per_rate = 24.0 * member.heat_recovery_days * (1.0 - heat_kept);
}

/// Advances `state` by one hour.
template <class Real>
void step_union(const UnionConstants& constant, const PreparedMember<Real>& its, const UnionHour<Real>& hour,
                UnionState<Real>& state) {
  const Real joined = joined_share<Real>(constant, its.vascular_healing, state.healing);
  const Real rate = callus_rate<Real>(its, hour.tissue_c);

  const Real supply = water_supply_per_day(constant, its, state, hour, joined);
  const Real loss = water_loss_per_day(constant, its, state, hour, joined);
  const Real next_water = step_water<Real>(state.water, supply, loss, union_step_days).next;

  const Real moisture = clamped<Real>((state.water - its.stops_water) * its.per_moisture_range, 0.0, 1.0);
  const Real callus = constant.callus_at_optimum ? Real(Real::Ones()) : rate;
  const Real healed = callus * moisture *
                      (constant.stock_floor + (1.0 - constant.stock_floor) * hour.stock_water_stress) *
                      its.healing_per_hour;
  // Only young callus freezes back; what has joined has hardened.
  const auto frozen = hour.tissue_c < constant.frost_callus_c &&
                      state.healing > constant.frost_setback_healing && state.healing < its.vascular_healing;
  state.healing = frozen.select(Real::Constant(constant.frost_setback_healing), state.healing + healed);

  const Real growth =
      rate * (union_step_days / constant.leaf_out_days) *
      clamped<Real>((state.water - constant.leaf_water_floor) * (1.0 / constant.leaf_water_range), 0.0, 1.0);
  const Real grown = (state.bud_clock >= 1.0).select((state.leaf_share + growth).min(1.0), state.leaf_share);
  // Young shoots shrivel before the wood does.
  const Real shrivelled = state.leaf_share * constant.shrivelled_kept;
  state.leaf_share = (state.water < constant.leaf_water_floor).select(shrivelled, grown);
  state.bud_clock += (hour.tissue_c - its.bud_base_c).max(0.0) * its.bud_clock_per_k_hour;

  state.heat_dose = state.heat_dose * its.heat_kept + hour.heat_per_hour * its.heat_dose_per_rate;
  state.stores_spent += (1.0 - joined) * hour.respiration * its.stores_per_hour;

  state.water = next_water;
  state.lowest_reserve = state.lowest_reserve.min(next_water + constant.connected_relief * joined);
  state.highest_heat_dose = state.highest_heat_dose.max(state.heat_dose);
}

}  // namespace graftcast
