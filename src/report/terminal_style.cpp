#include "report/terminal_style.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "report/text_layout.hpp"

namespace graftcast {

namespace {

/// ECMA-48 select graphic rendition: bold red, bold yellow, cyan, faint, bold. They read on light and dark
/// alike.
constexpr std::array<std::string_view, 5> tone_codes{"1;31", "1;33", "36", "2", "1"};

}  // namespace

std::string painted(const TerminalStyle& style, Tone tone, std::string_view text) {
  if (!style.colour || text.empty()) return std::string(text);
  return fmt::format("\x1b[{}m{}\x1b[0m", tone_codes.at(static_cast<std::size_t>(tone)), text);
}

std::string labelled(const TerminalStyle& style, Tone tone, std::string_view label, std::string_view text) {
  std::string block;
  const std::size_t indent = std::max(label_width, display_width(label) + 1);
  const std::size_t width = std::max(style.width, least_width);
  for (const std::string& line : wrapped(text, width > indent ? width - indent : 1)) {
    const std::string lead = block.empty() ? std::string(label) : std::string{};
    block += painted(style, tone, lead);
    block += std::string(indent - display_width(lead), ' ');
    block += line + '\n';
  }
  return block;
}

std::string_view range_dash(const TerminalStyle& style) {
  return style.utf8 ? "\u2013" : "-";
}

std::string_view cut_mark(const TerminalStyle& style) {
  return style.utf8 ? "\u2026" : "~";
}

std::string with_unit_signs(std::string text) {
  for (const char* unit : {" degC", " degF"})
    for (std::size_t at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1))
      text.replace(at, 4, " \u00b0");
  return text;
}

std::string finished(const TerminalStyle& style, std::string text) {
  return style.utf8 ? with_unit_signs(std::move(text)) : to_ascii(text);
}

}  // namespace graftcast
