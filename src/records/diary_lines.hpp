#pragma once
// Diary lines between reading and expansion (private to the layer).

#include <vector>

#include "graft_selector.hpp"
#include "records/diary.hpp"

namespace graftcast {

struct DiaryPlace {
  std::size_t line = 0, column = 0;
};

/// A line whose cells have been read, not yet set against the others.
struct ParsedDiaryLine {
  DiaryLine line;
  const DiaryEvent* event = nullptr;
  GraftSelector selector;
  DiaryPlace when_place, graft_place, value_place;
  bool is_void_wholly = false;        ///< A later line takes it back.
  bool takes_back_wholly = false;     ///< A void line that takes back one of the same grafts.
  std::vector<std::size_t> void_for;  ///< Void lines that take it back for some of its grafts.
};

inline bool is_void(const ParsedDiaryLine& line) {
  return line.event->value == EventValue::stamp;
}
inline bool is_split(const ParsedDiaryLine& line) {
  return line.event->value == EventValue::child;
}
/// Whether the line says on how many grafts of a batch something was seen.
inline bool has_count(const ParsedDiaryLine& line) {
  return line.event->value == EventValue::count && !line.line.value.empty();
}

/// Sets the lines of a diary (in the order of the file) against each other and the ledger: voids, splits,
/// expansion of selections, counts. Gives the lines that stand, by time. Errors: DataError in `shown_name`.
std::vector<DiaryLine> expand_diary(std::vector<ParsedDiaryLine> lines, const std::string& shown_name,
                                    const Clock& clock, const LedgerIndex& index);

/// The columns of diary.csv that have a meaning, in their usual order.
const std::vector<std::string>& diary_columns();

/// Adds `entry` to the text of a diary.
class TableText;
void append_entry(TableText& table, const DiaryEntry& entry);

/// The time `now` as a stamp: the site's clock where that is unambiguous, else UTC.
std::string stamp_of(const Clock& clock, Instant now);

}  // namespace graftcast
