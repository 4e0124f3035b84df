#pragma once
// Reads one number of models/*.json with its unit, range, spread, source and grade.

#include "json_node.hpp"
#include "key_table.hpp"

namespace graftcast {

/// The number at `node`; `published` is the one whose parts it replaces, or null when it must be complete.
/// Errors: DataError.
Parameter read_parameter(const JsonNode& node, const NumberRow& row, const Parameter* published);

/// `normal`, `lognormal` or `none`.
std::string_view spread_word(Parameter::Spread spread);

}  // namespace graftcast
