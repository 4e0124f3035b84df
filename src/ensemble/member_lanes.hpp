#pragma once
// Some neighbouring members between the ensemble's arrays and the processor's lanes (private to the layer).

#include <Eigen/Core>

#include "plant/union_hour.hpp"
#include "science/lanes.hpp"

namespace graftcast {

/// Members [first, first + width) of arrays over all of them.
template <int width, template <class> class Numbers>
Numbers<Lanes<width>> lanes_of(const Numbers<Eigen::ArrayXd>& arrays, Eigen::Index first) {
  Numbers<Lanes<width>> lanes;
  const auto load = [first](Lanes<width>& to, const Eigen::ArrayXd& from) {
    to = Lanes<width>::load(from.data() + first);
  };
  lanes.each(load, lanes, arrays);
  return lanes;
}

template <int width, template <class> class Numbers>
void put(const Numbers<Lanes<width>>& lanes, Eigen::Index first, Numbers<Eigen::ArrayXd>& arrays) {
  const auto store = [first](const Lanes<width>& from, Eigen::ArrayXd& to) { from.store(to.data() + first); };
  lanes.each(store, lanes, arrays);
}

}  // namespace graftcast
