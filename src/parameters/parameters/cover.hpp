#pragma once
// What is put over a graft, and what is wound round it.

#include <string>
#include <string_view>

#include "parameters/entry.hpp"

namespace graftcast {

/// How vapour within a cover goes with the air outside.
enum class Vapour { outside, half, closed };
constexpr std::string_view choices_of(Vapour) {
  return "outside half closed";
}

struct Cover : KeyedEntry<Cover> {
  static const KeyTable table;

  Vapour vapour = Vapour::outside;
  std::string needs;  ///< Supplies that it takes, with a plus between them; empty for none.

  Parameter light_passed, light_absorbed, closed, wall;
};

/// Whether a wrap seals the cut tip; `as_given`: the ledger's column says.
enum class TipSeal { yes, no, as_given };
constexpr std::string_view choices_of(TipSeal) {
  return "yes no as-given";
}

struct Wrap : KeyedEntry<Wrap> {
  static const KeyTable table;

  bool bud_bare = false;
  TipSeal tip_sealed = TipSeal::no;
  bool cut_edges_sealed = false;

  Parameter conductance_factor, short_wave_absorptance;
};

}  // namespace graftcast
