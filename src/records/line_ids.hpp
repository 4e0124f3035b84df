#pragma once
// Ids of the lines of a diary (private to the layer).

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <unordered_map>

namespace graftcast {

/// Twelve letters from random bytes. Error: WriteError where the system has none.
std::string new_line_id();

/// A number that stands for the texts of a line's cells, in this order.
std::uint64_t cells_key(std::initializer_list<std::string_view> cells);

/// Ids of lines that were written without one: the same in every copy of a diary.
class LineIds {
 public:
  /// Twelve letters for the next line of the file whose cells have the key `cells`.
  std::string next(std::uint64_t cells);

 private:
  std::unordered_map<std::uint64_t, std::uint64_t> occurrences_;
};

}  // namespace graftcast
