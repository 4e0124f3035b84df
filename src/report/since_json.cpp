#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "words/care_words.hpp"
#include "words/verdict_words.hpp"

namespace graftcast {

namespace {

Json band_json(std::string_view member, const DateBand& band, const std::string& id, Unknowns& unknowns) {
  if (!band.median || !band.p10 || !band.p90) unknowns.note(member, id);
  return {{"median", day_json(band.median)}, {"p10", day_json(band.p10)}, {"p90", day_json(band.p90)}};
}

/// Of a date that does not concern the graft.
Json no_band() {
  return {{"median", nullptr}, {"p10", nullptr}, {"p90", nullptr}};
}

Json days_json(const GraftSince& graft) {
  Json days = Json::array();
  for (const SinceDay& day : graft.days)
    days.push_back({{"day", day_text(day.day)},
                    {"ahead", day.ahead},
                    {"degree_days", number(day.degree_days, 2)},
                    {"cumulative", number(day.cumulative, 2)},
                    {"healing", number(day.healing, 4)},
                    {"healing_low", number(day.healing_low, 4)},
                    {"healing_high", number(day.healing_high, 4)},
                    {"water", number(day.water, 4)},
                    {"water_low", number(day.water_low, 4)},
                    {"water_high", number(day.water_high, 4)},
                    {"tissue_max_c", number(day.tissue_max_c, 1)},
                    {"air_max_c", number(day.air_max_c, 1)},
                    {"flags", flags_json(day.flags)}});
  return days;
}

Json identity_json(const GraftSince& graft) {
  Json json = card_json(graft, {"id", "scion", "species", "graft_method", "spot", "count", "grafted_on"});
  json["age_days"] = number(graft.age_days, 2);
  return json;
}

Json rule_json(const GraftSince& graft) {
  return {{"degree_days", number(graft.degree_days, 2)},
          {"method", degree_day_method_word(graft.rule.method)},
          {"base_c", number(graft.rule.base_c, 2)},
          {"upper_c", graft.rule.cutoff == Cutoff::none ? Json(nullptr) : number(graft.rule.upper_c, 2)},
          {"cutoff", cutoff_word(graft.rule.cutoff)}};
}

Json counts_json(const GraftSince& graft) {
  Json counts = Json::array();
  for (const DegreeDayCount& count : graft.counts)
    counts.push_back(
        {{"method", degree_day_method_word(count.rule.method)},
         {"cutoff", cutoff_word(count.rule.cutoff)},
         {"base_c", number(count.rule.base_c, 2)},
         {"upper_c", count.rule.cutoff == Cutoff::none ? Json(nullptr) : number(count.rule.upper_c, 2)},
         {"degree_days", number(count.degree_days, 2)}});
  return counts;
}

Json care_json(const std::vector<CareTask>& tasks) {
  Json list = Json::array();
  for (const CareTask& task : tasks)
    list.push_back({{"id", task.id},
                    {"task", care_name(task.work)},
                    {"text", care_words(task)},
                    {"due",
                     {{"median", day_json(task.due.median)},
                      {"p10", day_json(task.due.p10)},
                      {"p90", day_json(task.due.p90)}}},
                    {"why", care_reason_words(task)},
                    {"done", day_json(task.done)}});
  return list;
}

/// null where none is open any more.
Json worth_json(const std::optional<WaitOrRegraft>& worth) {
  if (!worth) return nullptr;
  return {{"wait", number(worth->value_wait, 4)},
          {"look", number(worth->value_look, 4)},
          {"regraft", number(worth->value_regraft, 4)},
          {"shows_lost", number(worth->shows_lost, 4)},
          {"shows_by", day_text(worth->shows_by)},
          {"new_take", number(worth->new_take, 4)},
          {"new_days", number(worth->new_days, 1)},
          {"season_left_days", worth->season_left_days},
          {"season_opens", day_text(worth->window_opens)},
          {"season_closes", day_text(worth->window_closes)},
          {"costs",
           {{"stock_week", number(worth->costs.stock_week, 4)},
            {"look", number(worth->costs.look, 4)},
            {"graft", number(worth->costs.graft, 4)}}}};
}

Json attempt_json(const Attempt& attempt) {
  Json json = card_json(attempt, {"id", "scion", "species", "graft_method"});
  json["position"] = text_or_null(attempt.position);
  json.update({{"grafted_on", day_text(attempt.grafted_on)},
               {"replaces", text_or_null(attempt.replaces)},
               {"replaced_by", text_or_null(attempt.replaced_by)},
               {"outcome", attempt_outcome_name(attempt.outcome)},
               {"taken", attempt.taken},
               {"dead", attempt.dead},
               {"open", attempt.open}});
  if (attempt.removed > 0) json["removed"] = attempt.removed;
  return json;
}

/// null where no one tree was asked for.
Json stock_json(const std::optional<StockHistory>& stock) {
  if (!stock) return nullptr;
  Json attempts = Json::array();
  for (const Attempt& attempt : stock->attempts) attempts.push_back(attempt_json(attempt));
  return {{"name", stock->name}, {"attempts", std::move(attempts)}};
}

Json wood_json(const std::vector<WoodInStore>& wood, Unknowns& unknowns) {
  Json list = Json::array();
  for (const WoodInStore& row : wood) {
    if (!row.use_by) unknowns.note("use_by", row.id);
    list.push_back({{"id", row.id},
                    {"scion", text_or_null(row.scion)},
                    {"species", text_or_null(row.species)},
                    {"stored", row.stored},
                    {"cut_on", day_text(row.cut_on)},
                    {"count", row.count ? Json(*row.count) : Json(nullptr)},
                    {"water", number(row.water, 4)},
                    {"use_by", day_json(row.use_by)},
                    {"limit", row.limit ? Json(wood_limit_name(*row.limit)) : Json(nullptr)}});
  }
  return list;
}

Json graft_json(const GraftSince& graft, Unknowns& unknowns) {
  const auto band = [&](std::string_view member, const DateBand& dates) {
    return band_json(member, dates, graft.id, unknowns);
  };
  Json json = identity_json(graft);
  json.update(rule_json(graft));
  json.update({{"healing", number(graft.healing, 4)},
               {"stage", stage_name(graft.stage)},
               {"bridged_on", band("bridged_on", graft.bridged_on)},
               {"drinking_from", band("drinking_from", graft.drinking_from)},
               {"bagged", graft.bagged},
               {"vent_bag_from", graft.bagged ? band("vent_bag_from", graft.vent_bag_from) : no_band()},
               {"slit_wrap_from", band("slit_wrap_from", graft.slit_wrap_from)},
               {"buds_expected", band("buds_expected", graft.buds_expected)},
               {"alive", number(graft.alive, 4)},
               {"still_to_take", number(graft.still_to_take, 4)},
               {"overdue", graft.overdue},
               {"verdict", verdict_name(graft.verdict())},
               {"verdict_text", ground_words(graft.ground)},
               {"worth", worth_json(graft.worth)},
               {"aftercare", care_json(graft.aftercare)},
               {"counts", counts_json(graft)},
               {"days", days_json(graft)}});
  return json;
}

}  // namespace

Json since_json(const SinceReport& report, ReportBasis basis) {
  Unknowns unknowns;
  Json grafts = Json::array();
  for (const GraftSince& graft : report.grafts) grafts.push_back(graft_json(graft, unknowns));
  for (const std::string_view member :
       {"bridged_on", "drinking_from", "vent_bag_from", "slit_wrap_from", "buds_expected"})
    unknowns.warn(basis, member, "a date that is null lies beyond the run for that share of members");
  Json wood = wood_json(report.wood, unknowns);
  unknowns.warn(basis, "use_by", "wood.csv does not give its species");
  Json json = basis_json(basis);
  json["grafts"] = std::move(grafts);
  json["stock"] = stock_json(report.stock);
  json["wood"] = std::move(wood);
  return json;
}

}  // namespace graftcast
