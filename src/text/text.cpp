#include "text/text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>
#include <utility>
#include <vector>

#include "encoding.hpp"
#include "graftcast/error.hpp"
#include "open_file.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::size_t read_block_bytes = 64U << 10U;

[[noreturn]] void throw_too_long(const std::string& name, std::size_t limit_bytes) {
  throw DataError({name, 0, 0}, tr("the file is longer than {limit} bytes", "limit"_a = limit_bytes),
                  tr("split it, or check that it is the file meant"));
}

std::string read_all(const OpenFile& file, std::size_t limit_bytes) {
  std::string content;
  for (;;) {
    const std::size_t filled = content.size();
    content.resize(filled + read_block_bytes);
    const std::size_t count = file.read(content.data() + filled, read_block_bytes);
    content.resize(filled + count);
    if (count == 0) return content;
    if (content.size() > limit_bytes) throw_too_long(file.name(), limit_bytes);
  }
}

// Letter case, and which of blank, underscore and hyphen joins words, are not what a person got wrong.
char folded(char letter) {
  if (letter >= 'A' && letter <= 'Z') return static_cast<char>(letter - 'A' + 'a');
  return letter == '_' || letter == ' ' ? '-' : letter;
}

std::string folded(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(), [](char letter) { return folded(letter); });
  return result;
}

// Restricted Damerau-Levenshtein distance (optimal string alignment): insert, delete, replace, swap
// neighbours.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

// How far `name` is from `wrong`, or nothing when it is too far to be what was meant.
std::optional<std::size_t> nearness(std::string_view wrong, std::string_view name) {
  const std::size_t distance = edit_distance(wrong, name);
  const std::size_t allowed = wrong.size() <= 3 ? 1 : wrong.size() <= 6 ? 2 : 3;
  if (distance <= allowed) return distance;
  // The beginning of a name ("whip") is as near as one slip of the pen, another part ("Lisbon") as the
  // farthest.
  if (wrong.size() < 3 || name.find(wrong) == std::string_view::npos) return std::nullopt;
  return name.starts_with(wrong) ? 0 : allowed;
}

bool is_control(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return byte < 0x20 || byte == 0x7F;
}

std::string did_you_mean(std::span<const std::string> names) {
  if (names.size() == 1) return tr("did you mean {name}", "name"_a = names[0]);
  return tr("did you mean {names} or {last}", "names"_a = fmt::join(names.first(names.size() - 1), ", "),
            "last"_a = names.back());
}

}  // namespace

std::string read_text_file(const std::filesystem::path& path, std::size_t limit_bytes) {
  const OpenFile file(path, path.string());
  std::string content = read_all(file, limit_bytes);
  if (content.starts_with(utf8_mark)) content.erase(0, utf8_mark.size());
  require_plain_text(content, file.name());
  return content;
}

std::string read_file_bytes(const std::filesystem::path& path, std::size_t limit_bytes) {
  return read_all(OpenFile(path, path.string()), limit_bytes);
}

std::optional<double> parse_number(std::string_view text) noexcept {
  if (text.size() > 1 && text.front() == '+' && text[1] != '-' && text[1] != '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || fault != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
    return std::nullopt;
  }
  return value;
}

std::string_view trimmed(std::string_view text) noexcept {
  constexpr std::string_view blanks = " \t\r\n\v\f";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string shown(std::string_view text, std::size_t longest) {
  std::size_t length = std::min(text.size(), longest);
  // A character is not cut in the middle: bytes 10xxxxxx continue one.
  while (length < text.size() && length > 0 && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U)
    --length;
  std::string result = "\"";
  for (const char letter : text.substr(0, length)) result += is_control(letter) ? '?' : letter;
  return result + (length < text.size() ? "...\"" : "\"");
}

std::string nearest_hint(std::string_view wrong, std::span<const std::string> known, std::size_t most) {
  constexpr std::size_t longest_name = 64;
  if (wrong.empty() || wrong.size() > longest_name) return {};
  const std::string sought = folded(wrong);
  std::vector<std::pair<std::size_t, std::string>> near;
  for (const std::string& name : known) {
    if (const auto distance = nearness(sought, folded(name))) near.emplace_back(*distance, name);
  }
  if (near.empty() || most == 0) return {};
  std::sort(near.begin(), near.end());
  near.erase(std::unique(near.begin(), near.end()), near.end());
  std::vector<std::string> names;
  for (std::size_t k = 0; k < std::min(most, near.size()); ++k) names.push_back(near[k].second);
  return did_you_mean(names);
}

}  // namespace graftcast
