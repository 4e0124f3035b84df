#pragma once
// What made a day a hard one for a graft.

#include <algorithm>
#include <cstdint>
#include <string_view>
#include <vector>

namespace graftcast {

enum class DayFlag : std::uint8_t { heat, drying, cold, mould, soaked, wind };

/// The code in JSON: `heat`, `drying`, `cold`, `mould`, `soaked`, `wind`.
std::string_view day_flag_name(DayFlag flag);

/// Those of one day, in the order above, none twice.
using DayFlags = std::vector<DayFlag>;
inline bool has(const DayFlags& flags, DayFlag flag) {
  return std::ranges::find(flags, flag) != flags.end();
}

}  // namespace graftcast
