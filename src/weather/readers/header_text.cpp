#include "readers/header_text.hpp"

#include "text/text.hpp"

namespace graftcast {

std::string header_text(std::string_view raw) {
  const std::string_view text = trimmed(raw);
  if (is_utf8(text)) return std::string(text);
  std::string utf8;
  for (const char letter : text) {
    const auto byte = static_cast<unsigned char>(letter);
    if (byte < 0x80U) {
      utf8 += letter;
    } else {
      utf8 += static_cast<char>(0xC0U | (byte >> 6U));
      utf8 += static_cast<char>(0x80U | (byte & 0x3FU));
    }
  }
  return utf8;
}

HeaderParts split_header(std::string_view header) {
  const std::size_t open = header.find_first_of("[(");
  if (open == std::string_view::npos) return {trimmed(header), {}};
  const char closing = header[open] == '[' ? ']' : ')';
  const std::size_t close = header.rfind(closing);
  if (close == std::string_view::npos || close < open) return {trimmed(header), {}};
  return {trimmed(header.substr(0, open)), trimmed(header.substr(open + 1, close - open - 1))};
}

}  // namespace graftcast
