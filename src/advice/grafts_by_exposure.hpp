#pragma once
// An order in which grafts under the same cover in the same place come together, so that those that share
// climates are worked out while these are at hand.

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <tuple>
#include <vector>

#include "ensemble/season.hpp"

namespace graftcast {

/// Indices of `grafts` in that order.
inline std::vector<std::size_t> grafts_by_exposure(const std::vector<GraftRecord>& grafts) {
  const auto place = [&](std::size_t i) {
    const GraftRow& row = grafts[i].row;
    return std::tie(row.spot, row.shade, row.cover, row.wrap, row.method, row.scion_state, row.species,
                    row.diameter_mm);
  };
  std::vector<std::size_t> order(grafts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return place(a) < place(b); });
  return order;
}

}  // namespace graftcast
