// Diaries and notes of any bytes, against a ledger with a batch and a part split off it: every line that
// stands means grafts of the ledger, each once, and no outcome exceeds its batch.

#include <algorithm>
#include <set>

#include "fuzz_input.hpp"
#include "sample_place.hpp"

using namespace graftcast;
using fuzzing::require;

namespace {

const Ledger& ledger() {
  static const Ledger rows = ledger_from_text(
      "id,grafted_on,species,method,stock,spot,count\nA1,2025-03-01,apple,cleft,T,bench,20\n"
      "A1.1,2025-03-01,apple,cleft,T,bench,5\nA2,2025-04-01,pear,chip,U,store,1\nA3,2025-05-01,pear,chip,U,,"
      "9\n",
      "grafts.csv", fuzzing::place(), fuzzing::clock(), fuzzing::names());
  return rows;
}

void read_diary_text(std::string_view text) {
  const auto diary =
      diary_from_text(text, "diary.csv", fuzzing::place(), fuzzing::clock(), fuzzing::names(), ledger());
  std::set<std::string> ids;
  for (const DiaryLine& line : diary) {
    require(!line.id.empty() && ids.insert(line.id).second, "every line has an id of its own");
    require(about(line.event).group != EventGroup::administration, "what stands was done or seen");
    std::vector<std::string> grafts = line.grafts;
    std::sort(grafts.begin(), grafts.end());
    require(std::adjacent_find(grafts.begin(), grafts.end()) == grafts.end(), "a line means a graft once");
    for (const std::string& id : grafts) require(ledger().find(id) != nullptr, "grafts are in the ledger");
  }
  for (const GraftRow& row : ledger().rows) {
    const Outcome outcome = outcome_of(row, lines_for(diary, row.id), Instant::max());
    require(outcome.taken >= 0 && outcome.dead >= 0 && outcome.removed >= 0 && outcome.open >= 0 &&
                outcome.taken + outcome.dead + outcome.removed + outcome.open == row.count,
            "no outcome exceeds the batch");
  }
}

void read_notes_text(std::string_view text) {
  for (const DiaryEntry& entry : parse_notes(text, "input", fuzzing::clock(), Instant{})) {
    require(!entry.graft.empty(), "a note names grafts");
    require(entry.place.line > 0, "a note has a place");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto text = fuzzing::text_of(data, size);
  fuzzing::tolerate_bad_data([&] { read_diary_text(text); });
  fuzzing::tolerate_bad_data([&] { read_notes_text(text); });
  return 0;
}
