#include "line_ids.hpp"

#include <array>
#include <bit>

#include <sys/random.h>

#include "graftcast/error.hpp"
#include "text/stable_hash.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyz234567";  // base32, RFC 4648
constexpr int id_letters = 12;
constexpr int bits_a_letter = 5;
constexpr std::string_view end_of_cell("\0", 1);  // which no cell holds

std::string id_of_bits(std::uint64_t bits) {
  std::string id;
  for (int k = 0; k < id_letters; ++k, bits >>= bits_a_letter) id += letters[bits % letters.size()];
  return id;
}

/// Spreads what differs in few bits over all of them (finaliser of MurmurHash3, Appleby 2011).
constexpr std::uint64_t spread(std::uint64_t bits) {
  bits = (bits ^ (bits >> 33U)) * 0xff51afd7ed558ccdU;
  bits = (bits ^ (bits >> 33U)) * 0xc4ceb9fe1a85ec53U;
  return bits ^ (bits >> 33U);
}

}  // namespace

std::string new_line_id() {
  std::array<char, sizeof(std::uint64_t)> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw WriteError("diary.csv", tr("the system gives no random bytes for the line's id"));
  return id_of_bits(std::bit_cast<std::uint64_t>(bytes));
}

std::uint64_t cells_key(std::initializer_list<std::string_view> cells) {
  std::uint64_t key = stable_hash_of_nothing;
  for (const std::string_view cell : cells) key = stable_hash(end_of_cell, stable_hash(cell, key));
  return key;
}

std::string LineIds::next(std::uint64_t cells) {
  return id_of_bits(spread(cells + occurrences_[cells]++));
}

}  // namespace graftcast
