#include "ensemble/members.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "ensemble/distributions.hpp"
#include "graftcast/error.hpp"

namespace graftcast {

namespace {

constexpr double grams_per_mol = 18.015;
constexpr double truncation_sd = 2.0;  // a range of +-x in the sheet means two standard deviations
constexpr double match_limit_sd = 6.0;

Eigen::ArrayXd latin_uniform(std::uint64_t seed, std::uint64_t dimension, int members) {
  std::vector<std::pair<std::uint64_t, int>> order;
  order.reserve(static_cast<std::size_t>(members));
  for (int i = 0; i < members; ++i) {
    order.emplace_back(random_bits(seed, Purpose::stratum, dimension, static_cast<std::uint64_t>(i)), i);
  }
  std::sort(order.begin(), order.end());
  Eigen::ArrayXd uniform(members);
  for (int rank = 0; rank < members; ++rank) {
    const int member = order[static_cast<std::size_t>(rank)].second;
    const double within =
        random_uniform(seed, Purpose::within_stratum, dimension, static_cast<std::uint64_t>(member));
    uniform[member] = (rank + within) / members;
  }
  return uniform;
}

Eigen::ArrayXd mapped(const Eigen::ArrayXd& uniform, auto&& quantile) {
  Eigen::ArrayXd result(uniform.size());
  for (Eigen::Index i = 0; i < uniform.size(); ++i) result[i] = quantile(uniform[i]);
  return result;
}

/// A parameter's value in each member, by the spread models/ gives it.
Eigen::ArrayXd spread(const Parameter& parameter, const Eigen::ArrayXd& z) {
  switch (parameter.spread) {
    case Parameter::Spread::normal:
      return (parameter.value + parameter.sd * z).max(parameter.low).min(parameter.high);
    case Parameter::Spread::lognormal:
      return parameter.value * (parameter.sd * z).exp();
    case Parameter::Spread::none:
      break;
  }
  return Eigen::ArrayXd::Constant(z.size(), parameter.value);
}

struct Cardinals {
  Eigen::ArrayXd lower, optimum, upper;
};

/// Cardinal temperatures kept apart as model.md asks: the optimum at least 6 K above the lower, the upper 4 K
/// above it.
Cardinals cardinals(const Species& species, const MemberQuantiles& q) {
  Cardinals c;
  c.lower = spread(species.callus_lower_c, q.normal(Uncertain::callus_lower));
  c.optimum = spread(species.callus_optimum_c, q.normal(Uncertain::callus_optimum)).max(c.lower + 6.0);
  c.upper = spread(species.callus_upper_c, q.normal(Uncertain::callus_upper)).max(c.optimum + 4.0);
  return c;
}

/// What the wrap leaves open, as sum of conductance times area [mol/s], and the area [m2].
struct BareSurface {
  Eigen::ArrayXd conductance_area;
  double area_m2 = 0;
};

BareSurface bare_surface(const GraftCase& graft, const Setting& setting, const Models& models,
                         const MemberQuantiles& q) {
  const WaterConstants& water = models.water;
  BareSurface bare{Eigen::ArrayXd::Zero(q.members()), 0};
  const auto add = [&](double area_cm2, const Eigen::ArrayXd& conductance_mmol) {
    bare.conductance_area += conductance_mmol * (1e-3 * area_cm2 * 1e-4);
    bare.area_m2 += area_cm2 * 1e-4;
  };
  const auto same = [&](double value) { return Eigen::ArrayXd::Constant(q.members(), value); };
  if (models.wraps.at(setting.wrap).bud_bare) {
    add(graft.buds * water.bare_bud_area_cm2,
        spread(water.bare_bud_conductance_mmol, q.normal(Uncertain::bare_bud)));
  }
  if (setting.tip_open) add(water.open_tip_area_cm2, same(water.open_tip_conductance_mmol));
  if (setting.edges_open) add(water.chip_edge_area_cm2, same(water.chip_edge_conductance_mmol));
  return bare;
}

Eigen::ArrayXd bark_conductance_mol(const GraftCase& graft, const Setting& setting, const Models& models,
                                    const MemberQuantiles& q) {
  const Eigen::ArrayXd bark =
      spread(graft.scion_state->bark_conductance_mmol, q.normal(Uncertain::bark_conductance));
  const Eigen::ArrayXd wrap =
      spread(models.wraps.at(setting.wrap).conductance_factor, q.normal(Uncertain::wrap_factor));
  return bark * wrap * 1e-3;
}

Eigen::ArrayXd match_shares(const GraftCase& graft, const MemberQuantiles& q) {
  if (graft.match_share) return Eigen::ArrayXd::Constant(q.members(), *graft.match_share);
  return q.match(graft.match_one_side);
}

double shoot_leaf_area_m2(const GraftCase& graft, const WaterConstants& water) {
  return (graft.organ == Organ::bud ? water.shoot_leaf_area_bud_cm2 : water.shoot_leaf_area_stick_cm2) * 1e-4;
}

}  // namespace

MemberQuantiles::MemberQuantiles(std::uint64_t seed, int members)
    : members_((members + member_multiple - 1) / member_multiple * member_multiple) {
  if (members < 1 || members > 65536) {
    throw RangeError(fmt::format("{} ensemble members", members), "1 to 65536");
  }
  for (std::size_t dimension = 0; dimension < uncertain_count; ++dimension) {
    uniform_[dimension] = latin_uniform(seed, dimension, members_);
    normal_[dimension] =
        mapped(uniform_[dimension], [](double u) { return truncated_normal_quantile(u, truncation_sd); });
  }
}

void MemberQuantiles::set_match_shapes(const Models& models) {
  const HealingConstants& healing = models.healing;
  match_shapes_ = {healing.match_both_a, healing.match_both_b, healing.match_one_a, healing.match_one_b};
  map_match();
}

void MemberQuantiles::map_match() {
  const auto& u = uniform(Uncertain::cambium_match);
  const auto of = [&](double a, double b) {
    return mapped(u, [&](double p) { return beta_quantile(p, a, b); });
  };
  match_both_ = of(match_shapes_.both_a, match_shapes_.both_b);
  match_one_ = of(match_shapes_.one_a, match_shapes_.one_b);
}

MemberQuantiles MemberQuantiles::redrawn(std::span<const std::size_t> ancestors,
                                         std::span<const double> weights, double shrinkage,
                                         std::uint64_t seed, std::uint64_t key, std::uint64_t round) const {
  const Eigen::Map<const Eigen::ArrayXd> w(weights.data(), members_);
  const double jitter = std::sqrt(1 - shrinkage * shrinkage);
  MemberQuantiles next;
  next.members_ = members_;
  next.match_shapes_ = match_shapes_;
  for (std::size_t dimension = 0; dimension < uncertain_count; ++dimension) {
    const bool match = dimension == static_cast<std::size_t>(Uncertain::cambium_match);
    // The match maps its whole range by its own shape; the others are cut at two standard deviations.
    const double limit = match ? match_limit_sd : truncation_sd;
    const Eigen::ArrayXd z = match ? mapped(uniform_[dimension], normal_quantile) : normal_[dimension];
    const double mean = (w * z).sum() / w.sum();
    const double sd = std::sqrt((w * (z - mean).square()).sum() / w.sum());
    const std::uint64_t stream = random_bits(seed, Purpose::jitter, key, round * uncertain_count + dimension);
    Eigen::ArrayXd drawn(members_);
    for (int i = 0; i < members_; ++i) {
      const double noise =
          normal_quantile(random_uniform(stream, Purpose::jitter, static_cast<std::uint64_t>(i)));
      const auto ancestor = static_cast<Eigen::Index>(ancestors[static_cast<std::size_t>(i)]);
      drawn[i] = mean + shrinkage * (z[ancestor] - mean) + jitter * sd * noise;
    }
    next.normal_[dimension] = drawn.max(-limit).min(limit);
    next.uniform_[dimension] = mapped(next.normal_[dimension], normal_cdf);
  }
  next.map_match();
  return next;
}

UnionMembers union_members(const GraftCase& graft, const Setting& setting, const Models& models,
                           const MemberQuantiles& q) {
  const Species& species = *graft.species;
  const WaterConstants& water = models.water;
  const bool bud = graft.organ == Organ::bud;
  const Cardinals cardinal = cardinals(species, q);
  // Bridge and vessels share one pace: a slow callus joins its vessels late.
  const Eigen::ArrayXd bridge_days = spread(species.bridge_days, q.normal(Uncertain::pace)) /
                                     (graft.method->rate_factor * std::exp(graft.shifts.pace));
  const Eigen::ArrayXd joined_supply =
      spread(bud ? water.joined_supply_bud_per_day : water.joined_supply_stick_per_day,
             q.normal(Uncertain::joined_supply));
  // A scion still on its own roots drinks through them from the first day.
  const bool rooted = graft.method->scion_stays_rooted;
  const Eigen::ArrayXd base_supply =
      rooted ? joined_supply
             : spread(bud ? water.base_supply_bud_per_day : water.base_supply_stick_per_day,
                      q.normal(Uncertain::base_supply));
  const double drying = std::exp(graft.shifts.drying);
  const Eigen::ArrayXd bark = drying * bark_conductance_mol(graft, setting, models, q);
  BareSurface bare = bare_surface(graft, setting, models, q);
  bare.conductance_area *= drying;
  const Eigen::ArrayXd match = match_shares(graft, q);
  const Eigen::ArrayXd bud_push = spread(species.bud_push_degree_days, q.normal(Uncertain::bud_push));
  const Eigen::ArrayXd recovery = spread(models.heat.recovery_days, q.normal(Uncertain::heat_recovery));

  const auto same = [&](double value) { return Eigen::ArrayXd::Constant(q.members(), value); };
  UnionMembers m;
  m.bridge_days = bridge_days;
  m.vascular_healing = same(species.vascular_days / species.bridge_days);
  m.callus_lower_c = cardinal.lower;
  m.callus_optimum_c = cardinal.optimum;
  m.callus_upper_c = cardinal.upper;
  m.base_supply_per_day = base_supply;
  m.joined_supply_per_day = joined_supply;
  m.cambium_match = match;
  m.bark_conductance_mol = bark;
  m.bark_area_m2 = same(graft.bark_area_m2);
  m.bare_conductance_area = bare.conductance_area;
  m.bare_area_m2 = same(bare.area_m2);
  m.own_leaf_area_m2 = same(graft.scion_state->own_leaf_area_cm2 * 1e-4);
  m.shoot_leaf_area_m2 = same(shoot_leaf_area_m2(graft, water));
  m.water_store_mol = same(graft.water_store_g / grams_per_mol);
  m.stops_water = same(graft.scion_state->stops_callus_water);
  m.full_water = same(graft.scion_state->full_callus_water);
  m.bud_base_c = same(species.bud_base_c);
  m.bud_push_degree_days = bud_push;
  m.heat_recovery_days = recovery;
  m.stores_days = same(graft.scion_state->stores_days);
  return m;
}

UnionConstants union_constants(const Models& models) {
  const WaterConstants& water = models.water;
  const HealingConstants& healing = models.healing;
  const BudConstants& buds = models.buds;
  UnionConstants c;
  c.joining_width = water.joining_width;
  c.leaf_growth_supply = water.leaf_growth_supply;
  c.frost_callus_c = healing.frost_callus_c;
  c.frost_setback_healing = healing.frost_setback_healing;
  c.stock_floor = healing.stock_floor;
  c.match_floor = healing.match_floor;
  c.leaf_closing_water = water.leaf_closing_water;
  c.leaf_closing_range = water.leaf_closing_range;
  c.leaf_conductance_night_mol = water.leaf_conductance_night_mol;
  c.leaf_conductance_open_mol = water.leaf_conductance_open_mol;
  c.leaf_out_days = buds.leaf_out_days;
  c.leaf_water_floor = buds.leaf_water_floor;
  c.leaf_water_range = buds.leaf_water_range;
  c.shrivelled_kept = std::exp(-union_step_days / buds.shrivel_days);
  c.connected_relief = water.connected_relief;
  return c;
}

}  // namespace graftcast
