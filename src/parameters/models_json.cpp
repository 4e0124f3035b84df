#include <nlohmann/json.hpp>

#include "parameter_reader.hpp"
#include "parameters/models.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

json parameter_to_json(const Parameter& parameter) {
  json part = {{"value", parameter.value},   {"unit", parameter.unit},
               {"low", parameter.low},       {"high", parameter.high},
               {"source", parameter.source}, {"grade", std::string(1, parameter.grade)}};
  if (parameter.spread == Parameter::Spread::none) return part;
  part["spread"] = spread_word(parameter.spread);
  part["sd"] = parameter.sd;
  return part;
}

json entry_to_json(const Entry& entry) {
  json numbers = json::object();
  for (const auto& [key, parameter] : entry.numbers()) numbers[key] = parameter_to_json(*parameter);
  json words = json::object();
  for (const auto& [key, word] : entry.words()) words[key] = word;
  return {{"name", entry.name},
          {"title", entry.title},
          {"words", std::move(words)},
          {"numbers", std::move(numbers)}};
}

json table_to_json(const std::string& name, const std::vector<ColdRow>& rows) {
  json list = json::array();
  for (const auto& row : rows) {
    list.push_back({{"stage", row.stage},
                    {"bud_stage_from", row.bud_stage_from},
                    {"t10_c", parameter_to_json(row.t10_c)},
                    {"t90_c", parameter_to_json(row.t90_c)}});
  }
  return {{"name", name}, {"rows", std::move(list)}};
}

}  // namespace

json models_to_json(const Models& models) {
  json root = {{"format", 1}};
  for (const auto& [name, entries] : sections_of(models)) {
    auto& list = root[name] = json::array();
    for (const auto& item : entries) list.push_back(entry_to_json(*item.second));
  }
  auto& tables = root["cold_tables"] = json::array();
  for (const auto& [name, rows] : models.cold_tables) tables.push_back(table_to_json(name, rows));
  return root;
}

}  // namespace graftcast
