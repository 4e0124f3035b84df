#include "page_markup.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>

#include "graftcast/error.hpp"
#include "report/text_layout.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::string_view replacement = "\uFFFD";
constexpr std::size_t sha256_digits = 64;

std::string_view reference_for(char c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      return {};
  }
}

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::array<std::uint8_t, sha256_digits / 2> bytes_of(std::string_view hex) {
  std::array<std::uint8_t, sha256_digits / 2> bytes{};
  bool is_hex = hex.size() == sha256_digits;
  for (std::size_t i = 0; is_hex && i < bytes.size(); ++i) {
    const char* first = hex.data() + 2 * i;
    is_hex = std::from_chars(first, first + 2, bytes.at(i), 16).ptr == first + 2;
  }
  if (!is_hex) throw RangeError("a SHA-256 has 64 hexadecimal digits");
  return bytes;
}

/// A figure and its unit stay on one line.
std::string with_units_kept(std::string text) {
  constexpr std::string_view no_break = "\u00a0";
  for (const std::string_view unit : {" %", " \u00b0"}) {
    for (std::size_t at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1))
      text.replace(at, 1, no_break);
  }
  return text;
}

/// Texts that terminals share write ` degC`; a page has the sign.
std::string with_degree_signs(std::string text) {
  constexpr std::string_view in_ascii = " deg";
  for (std::size_t at = text.find(in_ascii); at != std::string::npos; at = text.find(in_ascii, at + 1)) {
    const std::size_t unit = at + in_ascii.size();
    const bool is_whole = unit + 1 == text.size() || (unit + 1 < text.size() && !is_letter(text[unit + 1]));
    if (unit < text.size() && (text[unit] == 'C' || text[unit] == 'F') && is_whole)
      text.replace(at, in_ascii.size(), " \u00b0");
  }
  return text;
}

constexpr char part_begins = '\x02', part_ends = '\x03';

std::string html_part(Part part, std::string_view text) {
  if (part == Part::name) return html_name(text);
  if (part == Part::strong_name) return "<b>" + html_name(text) + "</b>";
  return part == Part::long_name ? html_long_name(text) : "<b>" + html_sentence(text) + "</b>";
}

}  // namespace

std::string html_text(std::string_view text) {
  if (!is_utf8(text)) return std::string(replacement);
  std::string html;
  html.reserve(text.size() + text.size() / 8);
  for (const char c : text) {
    if (const std::string_view reference = reference_for(c); !reference.empty()) {
      html += reference;
    } else if (is_control(c)) {
      html += replacement;
    } else {
      html += c;
    }
  }
  return html;
}

std::string html_name(std::string_view name) {
  return "<bdi>" + html_text(name) + "</bdi>";
}

std::string html_long_name(std::string_view name) {
  return "<bdi class=\"nm\">" + html_text(name) + "</bdi>";
}

std::string html_sentence(std::string_view text) {
  return html_text(with_units_kept(with_degree_signs(printable(text))));
}

std::string marked(Part part, std::string_view text) {
  std::string marks{part_begins, static_cast<char>(part)};
  for (const char c : text) marks += is_control(c) ? std::string(replacement) : std::string(1, c);
  return marks + part_ends;
}

std::string html_marked(std::string_view sentence) {
  std::string html;
  for (;;) {
    const std::size_t begin = sentence.find(part_begins);
    html += html_sentence(sentence.substr(0, begin));
    if (begin == std::string_view::npos || begin + 2 > sentence.size()) return html;
    const auto part = static_cast<Part>(sentence[begin + 1]);
    sentence.remove_prefix(begin + 2);
    const std::size_t end = std::min(sentence.find(part_ends), sentence.size());
    html += html_part(part, sentence.substr(0, end));
    sentence.remove_prefix(std::min(end + 1, sentence.size()));
  }
}

std::string html_language() {
  return html_text(trc("language of the page, as a code of BCP 47", "en"));
}

std::string policy_hash(std::string_view sha256_hex) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  const auto bytes = bytes_of(sha256_hex);
  std::string base64;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto at = [&](std::size_t k) { return k < bytes.size() ? std::uint32_t{bytes.at(k)} : 0U; };
    const std::uint32_t three = at(i) << 16U | at(i + 1) << 8U | at(i + 2);
    for (std::size_t k = 0; k < 4; ++k)
      base64 += i + k <= bytes.size() ? digits[three >> (18 - 6 * k) & 63U] : '=';
  }
  return "'sha256-" + base64 + "'";
}

}  // namespace graftcast
