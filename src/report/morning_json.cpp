#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "words/act_words.hpp"
#include "words/care_words.hpp"
#include "words/plan_words.hpp"
#include "words/reason_words.hpp"

namespace graftcast {

namespace {

Json coming_json(const std::vector<ComingDay>& coming) {
  Json days = Json::array();
  for (const ComingDay& day : coming)
    days.push_back({{"day", day_text(day.day)},
                    {"flags", flags_json(day.flags)},
                    {"tissue_max_c", number(day.tissue_max_c, 1)},
                    {"air_max_c", number(day.air_max_c, 1)},
                    {"net_loss", number(day.net_loss, 4)}});
  return days;
}

Json actions_json(const std::vector<ActOutcome>& acts) {
  Json outcomes = Json::array();
  for (const ActOutcome& outcome : acts)
    outcomes.push_back(
        {{"action", act_name(outcome.act)},
         {"text", act_words(outcome.act)},
         {"p_after", number(outcome.p_after, 4)},
         {"saved", number(outcome.saved, 4)},
         {"needs", Json(outcome.needs)},
         {"minutes", number(outcome.minutes, 2)},
         {"excluded", outcome.excluded ? Json(exclusion_words(*outcome.excluded)) : Json(nullptr)}});
  return outcomes;
}

Json risk_json(const GraftMorning& graft) {
  return {{"p", number(graft.risk.p, 4)},
          {"low", number(graft.risk.low, 4)},
          {"high", number(graft.risk.high, 4)},
          {"error", number(graft.risk.error, 4)},
          {"horizon_days", graft.horizon_days}};
}

Json identity_json(const GraftMorning& graft) {
  Json json = card_json(graft, {"id", "scion", "rootstock", "species", "method", "spot"});
  json["rank"] = graft.rank;
  json.update(card_json(graft, {"count", "priority", "grafted_on"}));
  return json;
}

Json state_json(const GraftMorning& graft) {
  return {{"age_days", number(graft.age_days, 2)},
          {"stage", stage_name(graft.stage)},
          {"healing", number(graft.healing, 4)},
          {"degree_days", number(graft.degree_days, 1)},
          {"water", {{"now", number(graft.water_now, 4)}, {"low_7d", number(graft.water_low_7d, 4)}}},
          {"tissue_max_c_7d", number(graft.tissue_max_c_7d, 1)},
          {"air_max_c_7d", number(graft.air_max_c_7d, 1)},
          {"vpd_max_kpa_7d", number(graft.vpd_max_kpa_7d, 2)},
          {"heat_days", graft.heat_days},
          {"drying_days", graft.drying_days},
          {"cold_days", graft.cold_days}};
}

Json advice_json(const Advice& advice) {
  return {{"action", text_or_null(act_name(advice.act))},
          {"text", text_or_null(act_words(advice.act))},
          {"temporary", advice.temporary},
          {"undo_from", time_json(advice.undo_from)}};
}

Json outlook_json(const GraftMorning& graft) {
  return {{"coming", coming_json(graft.coming)},
          {"alive", number(graft.alive, 4)},
          {"risk", risk_json(graft)},
          {"risk_until_drinking", number(graft.risk_until_drinking, 4)},
          {"cause", graft.cause ? Json(cause_name(*graft.cause)) : Json(nullptr)},
          {"urgency", urgency_name(graft.urgency)},
          {"act_by", time_json(graft.act_by)},
          {"actions", actions_json(graft.acts)},
          {"advice", advice_json(graft.advice)},
          {"reasons", reasons_words(graft.reasons, UnitSystem::metric)},
          {"assumed", graft.assumed},
          {"contradicted", graft.contradicted}};
}

Json graft_json(const GraftMorning& graft, Unknowns& unknowns) {
  if (!graft.degree_days) unknowns.note("degree_days", graft.id);
  if (!graft.risk_until_drinking) unknowns.note("risk_until_drinking", graft.id);
  Json json = identity_json(graft);
  json.update(state_json(graft));
  json.update(outlook_json(graft));
  return json;
}

Json counts_json(const std::map<std::string, int>& counts) {
  Json json = Json::object();
  for (const auto& [name, count] : counts) json[name] = count;
  return json;
}

Json planned_json(const PlannedAct& planned) {
  return {{"id", planned.id},
          {"action", act_name(planned.act)},
          {"text", act_words(planned.act)},
          {"count", planned.count},
          {"p_before", number(planned.p_before, 4)},
          {"p_after", number(planned.p_after, 4)},
          {"saved", number(planned.saved, 4)},
          {"needs", counts_json(planned.needs)},
          {"minutes", number(planned.minutes, 2)},
          {"why", plan_reason_words(planned)}};
}

Json plan_json(const MorningPlan& plan) {
  Json assigned = Json::array();
  for (const PlannedAct& planned : plan.assigned) assigned.push_back(planned_json(planned));
  Json marginal = Json::object();
  for (const auto& [name, worth] : plan.marginal) marginal[name] = number(worth, 4);
  return {{"supplies", counts_json(plan.supplies)},
          {"left", counts_json(plan.left)},
          {"not_counted", plan.not_counted},
          {"minutes_limit", number(plan.minutes_limit, 2)},
          {"minutes", number(plan.minutes, 2)},
          {"assigned", std::move(assigned)},
          {"unserved", plan.unserved},
          {"saved", number(plan.saved, 4)},
          {"marginal", std::move(marginal)}};
}

Json due_json(const std::vector<DueTask>& due) {
  Json tasks = Json::array();
  for (const DueTask& task : due)
    tasks.push_back({{"task", care_name(task.first.work)},
                     {"text", care_words(task.first)},
                     {"ids", task.ids},
                     {"due", day_text(task.due)},
                     {"why", care_reason_words(task.first)}});
  return tasks;
}

}  // namespace

Json morning_json(const MorningReport& report, ReportBasis basis) {
  Unknowns unknowns;
  Json grafts = Json::array();
  for (const GraftMorning& graft : report.grafts) grafts.push_back(graft_json(graft, unknowns));
  unknowns.warn(basis, "degree_days", "the weather known does not reach back to the grafting");
  unknowns.warn(basis, "risk_until_drinking", "most members drink later than the run reaches");
  Json json = basis_json(basis);
  json["grafts"] = std::move(grafts);
  json["also_due"] = due_json(report.also_due);
  json["plan"] = plan_json(report.plan);
  return json;
}

}  // namespace graftcast
