#pragma once
// Changing one place of a JSON text and leaving every other byte as its owner wrote it.

#include <string>

#include "graftcast/error.hpp"

namespace graftcast {

/// `text` with `addition` as the last member or element of the object or array that stands at `place`.
/// `text` is valid JSON, `place` from its JsonDocument, `is_empty` whether there is nothing in it yet.
std::string with_last_entry(const std::string& text, const Position& place, bool is_empty,
                            const std::string& addition);

/// `text` with `value` in place of the number, `true`, `false` or `null` that stands at `place`.
std::string with_plain_value(const std::string& text, const Position& place, const std::string& value);

}  // namespace graftcast
