// How far past forecasts were off, as JSON.

#include "json_parts.hpp"
#include "report/json_report.hpp"

namespace graftcast {

namespace {

Json errors_json(const ForecastSkill& skill) {
  Json rows = Json::array();
  for (std::size_t v = 0; v < variable_count; ++v)
    for (const LeadError& error : skill.errors.at(v))
      rows.push_back({{"variable", variable_name(static_cast<Variable>(v))},
                      {"lead_day", error.day},
                      {"hours", error.hours},
                      {"bias", number(error.bias, 3)},
                      {"rmse", number(error.rmse, 3)}});
  return rows;
}

}  // namespace

Json weather_skill_json(std::span<const ForecastSkill> skills, const ReportBasis& basis) {
  Json json = basis_json(basis);
  json["skill"] = Json::array();
  for (const ForecastSkill& skill : skills)
    json["skill"].push_back({{"source", skill.source},
                             {"forecasts", skill.forecasts},
                             {"first_made", time_json(skill.first_made)},
                             {"last_made", time_json(skill.last_made)},
                             {"own_errors_count", own_forecasts(skill.spreads) > 0},
                             {"errors", errors_json(skill)}});
  return json;
}

}  // namespace graftcast
