#pragma once
// Holds a JSON value against a JSON Schema (draft 7), for the keywords that the project's own schemas use.

#include <algorithm>
#include <regex>
#include <stdexcept>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace graftcast::testing {

/// `complaints` of a value against a schema, each as `pointer: what is wrong`; empty when it fits.
/// Error: std::runtime_error for a keyword it does not know, so that no part of a schema passes unread.
class SchemaCheck {
 public:
  using json = nlohmann::json;
  explicit SchemaCheck(const json& root) : root_(root) {}

  std::vector<std::string> complaints(const json& value) const { return complaints(root_, value, ""); }

 private:
  using Complaints = std::vector<std::string>;

  Complaints complaints(const json& schema, const json& value, const std::string& at) const {
    Complaints found;
    if (schema.is_boolean()) {
      if (!schema.get<bool>()) found.push_back(at + ": not allowed");
      return found;
    }
    if (schema.contains("$ref")) return complaints(target(schema["$ref"]), value, at);
    for (const auto& [keyword, rule] : schema.items()) {
      const auto more = one_keyword(schema, keyword, rule, value, at);
      found.insert(found.end(), more.begin(), more.end());
    }
    return found;
  }

  const json& target(const std::string& reference) const {
    if (!reference.starts_with('#')) throw std::runtime_error("reference to another file: " + reference);
    return root_.at(json::json_pointer(reference.substr(1)));
  }

  Complaints one_keyword(const json& schema, const std::string& keyword, const json& rule, const json& value,
                         const std::string& at) const {
    static const std::vector<std::string> silent{"$schema",     "$id",         "title",
                                                 "description", "definitions", "patternProperties"};
    if (std::ranges::find(silent, keyword) != silent.end()) return {};
    const auto unless = [&](bool fits) {
      return fits ? Complaints{} : Complaints{at + ": " + keyword + " " + rule.dump()};
    };
    if (keyword == "type") return unless(has_type(rule, value));
    if (keyword == "const") return unless(value == rule);
    if (keyword == "enum") return unless(std::ranges::find(rule, value) != rule.end());
    if (keyword == "minimum") return unless(!value.is_number() || value.get<double>() >= rule.get<double>());
    if (keyword == "maximum") return unless(!value.is_number() || value.get<double>() <= rule.get<double>());
    if (keyword == "minItems") return unless(!value.is_array() || value.size() >= rule.get<std::size_t>());
    if (keyword == "minProperties")
      return unless(!value.is_object() || value.size() >= rule.get<std::size_t>());
    if (keyword == "pattern") return unless(!value.is_string() || matches(rule, value));
    if (keyword == "required") return missing(rule, value, at);
    if (keyword == "items") return in_items(rule, value, at);
    if (keyword == "oneOf") return unless(how_many_fit(rule, value, at) == 1);
    if (keyword == "anyOf") return unless(how_many_fit(rule, value, at) > 0);
    if (keyword == "properties" || keyword == "additionalProperties")
      return keyword == "properties" ? in_properties(rule, value, at) : in_others(schema, rule, value, at);
    throw std::runtime_error("schema keyword not known to this check: " + keyword);
  }

  static bool has_type(const json& rule, const json& value) {
    if (rule.is_array())
      return std::ranges::any_of(rule, [&](const json& one) { return has_type(one, value); });
    if (rule == "integer")
      return value.is_number_integer() ||
             (value.is_number() && value.get<double>() == static_cast<double>(value.get<long long>()));
    return rule == (value.is_number() ? "number" : value.type_name());
  }

  static bool matches(const json& pattern, const json& text) {
    return std::regex_search(text.get<std::string>(), std::regex(pattern.get<std::string>()));
  }

  static Complaints missing(const json& keys, const json& value, const std::string& at) {
    Complaints found;
    for (const auto& key : keys)
      if (value.is_object() && !value.contains(key.get<std::string>()))
        found.push_back(at + ": lacks " + key.get<std::string>());
    return found;
  }

  Complaints in_items(const json& rule, const json& value, const std::string& at) const {
    Complaints found;
    for (std::size_t i = 0; value.is_array() && i < value.size(); ++i)
      append(found, complaints(rule, value[i], at + '/' + std::to_string(i)));
    return found;
  }

  Complaints in_properties(const json& rules, const json& value, const std::string& at) const {
    Complaints found;
    if (!value.is_object()) return found;
    for (const auto& [key, rule] : rules.items())
      if (value.contains(key)) append(found, complaints(rule, value[key], at + '/' + key));
    return found;
  }

  Complaints in_others(const json& schema, const json& rule, const json& value, const std::string& at) const {
    Complaints found;
    if (!value.is_object()) return found;
    for (const auto& [key, member] : value.items()) {
      if (schema.contains("properties") && schema["properties"].contains(key)) continue;
      if (schema.contains("patternProperties") && fits_a_pattern(schema["patternProperties"], key)) continue;
      append(found, complaints(rule, member, at + '/' + key));
    }
    return found;
  }

  static bool fits_a_pattern(const json& patterns, const std::string& key) {
    return std::ranges::any_of(patterns.items(),
                               [&](const auto& item) { return matches(json(item.key()), json(key)); });
  }

  long how_many_fit(const json& rules, const json& value, const std::string& at) const {
    return std::ranges::count_if(rules,
                                 [&](const json& rule) { return complaints(rule, value, at).empty(); });
  }

  static void append(Complaints& all, const Complaints& more) {
    all.insert(all.end(), more.begin(), more.end());
  }

  const json& root_;
};

}  // namespace graftcast::testing
