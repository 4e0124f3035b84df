#pragma once
// What may have harmed a graft: single factors of its life that a what-if run makes harmless.
//
//   heat           tissue counts for the heat dose as if it had got no hotter than the callus' optimum
//   dry_air        air of at least 90 % humidity outside the cover
//   wind           at most 1 m/s at the scion for its drying; its temperature stays
//   cover_sun      a cover passes and absorbs no sun
//   missing_cover  the method's usual wrap and cover, where it had less
//   dry_stock      a stock that never runs short (Kst = 1)
//   cold           neither buds nor callus killed by frost
//   slow_callus    callus grows as at its optimum at any temperature (r = 1)
//   early_push     buds stay shut (B = 0)
//   match          all of the cambium meets (c = 1)
//
// What is harmless already stays as it was: making a factor harmless never makes it harsher.

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace graftcast {

enum class Factor : std::uint8_t {
  heat,
  dry_air,
  wind,
  cover_sun,
  missing_cover,
  dry_stock,
  cold,
  slow_callus,
  early_push,
  match,
};
inline constexpr std::size_t factor_count = 10;

/// `heat`, `dry_air`, `wind`, `cover_sun`, `missing_cover`, `dry_stock`, `cold`, `slow_callus`, `early_push`,
/// `match`: the codes in JSON, and the keys of the signs in models/hazards.json.
std::string_view factor_name(Factor factor);

}  // namespace graftcast
