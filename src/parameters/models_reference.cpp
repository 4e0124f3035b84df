#include "parameters/models_reference.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "key_table.hpp"
#include "sections.hpp"

namespace graftcast {

namespace {

using nlohmann::ordered_json;

ordered_json reference_to(const std::string& definition) {
  return {{"$ref", "#/definitions/" + definition}};
}

/// An object of exactly these properties and of the owner's own.
ordered_json object_of(ordered_json properties) {
  return {{"type", "object"},
          {"properties", std::move(properties)},
          {"patternProperties", {{"^x-", ordered_json::object()}}},
          {"additionalProperties", false}};
}

ordered_json list_of(const std::string& definition) {
  return {{"type", "array"}, {"items", reference_to(definition)}};
}

std::string definition_in(std::string_view unit) {
  std::string name = "in_" + std::string(unit);
  std::ranges::replace(name, ' ', '_');
  return name;
}

ordered_json number_in(const UnitLimits& limits) {
  const ordered_json within = {{"type", "number"}, {"minimum", limits.least}, {"maximum", limits.greatest}};
  ordered_json number = object_of({{"value", within},
                                   {"unit", {{"const", limits.unit}}},
                                   {"low", within},
                                   {"high", within},
                                   {"spread", {{"enum", {"normal", "lognormal", "none"}}}},
                                   {"sd", {{"type", "number"}, {"minimum", 0}}},
                                   {"source", reference_to("source")},
                                   {"grade", {{"enum", {"A", "B", "C"}}}}});
  number["minProperties"] = 1;
  return number;
}

ordered_json word_rule(const WordRow& row) {
  ordered_json rule = {{"description", row.meaning}};
  if (row.choices.empty())
    rule["type"] = "string";
  else
    rule["enum"] = words_in(row.choices);
  return rule;
}

const ordered_json text_rule = {{"type", "string"}, {"pattern", "[^ ]"}};

/// `name`: the only one that the entry may bear, empty for any.
ordered_json entry_rule(const KeyTable& table, const std::string& name) {
  ordered_json words = ordered_json::object(), numbers = ordered_json::object();
  for (const WordRow& row : table.words) words[std::string(row.key)] = word_rule(row);
  for (const NumberRow& row : table.numbers)
    numbers[std::string(row.place.key)] = {{"description", row.meaning},
                                           {"$ref", "#/definitions/" + definition_in(row.unit)}};
  ordered_json parts = {{"name", name.empty() ? reference_to("name") : ordered_json{{"const", name}}},
                        {"title", text_rule}};
  if (name.empty()) parts["like"] = reference_to("name");
  parts["words"] = object_of(std::move(words));
  parts["numbers"] = object_of(std::move(numbers));
  ordered_json rule = object_of(std::move(parts));
  rule["required"] = {"name"};
  return rule;
}

ordered_json cold_table_rule() {
  ordered_json row = object_of({{"stage", text_rule},
                                {"bud_stage_from", {{"type", "number"}, {"minimum", 0}}},
                                {"t10_c", reference_to(definition_in("degC"))},
                                {"t90_c", reference_to(definition_in("degC"))}});
  row["required"] = {"stage", "bud_stage_from", "t10_c", "t90_c"};
  ordered_json rule = object_of({{"name", reference_to("name")},
                                 {"title", {{"type", "string"}}},
                                 {"rows", {{"type", "array"}, {"minItems", 1}, {"items", std::move(row)}}}});
  rule["required"] = {"name", "rows"};
  return rule;
}

/// Calls `visit` with every kind of entry: the table, its section, and its name where that is fixed.
template <typename Visit>
void for_each_table(Visit visit) {
  const Models models;
  for_each_map(models, [&](const std::string& section, const auto& map) {
    visit(std::decay_t<decltype(map)>::mapped_type::table, section, std::string());
  });
  for (const Entry* group : hazards_of(models)) visit(group->table(), std::string("hazards"), group->name);
  for (const Entry* group : shared_of(models)) visit(group->table(), std::string("shared"), group->name);
}

}  // namespace

ordered_json model_files_schema() {
  ordered_json sections = {{"format", {{"const", 1}}}};
  ordered_json rules = {{"source",
                         {{"description", "Author and year with seen or recalled, or 'judgement: why'."},
                          {"type", "string"},
                          {"pattern", "[^ ]"}}}};
  for (const UnitLimits& limits : known_units()) rules[definition_in(limits.unit)] = number_in(limits);
  rules["name"] = {{"type", "string"}, {"pattern", "^[a-z0-9-]+$"}};
  for_each_table([&](const KeyTable& table, const std::string& section, const std::string& name) {
    const std::string definition = name.empty() ? section : section + '_' + name;
    rules[definition] = entry_rule(table, name);
    if (name.empty()) {
      sections[section] = list_of(definition);
    } else {
      sections[section]["type"] = "array";
      sections[section]["items"]["oneOf"].push_back(reference_to(definition));
    }
  });
  sections["cold_tables"] = list_of("cold_tables");
  rules["cold_tables"] = cold_table_rule();
  ordered_json schema = {
      {"$schema", "http://json-schema.org/draft-07/schema#"},
      {"title", "graftcast: constants of the model"},
      {"description",
       "A file of models/ or of an owner's folder of models. Every entry of the published files is complete; "
       "an owner's entry gives the keys it changes, or all of them, or takes the rest from the entry named "
       "by "
       "'like'. The program also checks orders and references between values."}};
  schema.update(object_of(std::move(sections)));
  schema["required"] = {"format"};
  schema["definitions"] = std::move(rules);
  return schema;
}

namespace {

std::string limits_words(const NumberRow& row) {
  const UnitLimits& limits = limits_of(row.unit);
  return fmt::format("{}{} to {}{}", row.above_zero ? "above " : "", limits.least, limits.greatest,
                     row.place.optional != nullptr ? ", may be absent" : "");
}

std::string choice_words(const WordRow& row) {
  if (!row.names.empty()) return fmt::format("a name of `{}`", row.names);
  return row.choices.empty() ? "any text" : fmt::format("{}", fmt::join(words_in(row.choices), ", "));
}

std::string table_page(const KeyTable& table, std::string_view heading) {
  std::string page =
      fmt::format("\n## {}\n\n| key | unit | may be | meaning |\n| --- | --- | --- | --- |\n", heading);
  for (const WordRow& row : table.words)
    page += fmt::format("| `{}` | word | {} | {} |\n", row.key, choice_words(row), row.meaning);
  for (const NumberRow& row : table.numbers)
    page += fmt::format("| `{}` | {} | {} | {} |\n", row.place.key, row.unit, limits_words(row), row.meaning);
  for (const Order& order : table.orders)
    if (std::isfinite(order.gap))
      page += fmt::format("\n`{}` lies at least {} above `{}`.\n", order.greater.key, order.gap,
                          order.lesser.key);
  return page;
}

}  // namespace

std::string model_keys_page() {
  std::string page =
      "# The keys of the models\n\nMade from the tables in `src/parameters` by `model_reference`; "
      "README.md says how the numbers were chosen.\n";
  const KeyTable* last = nullptr;
  for_each_table([&](const KeyTable& table, const std::string& section, const std::string& name) {
    // All signs have the same keys.
    if (&table != last)
      page += table_page(table, name.empty() ? section : fmt::format("{}, {}", section, name));
    last = &table;
  });
  return page;
}

}  // namespace graftcast
