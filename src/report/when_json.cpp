#include "when_json.hpp"
#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "words/when_words.hpp"

namespace graftcast {

namespace {

Json bark_json(const WhenCandidate& candidate) {
  return candidate.bark_slips_now ? Json(*candidate.bark_slips_now) : Json(nullptr);
}

/// Whether the bark slips on a morning; null where the method has no need of it or it is not known.
Json bark_on(const WhenCandidate& candidate, LocalDay day) {
  if (!candidate.bark_slips_now) return nullptr;
  return candidate.bark_slips_from && day >= *candidate.bark_slips_from;
}

Json when_day_json(const WhenCandidate& candidate, const WhenDay& day) {
  return {{"day", day_text(day.day)},
          {"take", {{"p", number(day.take, 4)}, {"low", number(day.low, 4)}, {"high", number(day.high, 4)}}},
          {"bridge_days", number(day.bridge_days, 1)},
          {"limiting", limit_json(day)},
          {"worst_day", day_json(day.worst_day)},
          {"bark_slips", bark_on(candidate, day.day)},
          {"source", when_source_name(day)}};
}

Json candidate_json(const WhenAnswer& answer, const WhenCandidate& candidate) {
  Json days = Json::array();
  for (const WhenDay& day : candidate.days) days.push_back(when_day_json(candidate, day));
  const WhenAsk& graft = candidate.graft;
  return {{"species", graft.species},
          {"method", graft.method},
          {"wrap", text_or_null(graft.wrap)},
          {"cover", text_or_null(graft.cover)},
          {"shade", number(graft.shade, 2)},
          {"spot", text_or_null(graft.spot)},
          {"covered", candidate.is_covered},
          {"verdict", when_verdict_name(answer.verdict())},
          {"reason", when_ground_words(answer.ground)},
          {"bark_slips", bark_json(candidate)},
          {"bark_slips_from", day_json(candidate.bark_slips_from)},
          {"days", std::move(days)},
          {"best_day", candidate.best ? Json(day_text(candidate.days[*candidate.best].day)) : Json(nullptr)}};
}

}  // namespace

Json limit_json(const WhenDay& day) {
  return day.limiting ? Json(cause_name(*day.limiting)) : Json(nullptr);
}

std::string_view when_source_name(const WhenDay& day) {
  return day.source == StandIn::none ? "forecast" : stand_in_name(day.source);
}

Json when_json(const WhenReport& report, ReportBasis basis) {
  Json candidates = Json::array();
  for (const WhenAnswer& answer : report.answers) {
    candidates.push_back(candidate_json(answer, answer.usual));
    if (answer.covered) candidates.push_back(candidate_json(answer, *answer.covered));
  }
  Json json = basis_json(basis);
  json["candidates"] = std::move(candidates);
  return json;
}

}  // namespace graftcast
