#pragma once
// What ends the use of scion wood in store.

#include <cstdint>
#include <string_view>

namespace graftcast {

enum class WoodLimit : std::uint8_t {
  drying,  ///< Too dry to callus as fresh wood does.
  stores,  ///< It has breathed its sugar and starch away.
  rot,     ///< Its foot rots in the water.
};

/// The code in JSON: `drying`, `stores`, `rot`.
std::string_view wood_limit_name(WoodLimit limit);

}  // namespace graftcast
