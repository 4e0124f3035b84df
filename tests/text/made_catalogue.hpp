#pragma once
// Compiled catalogues made up byte by byte, as gettext's manual describes them ("The Format of GNU MO
// Files").

#include <cstdint>
#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

namespace graftcast::testing {

using Sentences = std::vector<std::pair<std::string, std::string>>;

/// The forms of a word as they stand in a catalogue, one behind the other.
inline std::string forms(std::initializer_list<std::string> all) {
  std::string text;
  for (const std::string& form : all) text += (&form == all.begin() ? "" : std::string(1, '\0')) + form;
  return text;
}

inline std::string number_bytes(std::uint32_t number, bool big_endian) {
  std::string bytes(4, '\0');
  for (std::size_t i = 0; i < 4; ++i)
    bytes[big_endian ? 3 - i : i] = static_cast<char>(number >> (8 * i) & 0xFFU);
  return bytes;
}

/// The bytes of a catalogue; `sentences` begin with the header, whose key is empty.
inline std::string mo_bytes(const Sentences& sentences, bool big_endian = false) {
  const auto count = static_cast<std::uint32_t>(sentences.size());
  const std::uint32_t header_size = 28;
  std::string tables[2], texts;
  std::uint32_t at = header_size + 2 * 8 * count;
  for (std::size_t side = 0; side < 2; ++side)
    for (const auto& [key, translation] : sentences) {
      const std::string& text = side == 0 ? key : translation;
      tables[side] += number_bytes(static_cast<std::uint32_t>(text.size()), big_endian) +
                      number_bytes(at + static_cast<std::uint32_t>(texts.size()), big_endian);
      texts += text + '\0';
    }
  std::string bytes;
  for (const std::uint32_t number :
       {0x950412deU, 0U, count, header_size, header_size + 8 * count, 0U, header_size + 16 * count})
    bytes += number_bytes(number, big_endian);
  return bytes + tables[0] + tables[1] + texts;
}

inline const std::string polish_header =
    "Content-Type: text/plain; charset=UTF-8\nPlural-Forms: nplurals=3; plural=n==1 ? 0 : n%10>=2 && n%10<=4 "
    "&& "
    "(n%100<10 || n%100>=20) ? 1 : 2;\n";

}  // namespace graftcast::testing
