#pragma once
// The aftercare of a graft of the ledger, with what its run says.

#include "ensemble/graft_run.hpp"
#include "release_dates.hpp"

namespace graftcast {

/// Tasks from the run to `course`'s last mark; `coming` are the days ahead as it will live them, and
/// hardening off is looked for before hour `end`.
std::vector<CareTask> care_tasks(const GraftRun& run, const GraftRow& row, std::span<const DiaryLine> lines,
                                 const UnionNow& now, const UnionCourse& course,
                                 std::span<const UnionDay> coming, std::size_t end);

/// Tasks of a graft of which all that live are noted as taken; it is run to now while it is young enough for
/// its dates to matter.
std::vector<CareTask> care_of_taken(const Season& season, const GraftRecord& record);

}  // namespace graftcast
