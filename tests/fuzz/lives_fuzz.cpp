// The site's file of kept lives, damaged in any way, with a right sum over it and without.

#include "ensemble/kept_lives.hpp"
#include "fuzz_input.hpp"
#include "mixed_bits.hpp"

using namespace graftcast;

namespace {

std::string with_sum(std::string_view body) {
  MixedBits sum;
  sum.add(body);
  const auto mixed = sum.mixed();
  return "graftcast lives 1\n" + std::string(reinterpret_cast<const char*>(mixed.data()), sizeof mixed) +
         std::string(body);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzzing::text_of(data, size);
  KeptLives damaged;
  fuzzing::require(!damaged.take_in(bytes), "nothing without a right sum is taken in");
  KeptLives lives;
  if (!lives.take_in(with_sum(bytes)) || !lives.find("G1")) return 0;
  KeptLives again;
  fuzzing::require(again.take_in(lives.bytes()), "what was taken in is written whole");
  fuzzing::require(again.find("G1")->marks == lives.find("G1")->marks, "a life comes back as it was");
  return 0;
}
