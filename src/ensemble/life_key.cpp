#include "life_key.hpp"

#include <cmath>
#include <cstddef>

#include "mixed_bits.hpp"

namespace graftcast {

namespace {

template <class Struct>
std::span<const std::byte> bytes_of(const std::vector<Struct>& structs) {
  return std::as_bytes(std::span(structs));
}

void add_climate(const ScionClimate& climate, std::size_t from, std::size_t count, MixedBits& mix) {
  const auto lanes = static_cast<std::size_t>(climate.lanes());
  for (const auto* array :
       {&climate.tissue_c, &climate.deficit_bark, &climate.deficit_leaf, &climate.boundary_mol,
        &climate.heat_per_hour, &climate.respiration, &climate.opening_deficit_bark})
    mix.add_numbers(std::span<const float>(array->data() + from * lanes, count * lanes));
}

void add_cold_rows(const std::vector<ColdRow>& rows, MixedBits& mix) {
  for (const ColdRow& row : rows) {
    mix.add(row.bud_stage_from);
    mix.add(row.t10_c.value);
    mix.add(row.t90_c.value);
  }
}

/// Hours of all kinds of weather, frost and great heat among them.
ScionClimate probe_climate(Eigen::Index hours) {
  ScionClimate climate;
  const Eigen::ArrayXf turn = Eigen::ArrayXf::LinSpaced(hours, 0, 40);
  climate.tissue_c = (20.0F + 28.0F * turn.sin()).transpose();
  climate.deficit_bark = (0.015F + 0.014F * turn.sin()).transpose();
  climate.deficit_leaf = (0.012F + 0.011F * turn.cos()).transpose();
  climate.opening_deficit_bark = climate.deficit_bark;
  climate.boundary_mol = (1.2F + turn.cos()).transpose();
  climate.heat_per_hour = (1e-3F + 1e-3F * turn.sin()).transpose();
  climate.respiration = (1.5F + turn.sin()).transpose();
  climate.coldest_c.assign(static_cast<std::size_t>(hours), -100);
  return climate;
}

void add_probe(const UnionConstants& constants, const Drive& drive, const UnionMembers& members,
               MixedBits& mix) {
  constexpr std::size_t hours = 96;
  const ScionClimate climate = probe_climate(hours);
  const UnionMembers few(members.begin(), members.begin() + 1);
  std::vector<double> stress(hours, 0.8), daylight(hours);
  for (std::size_t hour = 0; hour < hours; ++hour) daylight[hour] = hour % 24 < 12 ? 1 : 0;
  const Drive probe{stress, daylight, drive.heat_factor, drive.cold_rows, drive.heat_limit_per_hour};
  const Stretch stretch{0, hours, &climate, 0, &few, true};
  UnionStates states = fresh_states(few, 0.9);
  // Half healed and in leaf, so that every relation has its say.
  states.front().healing.setConstant(1.5);
  states.front().bud_clock.setConstant(1);
  std::vector<UnionStates> none;
  run_union(constants, probe, {&stretch, 1}, states, {}, none);
  mix.add(bytes_of(states));
}

}  // namespace

LifeKey life_key(const UnionConstants& constants, const Drive& drive, std::span<const Stretch> stretches,
                 const UnionStates& states) {
  MixedBits mix;
  mix.add(bytes_of(states));
  mix.add(drive.heat_factor);
  mix.add(drive.heat_limit_per_hour);
  add_cold_rows(*drive.cold_rows, mix);
  if (!stretches.empty()) add_probe(constants, drive, *stretches.front().members, mix);
  for (const Stretch& stretch : stretches) {
    const std::size_t count = stretch.end - stretch.begin;
    mix.add_numbers(drive.stock_stress.subspan(stretch.begin, count));
    mix.add_numbers(drive.daylight.subspan(stretch.begin, count));
    mix.add(stretch.cover_just_closed ? 1.0 : 0.0);
    mix.add(static_cast<double>(stretch.climate->lanes()));
    mix.add(bytes_of(*stretch.members));
    add_climate(*stretch.climate, stretch.begin - stretch.climate_begin, count, mix);
  }
  return mix.mixed();
}

}  // namespace graftcast
