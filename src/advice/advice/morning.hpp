#pragma once
// This morning's list of a site's grafts.

#include <optional>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/morning.hpp"
#include "graftcast/since.hpp"

namespace graftcast {

/// One row's part of the list.
struct MorningOfRow {
  std::optional<GraftMorning> open;  ///< Absent where none of its grafts is open.
  std::vector<CareTask> care;
};

/// That of each of `grafts`, in their order.
std::vector<MorningOfRow> mornings_of(const Season& season, const std::vector<GraftRecord>& grafts,
                                      int threads);
/// The list of all rows of a site.
MorningReport list_of(const Season& season, std::vector<MorningOfRow> rows);

/// Runs every open graft of the site. Deterministic for equal input and seed on any number of threads.
MorningReport morning(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

/// What `morning` says, and what `since` says of the grafts that are open, in the order of the ledger, with
/// their hours up to the end of the local day `hours_to`: from one life of each.
struct MorningAndSince {
  MorningReport morning;
  SinceReport since;
};
MorningAndSince morning_and_since(const Season& season, const std::vector<GraftRecord>& grafts,
                                  LocalDay hours_to, int threads);

}  // namespace graftcast
