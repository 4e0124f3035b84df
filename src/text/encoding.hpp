#pragma once
// What every text input is checked for before it is split or parsed (private to the layer).

#include <string>
#include <string_view>

#include "graftcast/error.hpp"

namespace graftcast {

inline constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";

/// True when the first bytes of an input are those of UTF-16 (a byte-order mark, or every second byte NUL).
bool looks_like_utf16(std::string_view head) noexcept;

/// Length of the longest well-formed UTF-8 beginning of `text`.
std::size_t utf8_prefix_length(std::string_view text) noexcept;

/// Line and column (bytes, from 1) of byte `offset` of `text`.
Position position_of_byte(std::string_view text, std::size_t offset, const std::string& name);

/// The error that says `name` is UTF-16.
DataError utf16_error(const std::string& name);

/// The error for a NUL byte at `position`.
DataError nul_error(Position position);

/// Throws DataError when `text` is UTF-16, holds a NUL byte or is not well-formed UTF-8.
void require_plain_text(std::string_view text, const std::string& name);

}  // namespace graftcast
