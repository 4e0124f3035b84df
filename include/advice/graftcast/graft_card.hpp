#pragma once
// What a graft is, as every answer names it.

#include <string>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// A row of the ledger. Words that the row does not give are empty.
struct GraftCard {
  std::string id;  ///< Never empty.
  std::string scion;
  std::string species, method;  ///< Keys of models/species.json and models/methods.json.
  std::string stock;            ///< The tree or pot that carries it.
  std::string spot;             ///< Where it stands; a key of the site's spots.
  int count = 1;                ///< Grafts of the row that the answer is about, 0 or more.
  double priority = 1;          ///< What one of them is worth beside others, 0 or more.
  LocalDay grafted_on{};
};

}  // namespace graftcast
