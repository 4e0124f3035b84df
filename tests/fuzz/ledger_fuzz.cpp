// grafts.csv of any bytes: what is accepted has ids of its own, known words and numbers within their ranges.

#include <set>

#include "fuzz_input.hpp"
#include "sample_place.hpp"

using namespace graftcast;
using fuzzing::require;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzzing::tolerate_bad_data([&] {
    const Ledger ledger = ledger_from_text(fuzzing::text_of(data, size), "grafts.csv", fuzzing::place(),
                                           fuzzing::clock(), fuzzing::names());
    std::set<std::string> ids;
    for (const GraftRow& row : ledger.rows) {
      require(!row.id.empty() && ids.insert(row.id).second, "every row has an id of its own");
      require(row.species == "apple" || row.species == "pear", "species are known");
      require(row.count >= 1, "a row has a graft");
      require(!row.shade || (*row.shade >= 0 && *row.shade <= 0.95), "shade in range");
      require(!row.diameter_mm || *row.diameter_mm > 0, "diameters are positive");
      require(ledger.find(row.id) == &row, "rows are found");
    }
  });
  return 0;
}
