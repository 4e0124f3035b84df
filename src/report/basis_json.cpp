// What every answer begins with, and errors.

#include <array>

#include "json_parts.hpp"
#include "report/json_report.hpp"

namespace graftcast {

namespace {

constexpr std::string_view schema_name = "graftcast/1";

Json spread_json(const SpreadBasis& spread) {
  constexpr std::array<std::string_view, 4> words{"", "published-errors", "own-errors", "courses"};
  if (spread.by == SpreadBasis::By::nothing) return nullptr;
  return {{"by", words.at(static_cast<std::size_t>(spread.by))},
          {"count", spread.count > 0 ? Json(spread.count) : Json(nullptr)}};
}

Json names_json(const std::vector<Variable>& variables) {
  Json names = Json::array();
  for (const Variable variable : variables) names.push_back(plain_name(variable));
  return names;
}

Json bridge_json(const BasisGap& gap) {
  return gap.stand_in == StandIn::none ? text_or_null(gap.bridged_by) : Json(stand_in_name(gap.stand_in));
}

Json weather_json(const WeatherBasis& weather) {
  Json gaps = Json::array();
  for (const BasisGap& gap : weather.gaps)
    gaps.push_back({{"from", utc_text(gap.from)},
                    {"to", utc_text(gap.to)},
                    {"variables", names_json(gap.variables)},
                    {"filled_by", bridge_json(gap)}});
  return {{"measured_until", time_json(weather.measured_until)},
          {"forecast_until", time_json(weather.forecast_until)},
          {"sources", weather.sources},
          {"gaps", std::move(gaps)},
          {"assumed", names_json(weather.assumed)},
          {"credits", weather.credits},
          {"spread", spread_json(weather.spread)}};
}

}  // namespace

Json basis_json(const ReportBasis& basis) {
  return {{"schema", schema_name},
          {"command", basis.command},
          {"as_of", utc_text(basis.as_of)},
          {"site", text_or_null(basis.site)},
          {"time_zone", basis.clock ? Json(basis.clock->name()) : Json(nullptr)},
          {"seed", basis.seed},
          {"members", basis.members},
          {"weather", weather_json(basis.weather)},
          {"warnings", basis.warnings},
          {"cautions", basis.cautions}};
}

Json error_json(const Error& error) {
  const Position& place = error.position();
  return {{"schema", schema_name},
          {"error",
           {{"kind", error.kind()},
            {"file", text_or_null(place.file)},
            {"line", place.line > 0 ? Json(place.line) : Json(nullptr)},
            {"column", place.column > 0 ? Json(place.column) : Json(nullptr)},
            {"message", error.message()},
            {"hint", text_or_null(error.hint())}}}};
}

}  // namespace graftcast
