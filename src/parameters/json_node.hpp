#pragma once
// A value within a JSON document that knows where it stands, so that every complaint can point at it.

#include <span>
#include <string>
#include <string_view>

#include "text/json_document.hpp"

namespace graftcast {

class JsonNode {
 public:
  explicit JsonNode(const JsonDocument& document)
      : document_(&document), value_(&document.root()), label_("the file") {}

  const nlohmann::json& value() const { return *value_; }
  /// What the value is called in messages: its key, or `entry 'apple'`.
  const std::string& label() const { return label_; }
  JsonNode labelled(std::string label) const;
  Position position() const { return document_->position(pointer_); }
  const std::string& file() const { return document_->name(); }

  bool has(std::string_view key) const { return value_->contains(key); }
  /// Member `key` of an object; DataError at the object when it is absent.
  JsonNode at(std::string_view key) const;
  JsonNode at(std::size_t index) const;

  /// The value as text or as a number, itself as an object or a list; DataError with its place otherwise.
  const std::string& text() const;
  double number() const;
  const JsonNode& object() const;
  const JsonNode& list() const;

  /// DataError at the first member that is neither in `known` nor begins with `x-`, with the nearest known
  /// key.
  void allow_keys(std::span<const std::string> known) const;

  [[noreturn]] void fail(const std::string& message, const std::string& hint) const;

 private:
  const JsonDocument* document_;
  const nlohmann::json* value_;
  std::string pointer_;
  std::string label_;
};

/// `did you mean ...` when a known name is near, else all of them in a row.
std::string known_names_hint(std::string_view wrong, std::span<const std::string> known);

}  // namespace graftcast
