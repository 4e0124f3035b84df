#pragma once
// Diary lines between reading and expansion (private to the layer).

#include <cstdint>
#include <string>
#include <vector>

#include "graft_selector.hpp"
#include "records/diary.hpp"

namespace graftcast {

struct DiaryPlace {
  std::size_t line = 0, column = 0;
};

/// A line that was taken back, in a word or two for whoever has to choose.
struct TakenBackLine {
  std::string id, words;
};

/// A line whose cells have been read, not yet set against the others.
struct ParsedDiaryLine {
  DiaryLine line;
  GraftSelector selector;
  DiaryPlace when_place, graft_place, value_place, id_place;
  std::uint64_t cells = 0;                ///< Key of its texts, for an id where it has none.
  bool is_void_wholly = false;            ///< A later line takes it back.
  bool takes_back_wholly = false;         ///< A void line that takes back one of the same grafts.
  std::vector<std::size_t> void_for;      ///< Void lines that take it back for some of its grafts.
  bool by_stamp = false;                  ///< A void line that gives a time, not an id.
  std::vector<TakenBackLine> taken_back;  ///< What a void line takes back.
};

inline bool is_void(const ParsedDiaryLine& line) {
  return line.line.event == Event::taken_back;
}
inline bool is_split(const ParsedDiaryLine& line) {
  return line.line.event == Event::split;
}
/// Whether the line says of how many grafts of a batch it is true.
inline bool has_count(const ParsedDiaryLine& line) {
  return about(line.line.event).counts() && !line.line.value.empty();
}

/// What one `void` line takes back.
struct VoidedLines {
  std::size_t line = 0;   ///< Where the `void` line stands in the file.
  bool by_stamp = false;  ///< It gives a time, not an id.
  std::vector<TakenBackLine> taken_back;
};

/// A diary whose lines have been set against each other.
struct ExpandedDiary {
  std::vector<DiaryLine> lines;  ///< Those that stand, by time.
  std::vector<VoidedLines> voids;
};

/// Sets the lines of a diary (in the order of the file) against each other and the ledger: voids, splits,
/// expansion of selections, counts. Errors: DataError in `shown_name`.
ExpandedDiary expand_diary(std::vector<ParsedDiaryLine> lines, const std::string& shown_name,
                           const Clock& clock, const LedgerIndex& index);

/// As `diary_from_text`, with what the `void` lines take back.
ExpandedDiary expanded_diary(std::string_view text, const std::string& shown_name, const Site& site,
                             const Clock& clock, const KnownNames& known, const Ledger& ledger);

/// The columns of diary.csv that have a meaning, in their usual order.
const std::vector<std::string>& diary_columns();

/// Adds `entry` to the text of a diary, which gets the columns that it lacks.
class TableText;
void append_entry(TableText& table, const DiaryEntry& entry);

/// The time `now` as a stamp: the site's clock where that is unambiguous, else UTC.
std::string stamp_of(const Clock& clock, Instant now);

}  // namespace graftcast
