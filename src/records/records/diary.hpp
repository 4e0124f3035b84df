#pragma once
// diary.csv: append-only, what was done and seen, when.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "records/ledger.hpp"

namespace graftcast {

/// What the value of an event says.
enum class EventValue : std::uint8_t {
  none,    ///< No value.
  share,   ///< Required, 0..0.95: the shade cloth's share.
  litres,  ///< Optional, 0..1000.
  spot,    ///< Required: a spot of the site.
  count,   ///< Optional, 0 to the `count` of the one graft named: on how many of the batch it was seen.
  stamp,   ///< Required: the `when` of an earlier line as written there, and after a blank its event if need
           ///< be.
  child,   ///< Required: the id of the row that `split` makes.
};

/// An event that a diary line may name.
struct DiaryEvent {
  std::string_view name;
  EventValue value;
  bool seen;      ///< Something seen; otherwise something done.
  bool of_stock;  ///< Concerns the stock, so that it may come before the graft is made.
};

/// All events: those done, those seen, then `void` and `split`.
std::span<const DiaryEvent> diary_events();
/// The event called `name`, or nullptr.
const DiaryEvent* find_diary_event(std::string_view name);

/// One line of diary.csv after checking. `graft` is kept as written (an id, a range `R3-14..20`, `*`,
/// `stock:NAME` or `spot:NAME`); `grafts` lists the ids it meant when read.
struct DiaryLine {
  Instant when{};
  std::string stamp;  ///< The time as written; a later `void` line names it.
  std::string graft;
  std::vector<std::string> grafts;
  std::string event;
  std::string value;
  std::string comment;
  std::size_t line = 0;
  std::optional<double> number() const;  ///< `value` as a number where it is one.
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
/// - A void line takes back the earlier lines with its stamp (and event, where given): those with the same
/// text in
///   `graft` wholly, others for the grafts it names.
/// - Counts of `taken` and `dead` together never exceed the row's `count`, nor does any other count.
std::vector<DiaryLine> read_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                  const Ledger& ledger);

/// The same from the text of the file.
std::vector<DiaryLine> diary_from_text(std::string_view text, const std::string& shown_name, const Site& site,
                                       const Clock& clock, const Ledger& ledger);

/// A line to be added to the diary, as text.
struct DiaryEntry {
  std::string when, graft, event, value, comment;
  Position place;  ///< Where it was read, for messages; may be empty.
};

/// Reads notes as typed on a phone, one a line: `[WHEN] GRAFTS EVENT [VALUE] [COMMENT]`, for example
/// `R3-14..20 green`, `R7 taken 180 # by the gate`, `2025-05-03 18:00 stock:Old pear watered 20`. GRAFTS is
/// all that stands before the first word that is an event; without WHEN the note is of `now`. Blank lines and
/// lines that begin with `#` are passed over. Errors: DataError with line and column.
std::vector<DiaryEntry> parse_notes(std::string_view text, const std::string& shown_name, const Clock& clock,
                                    Instant now);

/// Adds lines at the end of `folder`/diary.csv (made when it is not there), under the folder's lock, durably.
/// A last line without its line end is given one first. Gives the new lines as read back (without `void`
/// lines). Errors: those of reading the site's records, at the entry's own place when it is the entry that is
/// wrong; an entry that concerns no graft; WriteError. Nothing is then written.
std::vector<DiaryLine> append_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                    const KnownNames& known, const std::vector<DiaryEntry>& entries);

/// How a row stands by its diary.
struct Outcome {
  int taken = 0;
  int dead = 0;
  int open = 0;  ///< Neither yet; taken + dead + open is the row's count.
};

/// Outcome of `row` after its lines up to `until`, from `lines_for`. A line without a number means all that
/// are left: `taken` all not dead, `dead` the whole row.
Outcome outcome_of(const GraftRow& row, const std::vector<DiaryLine>& lines, Instant until);

/// The lines of `diary` that concern graft `id`, in order of time.
std::vector<DiaryLine> lines_for(const std::vector<DiaryLine>& diary, std::string_view id);

}  // namespace graftcast
