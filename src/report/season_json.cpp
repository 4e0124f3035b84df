// The weeks of the year for grafting, as JSON.

#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "when_json.hpp"

namespace graftcast {

namespace {

Json week_day_json(const WhenDay& day) {
  return {{"take", {{"p", number(day.take, 4)}, {"low", number(day.low, 4)}, {"high", number(day.high, 4)}}},
          {"bridge_days", number(day.bridge_days, 1)},
          {"limiting", limit_json(day)},
          {"worst_day", day_json(day.worst_day)},
          {"source", when_source_name(day)}};
}

Json week_json(const SeasonWeek& week) {
  return {{"week_of", day_text(week.first_day)},
          {"verdict", when_verdict_name(week.verdict)},
          {"bark_slips", week.bark_slips ? Json(*week.bark_slips) : Json(nullptr)},
          {"usual", week_day_json(week.usual)},
          {"covered", week.covered ? week_day_json(*week.covered) : Json(nullptr)}};
}

Json stretch_json(const std::optional<SeasonStretch>& stretch) {
  if (!stretch) return nullptr;
  return {{"from", day_text(stretch->from)},  {"to", day_text(stretch->to)},
          {"weeks", stretch->weeks},          {"low", number(stretch->low, 4)},
          {"high", number(stretch->high, 4)}, {"needs_cover", stretch->needs_cover}};
}

Json season_answer_json(const SeasonAnswer& answer) {
  Json weeks = Json::array();
  for (const SeasonWeek& week : answer.weeks) weeks.push_back(week_json(week));
  Json usual = Json::array();
  for (const UsualSeason& season : answer.usual_seasons)
    usual.push_back({{"from", day_text(season.from)}, {"to", day_text(season.to)}});
  const WhenAsk& graft = answer.usual.graft;
  return {{"species", graft.species},          {"method", graft.method},
          {"wrap", text_or_null(graft.wrap)},  {"cover", text_or_null(graft.cover)},
          {"shade", number(graft.shade, 2)},   {"spot", text_or_null(graft.spot)},
          {"best", stretch_json(answer.best)}, {"usual_seasons", std::move(usual)},
          {"weeks", std::move(weeks)}};
}

}  // namespace

Json when_season_json(const SeasonReport& report, const ReportBasis& basis) {
  Json json = basis_json(basis);
  json["season"] = report.name;
  json["midwinter"] = day_text(report.midwinter);
  json["years"] = report.years;
  json["unknown_weeks"] = report.unknown_weeks;
  json["candidates"] = Json::array();
  for (const SeasonAnswer& answer : report.answers) json["candidates"].push_back(season_answer_json(answer));
  return json;
}

}  // namespace graftcast
