#include "plant/graft_case.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "plant/cover_parts.hpp"
#include "plant/stored_wood.hpp"
#include "setting_change.hpp"

namespace graftcast {

namespace {

const std::string& or_default(const std::string& cell, const std::string& otherwise, const char* column,
                              GraftCase& graft) {
  if (!cell.empty()) return cell;
  graft.assumed.emplace_back(column);
  return otherwise;
}

/// Scales the method's usual scion to the size in the ledger: bark with d l, store with d^2 l.
void set_size(GraftCase& graft, const GraftRow& row, const Models& models) {
  const Method& method = *graft.method;
  graft.bark_area_m2 = method.bark_area_cm2 * 1e-4;
  graft.water_store_g = method.water_store_g;
  if (graft.organ == Organ::bud) {
    graft.diameter_m = row.diameter_mm.value_or(models.climate.stem_diameter_mm) * 1e-3;
    return;
  }
  const double thickness = row.diameter_mm.value_or(method.diameter_mm) / method.diameter_mm;
  const double length = row.length_mm.value_or(method.length_mm) / method.length_mm;
  graft.diameter_m = thickness * method.diameter_mm * 1e-3;
  graft.bark_area_m2 *= thickness * length;
  graft.water_store_g *= thickness * thickness * length;
}

std::string only_spot(const Site& site) {
  return site.spots.size() == 1 ? site.spots.begin()->first : std::string();
}

Setting first_setting(const GraftRow& row, const Site& site, const Models& models, GraftCase& graft) {
  Setting setting;
  setting.from = graft.grafted;
  setting.spot = or_default(row.spot, only_spot(site), "spot", graft);
  setting.cover = or_default(row.cover, "none", "cover", graft);
  setting.shade = row.shade.value_or(0.0);
  setting.tip_open = row.tip == "open";
  put_wrap_on(setting, or_default(row.wrap, graft.method->usual_wrap, "wrap", graft), graft.organ, models);
  setting.full_head = graft.method->stock_head == StockHead::full;
  return setting;
}

int count_of(const DiaryLine& line, const GraftCase& graft) {
  const auto number = line.number();
  return number ? static_cast<int>(std::lround(*number)) : graft.count;
}

void apply_line(const DiaryLine& line, GraftCase& graft, const Models& models) {
  const Effect effect = about(line.event).effect;
  if (effect == Effect::water) graft.waterings.push_back({line.when, line.number()});
  if (effect == Effect::stock_bleeds) graft.bleeding_seen = line.when;
  if (effect == Effect::stake) graft.staked = line.when;
  if (is_evidence(line.event)) graft.observations.push_back({line.when, line.event, count_of(line, graft)});
  if (auto next = changed_setting(line, graft, models)) graft.settings.push_back(std::move(*next));
}

const ScionState& state_entry(const GraftRow& row, const Models& models, const GraftCase& graft) {
  return models.scion_states.at(row.scion_state.empty() ? graft.species->scion_state : row.scion_state);
}

double first_water(const GraftCase& graft, const GraftRow& row, const Models& models) {
  if (!row.wood) return 1;
  const double days =
      std::chrono::duration<double, std::ratio<86400>>(row.grafted_on - row.wood->cut_on).count();
  return wood_after(*row.wood, days, *graft.scion_state, models).water;
}

const std::vector<ColdRow>& cold_rows(const Models& models, const Species& species) {
  return models.cold_tables.at(species.cold_table);
}

}  // namespace

bool Setting::is_like(const Setting& other) const {
  const auto parts = [](const Setting& s) {
    return std::tie(s.spot, s.cover, s.shade, s.wrap, s.tip_open, s.edges_open, s.full_head, s.night_gain_k,
                    s.absorptance);
  };
  return parts(*this) == parts(other);
}

double GraftCase::take_share() const {
  return moved_chance(method->take_share, -shifts.failure);
}

const Setting& setting_at(std::span<const Setting> settings, Instant when) {
  const auto after =
      std::find_if(settings.begin() + 1, settings.end(), [&](const Setting& s) { return s.from > when; });
  return *(after - 1);
}

GraftCase graft_case(const GraftRow& row, std::span<const DiaryLine> lines, const Site& site,
                     const Clock& clock, const Models& models, Instant as_of) {
  GraftCase graft;
  graft.id = row.id;
  graft.species = &models.species_named(row.species);
  graft.method = &models.method_named(row.method);
  graft.scion_state = &state_entry(row, models, graft);
  graft.cold_rows = &cold_rows(models, *graft.species);
  graft.shifts = models.learned.of(row.species, row.method);
  graft.organ = graft.method->organ;
  graft.grafted = when_grafted(row, clock);
  graft.buds = row.buds.value_or(static_cast<int>(graft.method->buds));
  graft.match_share = row.cambium_match_share;
  graft.match_one_side = row.cambium_match_word == "one-side";
  graft.pot_litres = row.pot_litres;
  graft.count = row.count;
  graft.priority = row.priority;
  set_size(graft, row, models);
  graft.first_water = first_water(graft, row, models);
  graft.settings.push_back(first_setting(row, site, models, graft));
  for (const DiaryLine& line : lines) {
    if (line.when <= as_of) apply_line(line, graft, models);
  }
  const Outcome outcome = outcome_of(row, {lines.begin(), lines.end()}, as_of);
  graft.taken = outcome.taken;
  graft.lost = outcome.dead;
  graft.removed = outcome.removed;
  graft.watering_assumed = graft.waterings.empty();
  return graft;
}

Exposure exposure_of(const GraftCase& graft, const Setting& setting, const Site& site, const Models& models) {
  Exposure exposure;
  exposure.spot_name = setting.spot;
  if (const auto spot = site.spots.find(setting.spot); spot != site.spots.end()) exposure.spot = spot->second;
  exposure.shade = setting.shade;
  exposure.cover = cover_optics(setting.cover, models);
  exposure.organ = graft.organ;
  // Whole millimetres let grafts of nearly one size share a climate.
  exposure.diameter_m = std::max(1.0, std::round(graft.diameter_m * 1e3)) * 1e-3;
  const Wrap& wrap = models.wraps.at(setting.wrap);
  exposure.absorptance = setting.absorptance.value_or(wrap.short_wave_absorptance);
  exposure.bark_conductance_mol = graft.scion_state->bark_conductance_mmol * 1e-3 * wrap.conductance_factor;
  exposure.night_gain_k = setting.night_gain_k;
  return exposure;
}

}  // namespace graftcast
