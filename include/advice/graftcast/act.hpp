#pragma once
// What can be done for a graft.

#include <cstdint>
#include <string>
#include <string_view>

namespace graftcast {

enum class ActKind : std::uint8_t {
  none,
  look,  ///< See whether it lives.
  shade,
  clear_bag,
  paper_over_bag,       ///< The bag too, where it has none.
  foil_over_bag,        ///< Likewise.
  own_cover,            ///< One of the owner's own models.
  bag_and_shade,        ///< A clear bag, and shade cloth.
  paper_bag_and_shade,  ///< A bag, paper over it, and shade cloth.
  paper_and_shade,      ///< Paper over the bag that is on, and shade cloth.
  seal_tip,
  vent_bag,
  open_bag,  ///< Whatever covers it comes off.
  water,
  move,
  frost_cover,
  whitewash,
  stake,
  wrap,  ///< In hindsight only: wrap it as the method asks.
};

/// One act at one graft as it stands.
struct Act {
  ActKind kind = ActKind::none;
  std::string to = {};     ///< Of `move`: the spot; of `wrap`: the wrap, a key of models/covers.json.
  double shade_share = 0;  ///< Of `shade`: share of the sun that the cloth takes, 0..1.
  bool is_bagged = false;  ///< A bag is on.

  bool is_none() const { return kind == ActKind::none; }
};

/// The code in JSON: `shade`, `clear-bag`, `move:SPOT` ...; empty for none.
std::string act_name(const Act& act);

/// Why an act must not be done.
enum class Exclusion : std::uint8_t {
  bag_in_the_sun,  ///< A clear bag in the sun cooks what it keeps moist.
  moulds,          ///< Bare deciduous wood moulds in a bag in mild damp weather.
  dries_leaves,    ///< Leaves that do not drink yet dry in hours.
  bleeds,          ///< Water would push sap into the union.
  waterlogged,
  cooks,  ///< By its run it would take more to heat than it saves.
};

}  // namespace graftcast
