#include "advice/shapley.hpp"

#include <bit>

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

/// Share of all orders of joining in which a given player comes right behind a given coalition, by its size:
/// s! (n - s - 1)! / n!.
std::vector<double> shares_of_orders(std::size_t players) {
  std::vector<double> shares(players);
  double binomial = 1;  // ways to choose s of the n - 1 others
  for (std::size_t size = 0; size < players; ++size) {
    shares[size] = 1 / (static_cast<double>(players) * binomial);
    binomial *= static_cast<double>(players - 1 - size) / static_cast<double>(size + 1);
  }
  return shares;
}

}  // namespace

std::vector<double> shapley_values(std::size_t players, std::span<const double> worth) {
  if (players > most_shapley_players)
    throw RangeError(trn("{n} player", "{n} players", static_cast<long>(players), "n"_a = players),
                     tr("0 to {most}", "most"_a = most_shapley_players));
  if (worth.size() != std::size_t{1} << players)
    throw RangeError(
        tr("{worths} worths of {players} players", "worths"_a = worth.size(), "players"_a = players),
        tr("one for each coalition"));
  const std::vector<double> orders = shares_of_orders(players);
  std::vector<double> values(players, 0.0);
  for (std::size_t coalition = 0; coalition < worth.size(); ++coalition) {
    const auto size = static_cast<std::size_t>(std::popcount(coalition));
    for (std::size_t player = 0; player < players; ++player) {
      const std::size_t joined = coalition | std::size_t{1} << player;
      if (joined != coalition) values[player] += orders[size] * (worth[joined] - worth[coalition]);
    }
  }
  return values;
}

}  // namespace graftcast
