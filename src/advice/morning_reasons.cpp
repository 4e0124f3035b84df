#include "morning_reasons.hpp"

#include <algorithm>
#include <array>

namespace graftcast {

namespace {

Reason heat_ahead(const ReasonInput& in) {
  const UnionDay& hottest = *std::ranges::max_element(in.coming, {}, &UnionDay::tissue_max_c);
  return HeatAhead{hottest.tissue_max_c, hottest.air_max_c, hottest.day,
                   in.run.graft().settings.back().cover};
}

Reason drying_ahead(const ReasonInput& in) {
  const UnionDay& driest = *std::ranges::max_element(in.coming, {}, &UnionDay::net_loss);
  return DryingAhead{in.water_now, in.water_low, in.run.limits().lost_water, driest.day};
}

Reason cold_ahead(const ReasonInput& in) {
  const UnionDay& coldest = *std::ranges::min_element(in.coming, {}, &UnionDay::tissue_min_c);
  return ColdAhead{coldest.tissue_min_c, coldest.day};
}

Reason reason_of(Cause cause, const ReasonInput& in) {
  if (cause == Cause::drying) return drying_ahead(in);
  if (cause == Cause::heat) return heat_ahead(in);
  if (cause == Cause::cold) return cold_ahead(in);
  return StoresRunOut{};
}

void add_wind(const ReasonInput& in, std::vector<Reason>& reasons) {
  const Models& models = in.run.season().models;
  const auto windy = std::ranges::find_if(
      in.coming, [&](const UnionDay& day) { return has(day_flags(day, models), DayFlag::wind); });
  if (windy != in.coming.end()) reasons.emplace_back(GustsAhead{windy->gust_m_s, windy->day});
}

void add_state(const ReasonInput& in, std::vector<Reason>& reasons) {
  const Stage stage = in.coming.empty() ? Stage::fresh : in.coming.front().stage;
  if (in.bud_clock >= 1 && stage < Stage::drinking) reasons.emplace_back(BudsBeforeVessels{});
  if (in.run.stock_depletion_now() > 1 - 0.5 * 0.5 && in.run.graft().pot_litres)
    reasons.emplace_back(PotIsDry{1 - in.run.stock_depletion_now()});
  if (in.now.contradicted) reasons.emplace_back(NotesContradict{});
}

void add_assumptions(const ReasonInput& in, std::vector<Reason>& reasons) {
  const GraftCase& graft = in.run.graft();
  if (graft.watering_assumed && graft.pot_litres) reasons.emplace_back(WateringAssumed{});
  if (!graft.assumed.empty()) reasons.emplace_back(CellsAssumed{graft.assumed});
}

}  // namespace

std::optional<Cause> main_cause(const RiskOfTreatment& risk, double negligible) {
  if (risk.risk.p < negligible) return std::nullopt;
  const std::array<std::pair<double, Cause>, 4> ways{{{risk.lost.water, Cause::drying},
                                                      {risk.lost.heat, Cause::heat},
                                                      {risk.lost.cold, Cause::cold},
                                                      {risk.lost.stores, Cause::spent_stores}}};
  return std::ranges::max_element(ways, {}, &std::pair<double, Cause>::first)->second;
}

std::vector<Reason> reasons(const ReasonInput& input) {
  std::vector<Reason> found;
  if (input.cause) found.push_back(reason_of(*input.cause, input));
  add_wind(input, found);
  add_state(input, found);
  add_assumptions(input, found);
  return found;
}

}  // namespace graftcast
