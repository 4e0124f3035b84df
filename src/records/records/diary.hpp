#pragma once
// diary.csv: append-only, what was done and seen, when.

#include <filesystem>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/event.hpp"
#include "records/ledger.hpp"

namespace graftcast {

/// One line of diary.csv after checking. `graft` is kept as written (an id, a range `R3-14..20`, `*`,
/// `stock:NAME` or `spot:NAME`); `grafts` lists the ids it meant when read.
struct DiaryLine {
  Instant when{};
  std::string stamp;  ///< The time as written; a later `void` line names it.
  std::string graft;
  std::vector<std::string> grafts;
  Event event{};
  std::string value;
  std::string comment;
  std::string id;     ///< As written; of a line without one, made from its cells: alike in every copy.
  std::string by;     ///< Who noted it.
  std::string photo;  ///< Name of a picture's file.
  std::size_t line = 0;
  std::optional<double> number() const;  ///< `value` as a number where it is one.
  bool operator==(const DiaryLine&) const = default;
};

/// Reads `folder`/diary.csv, drops voided lines, expands ids, checks counts. Sorted by time, then line.
/// Absent file: no lines. Errors: OpenError, DataError (line and column).
///
/// - A date without a time stands for noon of that day.
/// - `*`, `stock:` and `spot:` mean the grafts made by that day (for events of the stock also later ones of
///   `stock:`); `spot:` those that stand there at that time, moves considered. A range takes the rows whose
///   ids have its prefix and a whole number within it; both of its ends must be in the ledger.
/// - A row split off a batch shares the batch's earlier lines, except counts; `split` and `void` lines are
/// worked
///   in here and not among the result.
/// - An event is named by its word or a synonym (`event.hpp`).
/// - A void line takes back the line whose id it gives, or the earlier lines with the stamp it gives (and
///   event, where given): those with the same text in `graft` wholly, others for the grafts it names.
/// - Counts of outcomes (`taken`, `dead`, `removed`) together never exceed the row's `count`, nor does any
///   other count.
/// - No two lines have the same id.
std::vector<DiaryLine> read_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                  const KnownNames& known, const Ledger& ledger);

/// The same from the text of the file.
std::vector<DiaryLine> diary_from_text(std::string_view text, const std::string& shown_name, const Site& site,
                                       const Clock& clock, const KnownNames& known, const Ledger& ledger);

/// A line to be added to the diary, as text.
struct DiaryEntry {
  std::string when, graft;
  Event event{};
  std::string value{}, comment{};
  Position place{};  ///< Where it was read, for messages; may be empty.
  std::string by{}, photo{};
  std::string id{};  ///< Empty: made from random bytes.
};

/// Reads notes as typed on a phone, one a line: `[WHEN] GRAFTS EVENT [VALUE] [# COMMENT]`, for example
/// `R3-14..20 green`, `R7 taken 180 # by the gate`, `2025-05-03 18:00 stock:Old pear watered 20`. GRAFTS is
/// one word or, of `stock:` and `spot:`, all that stands before the first word that is an event; EVENT is its
/// word or a synonym; without WHEN the note is of `now`. Blank lines and lines that begin with `#` are passed
/// over. What is not understood is never kept as a comment. Errors: DataError with line and column.
std::vector<DiaryEntry> parse_notes(std::string_view text, const std::string& shown_name, const Clock& clock,
                                    Instant now);

/// Adds lines at the end of `folder`/diary.csv (made when it is not there), under the folder's lock, durably.
/// A last line without its line end is given one first; the columns `id`, `by` and `photo` are added where
/// the file lacks them, and old lines keep empty cells there. An entry `void` that gives a stamp is written
/// with the id of the line it takes back. Gives the new lines as read back (without `void` lines). Errors:
/// those of reading the site's records, at the entry's own place when it is the entry that is wrong; an entry
/// that concerns no graft, or takes back nothing, or by its stamp more than one line; WriteError. Nothing is
/// then written.
std::vector<DiaryLine> append_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                    const KnownNames& known, const std::vector<DiaryEntry>& entries);

/// How a row stands by its diary.
struct Outcome {
  int taken = 0;
  int dead = 0;
  int removed = 0;  ///< Taken away before they were either.
  int open = 0;     ///< None of these yet; the four add up to the row's count.
};

/// Outcome of `row` after its lines up to `until`, from `lines_for`. A line without a number means all that
/// are left: `taken` all not dead, `dead` the whole row, `removed` those that are open.
Outcome outcome_of(const GraftRow& row, const std::vector<DiaryLine>& lines, Instant until);

/// The last of `lines` (in order of time) that tells one of `events` and that no later one undoes; or
/// nullptr.
const DiaryLine* last_standing(std::span<const DiaryLine> lines, std::initializer_list<Event> events);

/// The lines of `diary` that concern graft `id`, in order of time.
std::vector<DiaryLine> lines_for(const std::vector<DiaryLine>& diary, std::string_view id);

}  // namespace graftcast
