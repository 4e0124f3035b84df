#include "report/text_layout.hpp"

#include <algorithm>
#include <array>
#include <cwchar>
#include <span>
#include <utility>

#include <clocale>

#include "words/date_words.hpp"

namespace graftcast {

namespace {

/// The character that begins at `at`, which moves behind it. Malformed bytes give U+FFFD one by one.
char32_t next_character(std::string_view text, std::size_t& at) {
  const auto first = static_cast<unsigned char>(text[at++]);
  if (first < 0x80) return first;
  const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : first >= 0xC0 ? 1 : 0;
  if (more == 0 || at + static_cast<std::size_t>(more) > text.size()) return 0xFFFD;
  char32_t character = first & (0x3FU >> more);
  for (int i = 0; i < more; ++i) {
    const auto byte = static_cast<unsigned char>(text[at + static_cast<std::size_t>(i)]);
    if ((byte & 0xC0U) != 0x80U) return 0xFFFD;
    character = character << 6U | (byte & 0x3FU);
  }
  at += static_cast<std::size_t>(more);
  return character;
}

/// The C library's table of widths is bound to a locale, whatever the process's own locale is.
class UnicodeWidths {
 public:
  UnicodeWidths() : locale_(::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr)) {}
  ~UnicodeWidths() {
    if (locale_ != nullptr) ::freelocale(locale_);
  }
  UnicodeWidths(const UnicodeWidths&) = delete;
  UnicodeWidths& operator=(const UnicodeWidths&) = delete;

  /// Columns of `character`; -1 for one that cannot be printed. Without the table one for each.
  int width(char32_t character) const {
    if (character < 0x80) return character < 0x20 || character == 0x7F ? -1 : 1;
    if (character < 0xA0) return -1;
    if (locale_ == nullptr) return 1;
    const ::locale_t before = ::uselocale(locale_);
    const int columns = ::wcwidth(static_cast<wchar_t>(character));
    ::uselocale(before);
    return columns;
  }

 private:
  ::locale_t locale_;
};

int width_of(char32_t character) {
  static const UnicodeWidths widths;
  return widths.width(character);
}

bool turns_direction(char32_t character) {
  return (character >= 0x200E && character <= 0x200F) || (character >= 0x202A && character <= 0x202E) ||
         (character >= 0x2066 && character <= 0x2069) || character == 0x061C;
}

bool is_unsafe(char32_t character) {
  return width_of(character) < 0 || turns_direction(character) || character == 0xFFFD;
}

std::string_view ascii_like(char32_t character) {
  constexpr std::array<std::pair<char32_t, std::string_view>, 8> likes{{{0x2010, "-"},
                                                                        {0x2011, "-"},
                                                                        {0x2013, "-"},
                                                                        {0x2014, "-"},
                                                                        {0x2018, "'"},
                                                                        {0x2019, "'"},
                                                                        {0x00D7, "x"},
                                                                        {0x00A0, " "}}};
  for (const auto& [from, to] : likes)
    if (from == character) return to;
  return {};
}

/// End of the longest beginning of `text` that takes at most `width` columns.
std::size_t end_within(std::string_view text, std::size_t width) {
  std::size_t used = 0;
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size();) {
    const int columns = width_of(next_character(text, at));
    used += columns > 0 ? static_cast<std::size_t>(columns) : 0;
    if (used > width) break;
    end = at;
  }
  return end;
}

bool begins_with_one_of(std::string_view word, std::span<const std::string_view> beginnings) {
  return std::ranges::any_of(beginnings, [&](std::string_view one) { return word.starts_with(one); });
}

std::string_view without_stops(std::string_view word) {
  return word.substr(0, word.find_last_not_of(".,;:)") + 1);
}

bool is_month(std::string_view word) {
  for (unsigned month = 1; month <= 12; ++month)
    if (word == month_word(std::chrono::month(month))) return true;
  return false;
}

bool is_weekday(std::string_view word) {
  for (unsigned day = 0; day < 7; ++day)
    if (word == weekday_word(std::chrono::weekday(day))) return true;
  return false;
}

/// A figure and its unit, and the parts of a date, are read together and stay on one line.
bool keeps_with(std::string_view word, std::string_view next) {
  constexpr std::array<std::string_view, 4> signs{"%", "\u00b0", "degC", "degF"};
  constexpr std::array<std::string_view, 10> units{"m", "mm", "km", "m/s", "kPa", "K", "h", "d", "min", "kB"};
  const auto is_digit = [](char letter) { return letter >= '0' && letter <= '9'; };
  if (word.empty() || next.empty()) return false;
  if (is_digit(word.back())) {
    return begins_with_one_of(next, signs) || std::ranges::find(units, without_stops(next)) != units.end() ||
           (word.size() <= 2 && is_month(without_stops(next)));
  }
  const std::string_view bare = word.starts_with('(') ? word.substr(1) : word;
  return is_digit(next.front()) && next.size() <= 2 && is_weekday(bare);
}

/// End of the word that begins at `at`, with those that stay with it as far as `width` holds them.
std::size_t end_of_word(std::string_view text, std::size_t at, std::size_t width) {
  std::size_t begin = at;
  std::size_t end = std::min(text.find(' ', at), text.size());
  while (end + 1 < text.size()) {
    const std::size_t next = std::min(text.find(' ', end + 1), text.size());
    if (!keeps_with(text.substr(begin, end - begin), text.substr(end + 1, next - end - 1))) break;
    if (display_width(text.substr(at, next - at)) > width) break;
    begin = end + 1;
    end = next;
  }
  return end;
}

/// Adds `word` to `lines`, on the last one if it fits there.
void add_word(std::vector<std::string>& lines, std::string_view word, std::size_t width) {
  const std::size_t columns = display_width(word);
  if (lines.back().empty() || display_width(lines.back()) + 1 + columns > width) {
    lines.emplace_back(word);
  } else {
    lines.back().append(1, ' ').append(word);
  }
  while (display_width(lines.back()) > width) {
    const std::string long_word = lines.back();
    const std::size_t cut = std::max<std::size_t>(end_within(long_word, width), 1);
    lines.back() = long_word.substr(0, cut);
    lines.push_back(long_word.substr(cut));
  }
}

}  // namespace

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const int columns = width_of(next_character(text, at));
    if (columns > 0) width += static_cast<std::size_t>(columns);
  }
  return width;
}

std::string printable(std::string_view text) {
  std::string safe;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    const bool unsafe = is_unsafe(next_character(text, at));
    safe.append(unsafe ? std::string_view("?") : text.substr(begin, at - begin));
  }
  return safe;
}

std::string to_ascii(std::string_view text) {
  std::string ascii;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t character = next_character(text, at);
    if (character < 0x80) {
      ascii.push_back(static_cast<char>(character));
    } else if (const std::string_view like = ascii_like(character); !like.empty()) {
      ascii.append(like);
    } else {
      ascii.append(static_cast<std::size_t>(std::max(0, width_of(character))), '?');
    }
  }
  return ascii;
}

std::string padded_right(std::string_view text, std::size_t width) {
  const std::size_t columns = display_width(text);
  return std::string(text) + std::string(columns < width ? width - columns : 0, ' ');
}

std::string padded_left(std::string_view text, std::size_t width) {
  const std::size_t columns = display_width(text);
  return std::string(columns < width ? width - columns : 0, ' ') + std::string(text);
}

std::string clipped(std::string_view text, std::size_t width, std::string_view mark) {
  if (display_width(text) <= width) return std::string(text);
  const std::size_t room = width > display_width(mark) ? width - display_width(mark) : 0;
  return std::string(text.substr(0, end_within(text, room))) + std::string(mark);
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
  std::vector<std::string> lines{""};
  width = std::max<std::size_t>(width, 1);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = end_of_word(text, at, width);
    if (end > at) add_word(lines, text.substr(at, end - at), width);
    at = end + 1;
  }
  if (lines.size() > 1 && lines.front().empty()) lines.erase(lines.begin());
  return lines;
}

}  // namespace graftcast
