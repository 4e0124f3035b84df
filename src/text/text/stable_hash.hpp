#pragma once
// A short number for a text, alike on every machine.

#include <cstdint>
#include <string_view>

namespace graftcast {

inline constexpr std::uint64_t stable_hash_of_nothing = 0xcbf29ce484222325U;

/// FNV-1a (Fowler, Noll & Vo), 64 bits; `before` is the hash of what stands before `text`. For telling texts
/// apart where nobody gains by making two alike.
constexpr std::uint64_t stable_hash(std::string_view text,
                                    std::uint64_t before = stable_hash_of_nothing) noexcept {
  for (const char letter : text) before = (before ^ static_cast<unsigned char>(letter)) * 0x100000001b3U;
  return before;
}

}  // namespace graftcast
