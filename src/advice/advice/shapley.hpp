#pragma once
// How much of a whole each of several players has brought about, when what one brings depends on the others.

#include <cstddef>
#include <span>
#include <vector>

namespace graftcast {

/// Most players that are shared out: 2^16 coalitions.
inline constexpr std::size_t most_shapley_players = 16;

/// Shapley's value (Shapley 1953, "A value for n-person games", recalled) of each of `players` players: the
/// mean, over all orders in which they could join, of what a player adds to those before. `worth` has
/// 2^players entries: entry m is the worth of the coalition of those players whose bit is set in m.
///
/// The values add up to worth.back() - worth.front(), players that add alike get alike, and one that never
/// adds anything gets nothing. Errors: RangeError for more than most_shapley_players, or another number of
/// worths.
std::vector<double> shapley_values(std::size_t players, std::span<const double> worth);

}  // namespace graftcast
