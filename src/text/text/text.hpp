#pragma once
// Small readings of text that every file format here needs.

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace graftcast {

/// Whole content of a text file, without a byte-order mark. Valid: UTF-8 up to `limit_bytes`.
/// Errors: OpenError (absent, folder, no permission); DataError (UTF-16, NUL byte, invalid UTF-8, too long).
std::string read_text_file(const std::filesystem::path& path, std::size_t limit_bytes = 64U << 20U);

/// Whole content of any plain file up to `limit_bytes`, as it is. Errors: OpenError; DataError (too long).
std::string read_file_bytes(const std::filesystem::path& path, std::size_t limit_bytes = 64U << 20U);

/// A finite decimal number that is the whole of `text` ("1.5", "-3e2"), or nothing. Independent of locale;
/// "nan", "inf", hexadecimal and overflow ("1e400") give nothing.
std::optional<double> parse_number(std::string_view text) noexcept;

/// `text` without blanks at either end.
std::string_view trimmed(std::string_view text) noexcept;

/// True when `text` is well-formed UTF-8.
bool is_utf8(std::string_view text) noexcept;

/// `text` in double quotes for a message: at most about `longest` bytes, control characters shown as `?`.
std::string shown(std::string_view text, std::size_t longest = 40);

/// Up to `most` of `known` that come nearest to `wrong` (restricted Damerau-Levenshtein distance, case
/// folded), nearest first, as "did you mean a, b or c"; empty when nothing is near.
std::string nearest_hint(std::string_view wrong, std::span<const std::string> known, std::size_t most = 3);

}  // namespace graftcast
