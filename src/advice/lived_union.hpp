#pragma once
// One life of a union for two answers (private to the layer).

#include <optional>
#include <vector>

#include "advice/since.hpp"
#include "ensemble/graft_run.hpp"
#include "release_dates.hpp"

namespace graftcast {

/// A union from grafting to now: its states there, at the beginning of each local day between, and now.
struct LivedUnion {
  UnionCourse past;  ///< Without weights.
  UnionNow now;
};

/// What `since` says of one graft. `run` is that of `record` and has not lived yet; `lived` gets its life.
GraftSince since_of_graft(const Season& season, const GraftRecord& record, GraftRun& run,
                          const DegreeDaySettings& asked, const std::vector<DegreeDaySettings>& also,
                          const std::optional<LocalDay>& hours_to, LivedUnion* lived = nullptr);

}  // namespace graftcast
