#pragma once
// 128 bits mixed from any number of bytes (private to the layer).

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>
#include <string_view>

namespace graftcast {

/// Two chains of multiply and rotate over the same words, finished by splitmix64 (Steele, Lea & Flood 2014).
/// Tells changed inputs apart; withstands no forger.
class MixedBits {
 public:
  void add(std::span<const std::byte> bytes) {
    add_word(bytes.size());
    for (std::size_t at = 0; at < bytes.size(); at += sizeof(std::uint64_t)) {
      std::uint64_t word = 0;
      std::memcpy(&word, bytes.data() + at, std::min(sizeof word, bytes.size() - at));
      add_word(word);
    }
  }
  void add(std::string_view text) { add(std::as_bytes(std::span(text))); }
  template <class Number>
  void add_numbers(std::span<const Number> numbers) {
    add(std::as_bytes(numbers));
  }
  void add(double number) { add_word(std::bit_cast<std::uint64_t>(number)); }

  std::array<std::uint64_t, 2> mixed() const { return {finished(first_ + second_), finished(second_)}; }

 private:
  void add_word(std::uint64_t word) {
    first_ = std::rotl((first_ ^ word) * 0x9E3779B97F4A7C15, 29);
    second_ = std::rotl((second_ + word) * 0xC2B2AE3D27D4EB4F, 31) ^ word;
  }
  static std::uint64_t finished(std::uint64_t z) {
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
    return z ^ (z >> 31);
  }
  std::uint64_t first_ = 0x243F6A8885A308D3, second_ = 0x13198A2E03707344;
};

}  // namespace graftcast
