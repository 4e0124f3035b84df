#pragma once
// Reading one value of a JSON document of records (private to the layer).

#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "text/json_document.hpp"
#include "text/tr.hpp"

namespace graftcast {

/// A value of a document, which knows its key and its place. Every error is a DataError at the value.
class JsonEntry {
 public:
  explicit JsonEntry(const JsonDocument& document)
      : JsonEntry(document, document.root(), "", tr("the file")) {}

  const std::string& name() const noexcept { return name_; }
  [[noreturn]] void fail(const std::string& message, const std::string& hint = {}) const;

  Position key_position() const;
  /// As `fail`, at the key.
  [[noreturn]] void fail_key(const std::string& message, const std::string& hint) const;

  double number(double low, double high, std::string_view unit = {}) const;
  int whole_number(int low, int high) const;
  bool boolean() const;
  /// Text without control characters, not empty.
  std::string text() const;
  /// Text, or a number as it is commonly written.
  std::string text_or_number() const;
  std::string word_of(std::span<const std::string> known) const;

  /// Members of an object, any key allowed; in the order of the file's keys by alphabet.
  std::vector<std::pair<std::string, JsonEntry>> members() const;
  std::vector<JsonEntry> elements() const;
  /// Error when the value is no object, or has a key that is neither among `known` nor begins with `x-`.
  void check_keys(std::span<const std::string> known) const;
  std::optional<JsonEntry> find(const std::string& key) const;
  /// Error when there is no such member.
  JsonEntry at(const std::string& key) const;

 private:
  JsonEntry(const JsonDocument& document, const nlohmann::json& value, std::string pointer, std::string name)
      : document_(&document), value_(&value), pointer_(std::move(pointer)), name_(std::move(name)) {}
  JsonEntry child(const std::string& key, const nlohmann::json& value) const;
  [[noreturn]] void fail_type(const char* wanted) const;

  const JsonDocument* document_;
  const nlohmann::json* value_;
  std::string pointer_;  // RFC 6901
  std::string name_;
};

}  // namespace graftcast
