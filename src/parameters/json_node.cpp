#include "json_node.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "text/text.hpp"

namespace graftcast {

namespace {
// Escapes of RFC 6901.
std::string pointer_token(std::string_view key) {
  std::string token;
  for (const char letter : key) {
    if (letter == '~') {
      token += "~0";
    } else if (letter == '/') {
      token += "~1";
    } else {
      token += letter;
    }
  }
  return token;
}

const char* kind_of(const nlohmann::json& value) {
  switch (value.type()) {
    case nlohmann::json::value_t::null:
      return "null";
    case nlohmann::json::value_t::boolean:
      return "true or false";
    case nlohmann::json::value_t::string:
      return "a text";
    case nlohmann::json::value_t::array:
      return "a list";
    case nlohmann::json::value_t::object:
      return "an object";
    default:
      return "a number";
  }
}
}  // namespace

std::string known_names_hint(std::string_view wrong, std::span<const std::string> known) {
  const auto near = nearest_hint(wrong, known);
  return near.empty() ? fmt::format("known: {}", fmt::join(known, ", ")) : near;
}

JsonNode JsonNode::labelled(std::string label) const {
  JsonNode node = *this;
  node.label_ = std::move(label);
  return node;
}

JsonNode JsonNode::at(std::string_view key) const {
  const auto found = value_->find(key);
  if (found == value_->end())
    fail(fmt::format("{} has no \"{}\"", label_, key), fmt::format("add the key \"{}\"", key));
  JsonNode node = labelled(std::string(key));
  node.value_ = &*found;
  node.pointer_ += '/' + pointer_token(key);
  return node;
}

JsonNode JsonNode::at(std::size_t index) const {
  JsonNode node = labelled(fmt::format("{} number {}", label_, index + 1));
  node.value_ = &(*value_)[index];
  node.pointer_ += '/' + std::to_string(index);
  return node;
}

const std::string& JsonNode::text() const {
  if (!value_->is_string()) fail(fmt::format("{} is {}", label_, kind_of(*value_)), "use a text in quotes");
  return value_->get_ref<const std::string&>();
}

double JsonNode::number() const {
  if (!value_->is_number())
    fail(fmt::format("{} is {}", label_, kind_of(*value_)), "use a number without quotes");
  return value_->get<double>();
}

const JsonNode& JsonNode::object() const {
  if (!value_->is_object()) fail(fmt::format("{} is {}", label_, kind_of(*value_)), "use an object in { }");
  return *this;
}

const JsonNode& JsonNode::list() const {
  if (!value_->is_array()) fail(fmt::format("{} is {}", label_, kind_of(*value_)), "use a list in [ ]");
  return *this;
}

void JsonNode::allow_keys(std::span<const std::string> known) const {
  for (const auto& member : object().value().items()) {
    if (member.key().starts_with("x-") || std::ranges::find(known, member.key()) != known.end()) continue;
    at(member.key())
        .fail(fmt::format("{} has an unknown key \"{}\"", label_, member.key()),
              known_names_hint(member.key(), known));
  }
}

void JsonNode::fail(const std::string& message, const std::string& hint) const {
  throw DataError(position(), message, hint);
}

}  // namespace graftcast
