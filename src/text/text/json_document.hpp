#pragma once
// A JSON text with the place of every value, so that a wrong entry can be pointed at.

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "graftcast/error.hpp"

namespace graftcast {

/// Parsed JSON plus where each value stands. Read-only.
/// Errors of the factories: OpenError, DataError (syntax, with line and column; nesting above 64; a key given
/// twice; more values than `require_room_for_json` lets pass).
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
  /// Where a value or a key begins. Its pointer is kept as a number made from it, for a text may hold a
  /// million of them.
  struct Place {
    std::uint64_t pointer = 0;
    std::uint32_t offset = 0;
    bool is_key = false;
  };
  class Builder;

  const Place* find(const std::string& pointer, bool is_key) const;

  std::string name_, text_;
  nlohmann::json root_;
  std::vector<Place> places_;
};

/// Refuses a JSON text of more values than fit in 64 MiB once parsed, whatever its own length: a short text
/// of empty lists needs forty times its length. Error: DataError.
void require_room_for_json(std::string_view text, const std::string& name);

}  // namespace graftcast
