#pragma once
// Text for a terminal: how wide it is, and how it is broken, cut and filled up.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast {

/// Columns that `text` (UTF-8) takes on a terminal: two for a wide character, none for a combining one.
std::size_t display_width(std::string_view text);

/// `text` with everything that could steer a terminal replaced by `?`: control characters, line ends, and the
/// marks that turn the direction of writing. Names and comments of files go through it before they are
/// printed.
std::string printable(std::string_view text);

/// `text` in ASCII, column by column: what has no like in ASCII becomes `?` (twice where it is wide), so that
/// a layout made before still stands.
std::string to_ascii(std::string_view text);

/// `text` filled up with blanks to `width` columns, on the right or on the left; a longer text stays as it
/// is.
std::string padded_right(std::string_view text, std::size_t width);
std::string padded_left(std::string_view text, std::size_t width);

/// `text` cut to at most `width` columns; where something is cut, `mark` stands last.
std::string clipped(std::string_view text, std::size_t width, std::string_view mark);

/// `text` broken between words into lines of at most `width` columns; a longer word is broken where it must
/// be, a figure and its unit and the parts of a date (`Sat 14 Jun`) stay together where they can. At least
/// one line.
std::vector<std::string> wrapped(std::string_view text, std::size_t width);

}  // namespace graftcast
