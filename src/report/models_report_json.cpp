#include <nlohmann/json.hpp>

#include "report/json_report.hpp"

namespace graftcast {

namespace {

using nlohmann::ordered_json;

ordered_json called(const nlohmann::json& entries, std::string_view name) {
  ordered_json chosen = ordered_json::array();
  for (const auto& entry : entries)
    if (name.empty() || entry.at("name") == name) chosen.push_back(nlohmann::ordered_json(entry));
  return chosen;
}

}  // namespace

ordered_json models_json(const Models& models, const ReportBasis& basis, std::string_view name) {
  const nlohmann::json all = models_to_json(models);
  ordered_json json = basis_json(basis);
  for (const char* section :
       {"species", "methods", "covers", "wraps", "scion_states", "hazards", "shared", "cold_tables"})
    json[section] = called(all.at(section), name);
  return json;
}

}  // namespace graftcast
