// wood.csv of any bytes: what is accepted has ids of its own, known words and numbers within their ranges.

#include <algorithm>
#include <array>
#include <set>

#include "fuzz_input.hpp"
#include "records/wood.hpp"
#include "sample_place.hpp"

using namespace graftcast;
using fuzzing::require;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr std::array<std::string_view, 4> stores{"fridge", "shed", "water", "none"};
  fuzzing::tolerate_bad_data([&] {
    std::set<std::string> ids;
    for (const WoodRow& row :
         wood_from_text(fuzzing::text_of(data, size), "wood.csv", fuzzing::clock(), fuzzing::names())) {
      require(!row.id.empty() && ids.insert(row.id).second, "every row has an id of its own");
      require(row.species.empty() || row.species == "apple" || row.species == "pear", "species are known");
      require(std::ranges::find(stores, row.stored) != stores.end(), "stores are known");
      require(!row.count || *row.count >= 0, "nobody owes wood");
    }
  });
  return 0;
}
