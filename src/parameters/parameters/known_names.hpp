#pragma once
// The words that records may use.

#include <string>
#include <vector>

namespace graftcast {

/// Names that models/*.json, with the owner's own, give to species, methods, wraps and covers.
struct KnownNames {
  std::vector<std::string> species, methods, wraps, covers;
};

}  // namespace graftcast
