#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "words/act_words.hpp"
#include "words/lesson_words.hpp"
#include "words/why_words.hpp"

namespace graftcast {

namespace {

Json dates_json(const DateBand& band) {
  return {{"median", day_json(band.median)}, {"p10", day_json(band.p10)}, {"p90", day_json(band.p90)}};
}

Json lost_graft_json(const GraftWhy& graft) {
  Json json = card_json(graft, {"id", "scion", "rootstock", "species", "method", "spot", "count"});
  json.update({{"lost", graft.lost},
               {"taken", graft.taken},
               {"grafted_on", day_text(graft.grafted_on)},
               {"outcome", row_outcome_name(graft.outcome)},
               {"until", utc_text(graft.until)},
               {"age_days", number(graft.age_days, 2)},
               {"stage", stage_name(graft.stage)},
               {"assumed", graft.assumed}});
  return json;
}

Json loss_json(const GraftWhy& graft) {
  return {{"p", number(graft.loss, 4)},
          {"when", dates_json(graft.when)},
          {"harmless", number(graft.loss_harmless, 4)},
          {"plain_failure", number(graft.plain_failure, 4)}};
}

Json shares_json(const GraftWhy& graft) {
  Json shares = Json::array();
  for (const CulpritShare& share : graft.shares)
    shares.push_back({{"cause", culprit_name(share.culprit)},
                      {"share", number(share.share, 4)},
                      {"chance", number(share.chance, 4)},
                      {"loss_without", number(share.without, 4)},
                      {"loss_alone", number(share.alone, 4)},
                      {"fact", text_or_null(culprit_fact_words(share.fact, UnitSystem::metric))}});
  return shares;
}

Json clocks_json(const GraftWhy& graft) {
  return {{"healing", number(graft.healing, 4)},
          {"bud_clock", number(graft.bud_clock, 4)},
          {"leaf_share", number(graft.leaf_share, 4)},
          {"water", number(graft.water, 4)},
          {"bridged_on", dates_json(graft.bridged_on)},
          {"drinking_from", dates_json(graft.drinking_from)},
          {"buds_moved_on", dates_json(graft.buds_moved_on)}};
}

Json notes_json(const std::vector<EventNote>& notes) {
  Json words = Json::array();
  for (const EventNote& note : notes) words.push_back(note_words(note));
  return words;
}

Json why_days_json(const GraftWhy& graft) {
  Json days = Json::array();
  for (const WhyDay& day : graft.days)
    days.push_back({{"day", day_text(day.day)},
                    {"air_max_c", number(day.air_max_c, 1)},
                    {"air_min_c", number(day.air_min_c, 1)},
                    {"vpd_max_kpa", number(day.vpd_max_kpa, 2)},
                    {"wind_max_m_s", number(day.wind_max_m_s, 1)},
                    {"tissue_max_c", number(day.tissue_max_c, 1)},
                    {"tissue_min_c", number(day.tissue_min_c, 1)},
                    {"own_vpd_max_kpa", number(day.own_vpd_max_kpa, 2)},
                    {"stock_stress_min", number(day.stock_stress_min, 3)},
                    {"water", number(day.water, 4)},
                    {"healing", number(day.healing, 4)},
                    {"bud_clock", number(day.bud_clock, 4)},
                    {"leaf_share", number(day.leaf_share, 4)},
                    {"lost", number(day.lost, 4)},
                    {"flags", flags_json(day.flags)},
                    {"notes", notes_json(day.notes)}});
  return days;
}

Json saving_json(const GraftWhy& graft) {
  Json actions = Json::array();
  for (const SavingAction& action : graft.would_have_saved)
    actions.push_back({{"action", act_name(action.act)},
                       {"text", act_words(action.act)},
                       {"from", utc_text(action.from)},
                       {"by", utc_text(action.by)},
                       {"p_after", number(action.p_after, 4)},
                       {"minutes", number(action.minutes, 2)},
                       {"needs", action.needs}});
  return actions;
}

Json signs_json(const GraftWhy& graft) {
  Json signs = Json::array();
  for (const SeenSign& sign : graft.signs)
    signs.push_back(
        {{"event", event_word(sign.event)}, {"when", utc_text(sign.when)}, {"means", sign.title}});
  return signs;
}

Json lesson_json(const std::vector<LessonStep>& lesson) {
  Json steps = Json::array();
  for (const LessonStep& step : lesson)
    steps.push_back({{"title", step.title}, {"text", step.text}, {"sources", step.sources}});
  return steps;
}

Json groups_json(const WhyLosses& losses) {
  Json groups = Json::array();
  for (const LossGroup& group : losses.groups)
    groups.push_back({{"cause", culprit_name(group.culprit)},
                      {"grafts", group.grafts},
                      {"expected", number(group.expected, 2)},
                      {"ids", group.ids}});
  return groups;
}

Json changes_json(const WhyLosses& losses) {
  Json changes = Json::array();
  for (const PracticeChange& change : losses.changes)
    changes.push_back({{"action", act_name(change.act)},
                       {"text", act_words(change.act)},
                       {"saved", number(change.saved, 2)},
                       {"adds", number(change.adds, 2)},
                       {"ids", change.ids}});
  return changes;
}

/// Dates without a band: told once for all of them.
void warn_of_dates(const GraftWhy& graft, Unknowns& unknowns) {
  const auto note = [&](std::string_view member, const DateBand& band) {
    if (!band.median || !band.p10 || !band.p90) unknowns.note(member, graft.id);
  };
  note("bridged_on", graft.bridged_on);
  note("drinking_from", graft.drinking_from);
  note("buds_moved_on", graft.buds_moved_on);
  note("when", graft.when);
}

void add_date_warnings(const Unknowns& unknowns, ReportBasis& basis) {
  for (const std::string_view member : {"bridged_on", "drinking_from", "buds_moved_on"})
    unknowns.warn(basis, member, "a date that is null was not reached by that share of members");
  unknowns.warn(basis, "when", "the weather took hardly any of the members");
}

Json losses_graft_json(const GraftWhy& graft) {
  return {{"graft", lost_graft_json(graft)},       {"loss", loss_json(graft)},
          {"clocks", clocks_json(graft)},          {"explained", graft.explained},
          {"shares", shares_json(graft)},          {"signs", signs_json(graft)},
          {"would_have_saved", saving_json(graft)}};
}

}  // namespace

Json why_json(const GraftWhy& graft, ReportBasis basis) {
  Unknowns unknowns;
  warn_of_dates(graft, unknowns);
  add_date_warnings(unknowns, basis);
  Json json = basis_json(basis);
  json.update(losses_graft_json(graft));
  json["days"] = why_days_json(graft);
  if (graft.lesson) json["lesson"] = lesson_json(lesson_steps(graft, *basis.clock, UnitSystem::metric));
  return json;
}

Json why_losses_json(const WhyLosses& losses, ReportBasis basis) {
  Unknowns unknowns;
  Json grafts = Json::array();
  for (const GraftWhy& graft : losses.grafts) {
    warn_of_dates(graft, unknowns);
    grafts.push_back(losses_graft_json(graft));
  }
  add_date_warnings(unknowns, basis);
  Json json = basis_json(basis);
  json["season"] = losses.season;
  json["lost"] = losses.lost;
  json["causes"] = groups_json(losses);
  json["changes"] = changes_json(losses);
  json["losses"] = std::move(grafts);
  return json;
}

}  // namespace graftcast
