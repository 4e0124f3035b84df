#include "text/json_edit.hpp"

#include <algorithm>

namespace graftcast {

namespace {

std::size_t offset_of(const std::string& text, const Position& place) {
  std::size_t line_start = 0;
  for (std::size_t line = 1; line < place.line; ++line) line_start = text.find('\n', line_start) + 1;
  return line_start + place.column - 1;
}

/// The bracket that closes the one at `at`; strings are passed over. The text is valid JSON.
std::size_t closing_of(const std::string& text, std::size_t at) {
  int depth = 0;
  for (bool in_string = false; at < text.size(); ++at) {
    const char letter = text[at];
    if (in_string && letter == '\\') {
      ++at;
    } else if (letter == '"') {
      in_string = !in_string;
    } else if (!in_string && (letter == '{' || letter == '[')) {
      ++depth;
    } else if (!in_string && (letter == '}' || letter == ']') && --depth == 0) {
      break;
    }
  }
  return at;
}

}  // namespace

std::string with_last_entry(const std::string& text, const Position& place, bool is_empty,
                            const std::string& addition) {
  const std::size_t closing = closing_of(text, offset_of(text, place));
  const std::size_t end = is_empty ? closing : text.find_last_not_of(" \t\r\n", closing - 1) + 1;
  return text.substr(0, end) + (is_empty ? "" : ",\n   ") + addition + text.substr(end);
}

std::string with_plain_value(const std::string& text, const Position& place, const std::string& value) {
  const std::size_t begin = offset_of(text, place);
  const std::size_t end = std::min(text.size(), text.find_first_of(",]} \t\r\n", begin));
  return text.substr(0, begin) + value + text.substr(end);
}

}  // namespace graftcast
