#pragma once
// What became of a site's grafts, with what the model makes of the weather each had.

#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "shift_fit.hpp"

namespace graftcast {

struct OutcomeTable {
  std::vector<std::string> species, methods;  ///< Names, sorted; rows refer to their places.
  std::vector<OutcomeRow> rows;
  std::vector<const GraftRecord*> records;  ///< Of each row.

  ShiftGroups groups() const { return {species.size(), methods.size()}; }
};

/// Rows with any graft taken or lost by the season's present. Grafts still open count as alive when their
/// batch was looked at last; what nobody looked at says nothing. Nine runs of the model a row. `grafts` must
/// outlive the table.
OutcomeTable outcome_table(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

}  // namespace graftcast
