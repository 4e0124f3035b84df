#pragma once
// The key of a life: everything that goes into it, mixed (private to the layer).

#include <span>

#include "ensemble/ensemble.hpp"
#include "ensemble/kept_lives.hpp"

namespace graftcast {

/// Key of the lives that run_union gives from `states` on through `stretches`. What an hour does to a union
/// is told by what some hours do to a probe, so that no life outlasts a change of the relations themselves.
LifeKey life_key(const UnionConstants& constants, const Drive& drive, std::span<const Stretch> stretches,
                 const UnionStates& states);

}  // namespace graftcast
