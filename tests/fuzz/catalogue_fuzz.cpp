// Compiled catalogues of any bytes, and what they make of a sentence.

#include "fuzz_input.hpp"
#include "text/catalogue.hpp"
#include "text/tr.hpp"

using namespace graftcast;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzzing::tolerate_bad_data([&] {
    const Catalogue catalogue(fuzzing::text_of(data, size), "input.mo");
    const LanguageScope language(&catalogue);
    for (const long count : {0L, 1L, 5L, 102L, -7L})
      fuzzing::require(!trn("{n} graft", "{n} grafts", count, "n"_a = count).empty(),
                       "a sentence says something");
    fuzzing::require(!tr("graft").empty(), "an empty translation is none");
  });
  return 0;
}
