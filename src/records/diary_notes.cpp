// Notes as typed: taking them apart, and adding them to the diary.

#include <algorithm>
#include <utility>

#include "cell.hpp"
#include "diary_lines.hpp"
#include "line_ids.hpp"
#include "record_files.hpp"
#include "records/folder_lock.hpp"
#include "table_text.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

std::string note_form() {
  return tr("write for example: {note}", "note"_a = "R3-14..20 green");
}

// One note, eaten from the left word by word.
class NoteText {
 public:
  NoteText(std::string_view line, std::size_t number, const std::string& name)
      : line_(line), number_(number), name_(name) {
    skip_blanks();
  }

  bool at_end() const { return at_ >= line_.size(); }
  std::string_view rest() const { return trimmed(line_.substr(at_)); }
  std::string_view word() const { return line_.substr(at_, line_.find_first_of(blanks, at_) - at_); }
  Position position() const { return {name_, number_, at_ + 1}; }

  std::string_view take(std::size_t length) {
    const std::string_view taken = trimmed(line_.substr(at_, length));
    at_ = std::min(at_ + length, line_.size());
    skip_blanks();
    return taken;
  }
  std::string_view take_word() { return take(word().size()); }

 private:
  static constexpr std::string_view blanks = " \t\r";

  void skip_blanks() { at_ = std::min(line_.find_first_not_of(blanks, at_), line_.size()); }

  std::string_view line_;
  std::size_t number_;
  const std::string& name_;
  std::size_t at_ = 0;
};

bool looks_like_a_date(std::string_view word) {
  constexpr std::string_view pattern = "0000-00-00";
  if (word.size() < pattern.size()) return false;
  return std::equal(pattern.begin(), pattern.end(), word.begin(), [](char mark, char letter) {
    return mark == '-' ? letter == '-' : letter >= '0' && letter <= '9';
  });
}

// The time that a note begins with, or nothing: `2025-05-03`, `2025-05-03T18:00` or `2025-05-03 18:00`.
std::string_view take_time(NoteText& note) {
  if (!looks_like_a_date(note.word())) return {};
  const std::string_view rest = note.rest();
  const std::size_t second_word = rest.find_first_not_of(" \t", note.word().size());
  if (second_word != std::string_view::npos && parse_day(note.word())) {
    const std::size_t end = std::min(rest.find_first_of(" \t", second_word), rest.size());
    if (parse_time(rest.substr(0, end))) return note.take(end);
  }
  if (parse_day(note.word()) || parse_time(note.word())) return note.take_word();
  throw DataError(note.position(), tr("{word} is not a date", "word"_a = shown(note.word())),
                  tr("write a date as 2025-05-03, or a date and time as 2025-05-03T18:00"));
}

// Where the first event begins behind the first word, by its own word or, where `any_word`, by a synonym.
std::size_t event_begin(std::string_view rest, std::size_t first_word, bool any_word) {
  for (std::size_t begin = first_word; begin < rest.size();) {
    begin = std::min(rest.find_first_not_of(" \t", begin), rest.size());
    const std::size_t end = std::min(rest.find_first_of(" \t", begin), rest.size());
    const auto found = event_at_start(rest.substr(begin));
    if (found && (any_word || rest.substr(begin, end - begin) == event_word(found->event))) return begin;
    begin = end;
  }
  return rest.size();
}

// Length of what names the grafts: one word, or, as names of stocks and spots may hold blanks, all up to an
// event; a stock may be called "Black Oxford", so synonyms come second.
std::size_t selector_length(std::string_view rest) {
  const std::size_t first_word = std::min(rest.find_first_of(" \t"), rest.size());
  if (!rest.starts_with("stock:") && !rest.starts_with("spot:")) return first_word;
  for (const bool any_word : {false, true}) {
    const std::size_t begin = event_begin(rest, first_word, any_word);
    if (begin < rest.size()) return begin;
  }
  return first_word;
}

Event take_event(NoteText& note) {
  if (note.at_end()) throw DataError(note.position(), tr("the note names no event"), note_form());
  const auto found = event_at_start(note.rest());
  if (!found) {
    throw DataError(note.position(), tr("event {word} is not known", "word"_a = shown(note.word())),
                    names_hint(note.word(), event_words()));
  }
  note.take(found->length);
  return found->event;
}

std::string_view take_value(NoteText& note, EventValue kind) {
  switch (kind) {
    case EventValue::none:
      return {};
    case EventValue::share:
    case EventValue::litres:
    case EventValue::count:
      return parse_number(note.word()) ? note.take_word() : std::string_view();
    case EventValue::spot:
    case EventValue::cover:
    case EventValue::wrap:
    case EventValue::line:
    case EventValue::child:
      return note.take(std::min(note.rest().find('#'), note.rest().size()));
  }
  return {};
}

// A word that is not understood may be what mattered: it is never kept as a remark.
void require_remark(const NoteText& note, Event event) {
  if (note.at_end() || note.rest().starts_with('#')) return;
  const std::string near = nearest_hint(note.word(), event_words());
  throw DataError(note.position(),
                  tr("{word} is not understood after {event}", "word"_a = shown(note.word()),
                     "event"_a = event_word(event)),
                  (near.empty() ? near : near + "; ") + tr("a remark begins with #"));
}

DiaryEntry parse_note(NoteText note, const std::string& now) {
  DiaryEntry entry;
  entry.place = note.position();
  const std::string_view when = take_time(note);
  entry.when = when.empty() ? now : std::string(when);
  if (note.at_end()) throw DataError(note.position(), tr("the note names no graft"), note_form());
  entry.graft = note.take(selector_length(note.rest()));
  entry.event = take_event(note);
  entry.value = take_value(note, about(entry.event).value);
  require_remark(note, entry.event);
  std::string_view comment = note.rest();
  if (comment.starts_with('#')) comment.remove_prefix(1);
  entry.comment = trimmed(comment);
  return entry;
}

// Notes and the diary's text with them at its end.
class AddedNotes {
 public:
  AddedNotes(const TableText& before, std::vector<DiaryEntry> entries)
      : before_(before), entries_(std::move(entries)), table_(before), lines_before_(before.line_count()) {
    for (DiaryEntry& entry : entries_) {
      if (entry.event == Event::split)
        throw DataError(entry.place, tr("split is no note"), tr("split a batch with `graftcast split ID N`"));
      if (entry.id.empty()) entry.id = new_line_id();
    }
    append_all();
  }

  const TableText& table() const { return table_; }

  /// Puts the id of what a void entry takes back in place of its stamp, which other lines may come to share.
  /// Says whether there was one. Error: DataError where it takes back nothing, or more than one line.
  bool resolve_voids(const ExpandedDiary& diary) {
    bool any = false;
    for (const VoidedLines& voided : diary.voids) {
      if (!is_added(voided.line)) continue;
      DiaryEntry& entry = entry_at(voided.line);
      require_one(voided, entry);
      entry.value = voided.taken_back.front().id;
      any = any || voided.by_stamp;
    }
    if (any) append_all();
    return any;
  }

  /// The added ones of `lines`. Error: DataError where one of them concerns no graft.
  std::vector<DiaryLine> of(std::vector<DiaryLine> lines) {
    std::erase_if(lines, [&](const DiaryLine& line) { return !is_added(line.line); });
    for (const DiaryLine& line : lines) {
      if (!line.grafts.empty()) continue;
      throw DataError(entry_at(line.line).place,
                      tr("{graft} means no graft at that time", "graft"_a = shown(line.graft)),
                      tr("check the time, and where the grafts stood"));
    }
    return lines;
  }

  /// Throws `error`, met in the table: at the entry's own place where it lies there.
  [[noreturn]] void blame(const DataError& error) {
    if (!is_added(error.position().line)) throw error;
    throw DataError(entry_at(error.position().line).place, error.message(), error.hint());
  }

 private:
  bool is_added(std::size_t line) const { return line > lines_before_; }

  void append_all() {
    table_ = before_;
    begins_.clear();
    for (const DiaryEntry& entry : entries_) {
      begins_.push_back(table_.line_count() + 1);
      append_entry(table_, entry);
    }
  }

  DiaryEntry& entry_at(std::size_t line) {
    const auto behind = std::upper_bound(begins_.begin(), begins_.end(), line);
    return entries_[static_cast<std::size_t>(behind - begins_.begin()) - 1];
  }

  static void require_one(const VoidedLines& voided, const DiaryEntry& entry) {
    constexpr std::size_t most_listed = 8;
    const auto& lines = voided.taken_back;
    if (lines.empty())
      throw DataError(entry.place,
                      tr("the line of {value} is taken back already", "value"_a = shown(entry.value)));
    if (lines.size() == 1) return;
    std::string listed;
    for (std::size_t k = 0; k < std::min(lines.size(), most_listed); ++k)
      listed += fmt::format("{}{} ({})", k == 0 ? "" : ", ", lines[k].id, lines[k].words);
    throw DataError(
        entry.place,
        trn("{count} line is of {value}", "{count} lines are of {value}", static_cast<long>(lines.size()),
            "count"_a = lines.size(), "value"_a = shown(entry.value)),
        tr("give the id of the one to take back: {lines}",
           "lines"_a = listed + (lines.size() > most_listed ? ", ..." : "")));
  }

  const TableText& before_;
  std::vector<DiaryEntry> entries_;
  TableText table_;
  std::size_t lines_before_;
  std::vector<std::size_t> begins_;  // Lines of the file at which the entries begin.
};

}  // namespace

std::string stamp_of(const Clock& clock, Instant now) {
  std::string local = clock.local_text(now);
  const auto reading = parse_time(local);
  const bool is_unique = reading && clock.resolve(reading->reading).fold == Clock::Resolved::Fold::unique;
  return is_unique ? local : utc_text(now);
}

void append_entry(TableText& table, const DiaryEntry& entry) {
  table.add_missing_columns(diary_columns());
  table.append({{"when", entry.when},
                {"graft", entry.graft},
                {"event", std::string(event_word(entry.event))},
                {"value", entry.value},
                {"comment", entry.comment},
                {"id", entry.id.empty() ? new_line_id() : entry.id},
                {"by", entry.by},
                {"photo", entry.photo}});
}

std::vector<DiaryEntry> parse_notes(std::string_view text, const std::string& shown_name, const Clock& clock,
                                    Instant now) {
  if (!is_utf8(text))
    throw DataError({shown_name, 0, 0}, tr("the notes are not UTF-8"), tr("save them as UTF-8"));
  const std::string stamp = stamp_of(clock, now);
  std::vector<DiaryEntry> entries;
  for (std::size_t number = 1, begin = 0; begin < text.size(); ++number) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const NoteText note(text.substr(begin, end - begin), number, shown_name);
    if (!note.at_end() && !note.rest().starts_with('#')) entries.push_back(parse_note(note, stamp));
    begin = end + 1;
  }
  return entries;
}

std::vector<DiaryLine> append_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                    const KnownNames& known, const std::vector<DiaryEntry>& entries) {
  const FolderLock lock(folder);
  const std::filesystem::path file = folder / diary_file;
  const Ledger ledger = read_ledger(folder, site, clock, known);
  const TableText before = TableText::open(file, diary_columns());
  const auto read = [&](const TableText& table) {
    return expanded_diary(table.text(), file.string(), site, clock, known, ledger);
  };
  read(before);
  AddedNotes added(before, entries);
  try {
    ExpandedDiary diary = read(added.table());
    if (added.resolve_voids(diary)) diary = read(added.table());
    std::vector<DiaryLine> lines = added.of(std::move(diary.lines));
    replace_file(file, added.table().text());
    return lines;
  } catch (const DataError& error) {
    if (error.position().file != file.string()) throw;
    added.blame(error);
  }
}

}  // namespace graftcast
