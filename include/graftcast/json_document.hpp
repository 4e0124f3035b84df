#pragma once
// A JSON text with the place of every value, so that a wrong entry can be pointed at.

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "graftcast/error.hpp"

namespace graftcast {

/// Parsed JSON plus where each value stands. Read-only.
/// Errors of the factories: OpenError, DataError (syntax, with line and column; nesting above 64; a key given
/// twice).
class JsonDocument {
 public:
  static JsonDocument from_file(const std::filesystem::path& path);
  static JsonDocument from_text(std::string_view text, std::string shown_name);

  const nlohmann::json& root() const { return root_; }
  const std::string& name() const { return name_; }
  /// Place of the value at JSON pointer `pointer` (RFC 6901, "" is the root); of its nearest known parent
  /// otherwise.
  Position position(const std::string& pointer) const;
  /// Place of the key of the member at `pointer`; of the value where it is no member of an object.
  Position key_position(const std::string& pointer) const;

 private:
  std::string name_;
  nlohmann::json root_;
  std::map<std::string, Position> positions_;
  std::map<std::string, Position> key_positions_;
};

}  // namespace graftcast
