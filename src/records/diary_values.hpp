#pragma once
// The cells `event` and `value` of a diary line (private to the layer).

#include <optional>

#include "cell.hpp"
#include "graftcast/event.hpp"
#include "records/ledger.hpp"

namespace graftcast {

/// The event that the cell names. Error: DataError with the nearest words.
Event event_of(const Cell& cell);

/// Checks the value of `event`; where there is no cell for a required one, the error is at `event_cell`.
/// Errors: DataError.
void check_value(const std::optional<Cell>& cell, const Cell& event_cell, Event event, const Site& site,
                 const KnownNames& known);

}  // namespace graftcast
