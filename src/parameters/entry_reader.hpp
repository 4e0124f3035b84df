#pragma once
// Reads one entry of models/*.json, new or on top of one that is there, and checks it.

#include "json_node.hpp"
#include "parameters/models.hpp"

namespace graftcast {

/// Reads the entry at `node` into `entry`. `complete`: all keys must be given; else those that are given
/// replace what it has, and a value replaced without a source of its own is marked as the owner's, grade C.
/// Errors: DataError, also for numbers in an order that the model cannot work with.
void read_entry(const JsonNode& node, bool complete, Entry& entry);

/// The rows of the cold table at `node`: from 0, rising, each colder for 90 % than for 10 %. Errors:
/// DataError.
std::vector<ColdRow> read_cold_rows(const JsonNode& node);

}  // namespace graftcast
