#include "encoding.hpp"

#include <algorithm>
#include <cstring>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

bool is_continuation(unsigned char byte) {
  return (byte & 0xC0U) == 0x80U;
}

unsigned char byte_at(std::string_view text, std::size_t index) {
  return static_cast<unsigned char>(text[index]);
}

// Length of the sequence that `lead` begins, and the range its second byte must lie in (Unicode 15, table
// 3-7: this keeps out over-long forms, surrogates and values above U+10FFFF).
struct Sequence {
  std::size_t length;
  unsigned char second_low, second_high;
};

Sequence sequence_of(unsigned char lead) {
  if (lead >= 0xC2 && lead <= 0xDF) return {2, 0x80, 0xBF};
  if (lead == 0xE0) return {3, 0xA0, 0xBF};
  if (lead == 0xED) return {3, 0x80, 0x9F};
  if (lead >= 0xE1 && lead <= 0xEF) return {3, 0x80, 0xBF};
  if (lead == 0xF0) return {4, 0x90, 0xBF};
  if (lead >= 0xF1 && lead <= 0xF3) return {4, 0x80, 0xBF};
  if (lead == 0xF4) return {4, 0x80, 0x8F};
  return {0, 0, 0};
}

bool is_sequence_at(std::string_view text, std::size_t at, const Sequence& sequence) {
  if (sequence.length == 0 || text.size() - at < sequence.length) return false;
  const unsigned char second = byte_at(text, at + 1);
  if (second < sequence.second_low || second > sequence.second_high) return false;
  for (std::size_t k = 2; k < sequence.length; ++k) {
    if (!is_continuation(byte_at(text, at + k))) return false;
  }
  return true;
}

}  // namespace

bool looks_like_utf16(std::string_view head) noexcept {
  if (head.starts_with("\xFF\xFE") || head.starts_with("\xFE\xFF")) return true;
  if (head.size() < 4) return false;
  const auto is_nul = [&](std::size_t index) { return head[index] == '\0'; };
  return is_nul(0) != is_nul(1) && is_nul(0) == is_nul(2) && is_nul(1) == is_nul(3);
}

std::size_t utf8_prefix_length(std::string_view text) noexcept {
  std::size_t at = 0;
  while (at < text.size()) {
    if (byte_at(text, at) < 0x80) {
      ++at;
      continue;
    }
    const Sequence sequence = sequence_of(byte_at(text, at));
    if (!is_sequence_at(text, at, sequence)) return at;
    at += sequence.length;
  }
  return at;
}

bool is_utf8(std::string_view text) noexcept {
  return utf8_prefix_length(text) == text.size();
}

Position position_of_byte(std::string_view text, std::size_t offset, const std::string& name) {
  const std::string_view before = text.substr(0, offset);
  const auto lines = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  const std::size_t last_break = before.rfind('\n');
  const std::size_t line_start = last_break == std::string_view::npos ? 0 : last_break + 1;
  return {name, lines + 1, before.size() - line_start + 1};
}

DataError utf16_error(const std::string& name) {
  return {{name, 1, 1}, tr("the text is encoded as UTF-16"), tr("save it as UTF-8")};
}

DataError nul_error(Position position) {
  return {std::move(position), tr("a NUL byte stands in the text"),
          tr("this is not a text file, or it is damaged")};
}

void require_plain_text(std::string_view text, const std::string& name) {
  if (looks_like_utf16(text)) throw utf16_error(name);
  const std::size_t nul = text.find('\0');
  if (nul != std::string_view::npos) throw nul_error(position_of_byte(text, nul, name));
  const std::size_t good = utf8_prefix_length(text);
  if (good != text.size()) {
    throw DataError(position_of_byte(text, good, name), tr("a byte here is not UTF-8"),
                    tr("save the file as UTF-8"));
  }
}

}  // namespace graftcast
