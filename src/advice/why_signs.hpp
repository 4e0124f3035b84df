#pragma once
// What the diary saw, and how it tells culprits apart.

#include <vector>

#include "advice/why.hpp"

namespace graftcast {

/// The signs among `lines` that models/hazards.json has an entry for, each once, by time. Callus and moving
/// buds speak of causes only where `all_lost`: on living ones they are good signs.
std::vector<SeenSign> seen_signs(const std::vector<DiaryLine>& lines, bool all_lost, const Models& models);

/// Sets the chances: proportional to max(share, 0) times the chance of each sign given the culprit. Then
/// orders: first the culprit to name, of those whose chance comes near the greatest the one that a hand can
/// change; the rest by chance.
void weigh_culprits(std::vector<CulpritShare>& shares, const std::vector<SeenSign>& signs,
                    const Models& models);

}  // namespace graftcast
