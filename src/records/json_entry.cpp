#include "json_entry.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "cell.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

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

Position JsonEntry::key_position() const {
  return document_->key_position(pointer_);
}

void JsonEntry::fail_key(const std::string& message, const std::string& hint) const {
  throw DataError(key_position(), message, hint);
}

/// What the library calls the kinds of values.
[[maybe_unused]] constexpr std::array value_kinds{tr_later("null"),    tr_later("object"),
                                                  tr_later("array"),   tr_later("string"),
                                                  tr_later("boolean"), tr_later("number")};

void JsonEntry::fail_type(const char* wanted) const {
  fail(tr("{name} is {type}, not {wanted}", "name"_a = name_, "type"_a = translated(value_->type_name()),
          "wanted"_a = translated(wanted)),
       tr("give {wanted}", "wanted"_a = translated(wanted)));
}

double JsonEntry::number(double low, double high, std::string_view unit) const {
  if (!value_->is_number()) fail_type(tr_later("a number"));
  const auto value = value_->get<double>();
  if (value < low || value > high) {
    fail(tr("{name} {value} is out of range", "name"_a = name_, "value"_a = value),
         range_hint(low, high, unit));
  }
  return value;
}

int JsonEntry::whole_number(int low, int high) const {
  const double value = number(low, high);
  if (value != std::floor(value))
    fail(tr("{name} {value} is not a whole number", "name"_a = name_, "value"_a = value));
  return static_cast<int>(value);
}

bool JsonEntry::boolean() const {
  if (!value_->is_boolean()) fail_type(tr_later("true or false"));
  return value_->get<bool>();
}

std::string JsonEntry::text() const {
  if (!value_->is_string()) fail_type(tr_later("a text"));
  auto text = value_->get<std::string>();
  const bool is_plain =
      std::none_of(text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; });
  if (trimmed(text).empty()) fail(tr("{name} is empty", "name"_a = name_));
  if (!is_plain) fail(tr("{name} holds a control character", "name"_a = name_), tr("take it out"));
  return text;
}

std::string JsonEntry::text_or_number() const {
  return value_->is_number() ? value_->dump() : text();
}

std::string JsonEntry::word_of(std::span<const std::string> known) const {
  std::string word = text();
  if (std::find(known.begin(), known.end(), word) != known.end()) return word;
  fail(tr("{name} {word} is not known", "name"_a = name_, "word"_a = shown(word)), names_hint(word, known));
}

std::vector<std::pair<std::string, JsonEntry>> JsonEntry::members() const {
  if (!value_->is_object()) fail_type(tr_later("an object"));
  std::vector<std::pair<std::string, JsonEntry>> result;
  for (const auto& [key, value] : value_->items()) result.emplace_back(key, child(key, value));
  return result;
}

std::vector<JsonEntry> JsonEntry::elements() const {
  if (!value_->is_array()) fail_type(tr_later("a list"));
  std::vector<JsonEntry> result;
  for (std::size_t k = 0; k < value_->size(); ++k) {
    result.push_back(JsonEntry(*document_, (*value_)[k], pointer_ + '/' + std::to_string(k), name_));
  }
  return result;
}

void JsonEntry::check_keys(std::span<const std::string> known) const {
  for (const auto& [key, entry] : members()) {
    if (is_own_key(key) || std::find(known.begin(), known.end(), key) != known.end()) continue;
    entry.fail_key(tr("the key {key} is not known", "key"_a = shown(key)),
                   tr("{hint}; a key of your own begins with x-", "hint"_a = names_hint(key, known)));
  }
}

std::optional<JsonEntry> JsonEntry::find(const std::string& key) const {
  const auto found = value_->find(key);
  if (found == value_->end()) return std::nullopt;
  return child(key, *found);
}

JsonEntry JsonEntry::at(const std::string& key) const {
  auto entry = find(key);
  if (!entry) fail(tr("the key \"{key}\" is missing", "key"_a = key));
  return *entry;
}

JsonEntry JsonEntry::child(const std::string& key, const nlohmann::json& value) const {
  return {*document_, value, pointer_ + '/' + escaped(key), key};
}

}  // namespace graftcast
