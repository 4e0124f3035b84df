#pragma once
// Reads one entry of models/*.json, new or on top of one that is there, and checks it.

#include "json_node.hpp"
#include "model_keys.hpp"
#include "parameters/models.hpp"

namespace graftcast {

/// The entry at `node`. `base`: the entry whose single keys it replaces, or that it is `like`; null when all
/// keys must be given. A value replaced without a source of its own is marked as the owner's, grade C.
/// Errors: DataError.
Entry read_entry(const JsonNode& node, model_keys::Section section, const Entry* base);

/// The rows of the cold table at `node`: from 0, rising, each colder for 90 % than for 10 %. Errors:
/// DataError.
std::vector<ColdRow> read_cold_rows(const JsonNode& node);

/// DataError at `node` when numbers of `entry` stand in an order that the model cannot work with
/// (an optimum below its lower limit, a failed date before the doubtful one, ...).
void check_order(const JsonNode& node, model_keys::Section section, const Entry& entry);

}  // namespace graftcast
