#include "json_entry.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cell.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

std::string escaped(std::string key) {
  for (const auto& [letter, code] : {std::pair{'~', "~0"}, std::pair{'/', "~1"}}) {
    for (std::size_t at = key.find(letter); at != std::string::npos; at = key.find(letter, at + 2)) {
      key.replace(at, 1, code);
    }
  }
  return key;
}

bool is_own_key(std::string_view key) {
  return key.starts_with("x-");
}

}  // namespace

void JsonEntry::fail(const std::string& message, const std::string& hint) const {
  throw DataError(document_->position(pointer_), message, hint);
}

void JsonEntry::fail_key(const std::string& message, const std::string& hint) const {
  throw DataError(document_->key_position(pointer_), message, hint);
}

void JsonEntry::fail_type(const char* wanted) const {
  fail(fmt::format("{} is {}, not {}", name_, value_->type_name(), wanted), fmt::format("give {}", wanted));
}

double JsonEntry::number(double low, double high, std::string_view unit) const {
  if (!value_->is_number()) fail_type("a number");
  const auto value = value_->get<double>();
  if (value < low || value > high) {
    fail(fmt::format("{} {} is out of range", name_, value),
         fmt::format("give a number from {} to {}{}{}", low, high, unit.empty() ? "" : " ", unit));
  }
  return value;
}

int JsonEntry::whole_number(int low, int high) const {
  const double value = number(low, high);
  if (value != std::floor(value)) fail(fmt::format("{} {} is not a whole number", name_, value));
  return static_cast<int>(value);
}

bool JsonEntry::boolean() const {
  if (!value_->is_boolean()) fail_type("true or false");
  return value_->get<bool>();
}

std::string JsonEntry::text() const {
  if (!value_->is_string()) fail_type("a text");
  auto text = value_->get<std::string>();
  const bool is_plain =
      std::none_of(text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; });
  if (trimmed(text).empty()) fail(fmt::format("{} is empty", name_));
  if (!is_plain) fail(fmt::format("{} holds a control character", name_), "take it out");
  return text;
}

std::string JsonEntry::text_or_number() const {
  return value_->is_number() ? value_->dump() : text();
}

std::string JsonEntry::word_of(std::span<const std::string> known) const {
  std::string word = text();
  if (std::find(known.begin(), known.end(), word) != known.end()) return word;
  fail(fmt::format("{} {} is not known", name_, shown(word)), names_hint(word, known));
}

std::vector<std::pair<std::string, JsonEntry>> JsonEntry::members() const {
  if (!value_->is_object()) fail_type("an object");
  std::vector<std::pair<std::string, JsonEntry>> result;
  for (const auto& [key, value] : value_->items()) result.emplace_back(key, child(key, value));
  return result;
}

std::vector<JsonEntry> JsonEntry::elements() const {
  if (!value_->is_array()) fail_type("a list");
  std::vector<JsonEntry> result;
  for (std::size_t k = 0; k < value_->size(); ++k) {
    result.push_back(JsonEntry(*document_, (*value_)[k], pointer_ + '/' + std::to_string(k), name_));
  }
  return result;
}

void JsonEntry::check_keys(std::span<const std::string> known) const {
  for (const auto& [key, entry] : members()) {
    if (is_own_key(key) || std::find(known.begin(), known.end(), key) != known.end()) continue;
    entry.fail_key(fmt::format("the key {} is not known", shown(key)),
                   names_hint(key, known) + "; a key of your own begins with x-");
  }
}

std::optional<JsonEntry> JsonEntry::find(const std::string& key) const {
  const auto found = value_->find(key);
  if (found == value_->end()) return std::nullopt;
  return child(key, *found);
}

JsonEntry JsonEntry::at(const std::string& key) const {
  auto entry = find(key);
  if (!entry) fail(fmt::format("the key \"{}\" is missing", key));
  return *entry;
}

JsonEntry JsonEntry::child(const std::string& key, const nlohmann::json& value) const {
  return {*document_, value, pointer_ + '/' + escaped(key), key};
}

}  // namespace graftcast
