#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "words/learn_words.hpp"

namespace graftcast {

namespace {

Json shifts_json(const LearnedShifts& shifts) {
  const auto one = [](double mean, double sd) {
    return Json{{"mean", number(mean, 4)}, {"sd", number(sd, 4)}};
  };
  return {{"pace", one(shifts.mean.pace, shifts.sd.pace)},
          {"drying", one(shifts.mean.drying, shifts.sd.drying)},
          {"failure", one(shifts.mean.failure, shifts.sd.failure)},
          {"outcomes", shifts.outcomes}};
}

Json shifts_by_name(const std::map<std::string, LearnedShifts>& group) {
  Json json = Json::object();
  for (const auto& [name, shifts] : group) json[name] = shifts_json(shifts);
  return json;
}

Json group_json(const TakeGroup& group) {
  return {{"by", group_by_name(group.by)},
          {"name", text_or_null(group.name)},
          {"n", group.taken + group.lost},
          {"taken", group.taken},
          {"lost", group.lost},
          {"open", group.open},
          {"rate", number(group.rate, 4)},
          {"low", number(group.interval.low, 4)},
          {"high", number(group.interval.high, 4)},
          {"through_weather", number(group.through_weather, 4)},
          {"expected", number(group.expected, 4)},
          {"verdict", rate_verdict_name(group.verdict)}};
}

Json reliability_json(const std::vector<ReliabilityBin>& bins) {
  Json json = Json::array();
  for (const ReliabilityBin& bin : bins)
    json.push_back({{"from", number(bin.from, 1)},
                    {"to", number(bin.to, 1)},
                    {"n", bin.count},
                    {"forecast", number(bin.forecast, 4)},
                    {"observed", number(bin.observed, 4)}});
  return json;
}

Json scores_json(const LearnReport& report) {
  if (report.batches == 0) return nullptr;
  return {{"brier", number(report.held_back.brier, 5)},
          {"brier_plain", number(report.uncalibrated.brier, 5)},
          {"brier_rate", number(report.plain_rate.brier, 5)},
          {"log", number(report.held_back.log, 5)},
          {"log_plain", number(report.uncalibrated.log, 5)},
          {"log_rate", number(report.plain_rate.log, 5)},
          {"reliability", reliability_json(report.reliability)}};
}

Json bases_json(const std::vector<BaseScore>& bases) {
  Json json = Json::array();
  for (const BaseScore& base : bases)
    json.push_back({{"base_shift_k", number(base.base_shift_k, 1)},
                    {"brier", number(base.score.brier, 5)},
                    {"log", number(base.score.log, 5)}});
  return json;
}

}  // namespace

Json learn_json(const LearnReport& report, const ReportBasis& basis) {
  Json groups = Json::array();
  for (const TakeGroup& group : report.groups) groups.push_back(group_json(group));
  Json json = basis_json(basis);
  json.update({{"outcomes", report.outcomes},
               {"open", report.open},
               {"batches", report.batches},
               {"least_outcomes", report.least_outcomes},
               {"changed", report.changed()},
               {"verdict", learn_verdict_words(report)},
               {"shifts",
                {{"species", shifts_by_name(report.learned.species)},
                 {"methods", shifts_by_name(report.learned.methods)}}},
               {"scores", scores_json(report)},
               {"groups", std::move(groups)},
               {"bases", bases_json(report.bases)}});
  return json;
}

}  // namespace graftcast
