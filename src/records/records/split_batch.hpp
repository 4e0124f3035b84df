#pragma once
// Splitting a batch when part of it is treated differently from now on.

#include <filesystem>
#include <string_view>

#include "records/ledger.hpp"

namespace graftcast {

/// A batch and the row split off it.
struct SplitRows {
  GraftRow parent, child;
};

/// Makes a row of its own of `count` grafts of the batch `id`: `ID.1`, `ID.2`, ... with all other cells
/// alike; the batch's count falls by as many. A diary line `split` says since when (`at`), so that the child
/// shares the batch's earlier lines. The diary is written before the ledger: if the power fails between them,
/// its line names a row that is not there and is passed over. Under the folder's lock, durably. Errors:
/// UsageError (no such graft; not 1..count - 1; more than are left beside those noted `taken` or `dead`; `at`
/// before the grafting), those of reading the site's records, WriteError.
SplitRows split_batch(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                      const KnownNames& known, std::string_view id, int count, Instant at);

}  // namespace graftcast
