#pragma once
// How an answer is shown on a terminal: width, colour, characters, units.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace graftcast {

enum class UnitSystem : std::uint8_t { metric, us };

/// Narrower terminals are taken as this wide.
inline constexpr std::size_t least_width = 30;
/// Columns that the label of a `labelled` paragraph takes.
inline constexpr std::size_t label_width = 7;

struct TerminalStyle {
  std::size_t width = 80;  ///< Columns.
  bool colour = false;     ///< Colour is an addition: every meaning is in the words as well.
  bool utf8 = true;        ///< Otherwise ASCII alone.
  UnitSystem units = UnitSystem::metric;
};

/// What a stretch of text is, for its colour.
enum class Tone : std::uint8_t { urgent, pressing, attentive, quiet, strong };

/// `text` in the colour of `tone`, or as it is without colour.
std::string painted(const TerminalStyle& style, Tone tone, std::string_view text);

/// A paragraph with a label in a column of its own, each line ended:
///
///     label  text that goes on
///            under itself
///
/// `label` has its colour by `tone`; one of more than six columns moves the whole paragraph to the right.
std::string labelled(const TerminalStyle& style, Tone tone, std::string_view label, std::string_view text);

/// The character that joins the ends of a range: `-`, in UTF-8 an en dash.
std::string_view range_dash(const TerminalStyle& style);

/// The mark of a cut: `~`, in UTF-8 an ellipsis.
std::string_view cut_mark(const TerminalStyle& style);

/// Sentences that several outputs share write ` degC`; where text is UTF-8 the sign stands for it.
std::string with_unit_signs(std::string text);

/// An answer ready to print: with degree signs throughout, or in ASCII where the terminal is not UTF-8.
std::string finished(const TerminalStyle& style, std::string text);

}  // namespace graftcast
