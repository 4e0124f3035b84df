// Notes as typed: taking them apart, and adding them to the diary.

#include <algorithm>

#include "cell.hpp"
#include "diary_lines.hpp"
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

// Length of what names the grafts: one word, or, as names of stocks and spots may hold blanks, all up to an
// event.
std::size_t selector_length(std::string_view rest) {
  const std::size_t first_word = std::min(rest.find_first_of(" \t"), rest.size());
  if (!rest.starts_with("stock:") && !rest.starts_with("spot:")) return first_word;
  for (std::size_t begin = first_word; begin < rest.size();) {
    begin = std::min(rest.find_first_not_of(" \t", begin), rest.size());
    const std::size_t end = std::min(rest.find_first_of(" \t", begin), rest.size());
    if (find_diary_event(rest.substr(begin, end - begin)) != nullptr) return begin;
    begin = end;
  }
  return first_word;
}

const DiaryEvent& take_event(NoteText& note) {
  if (note.at_end()) throw DataError(note.position(), tr("the note names no event"), note_form());
  const DiaryEvent* event = find_diary_event(note.word());
  if (event == nullptr) {
    std::vector<std::string> names;
    for (const DiaryEvent& known : diary_events()) names.emplace_back(known.name);
    throw DataError(note.position(), tr("event {word} is not known", "word"_a = shown(note.word())),
                    names_hint(note.word(), names));
  }
  note.take_word();
  return *event;
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
    case EventValue::stamp:
    case EventValue::child:
      return note.take(std::min(note.rest().find('#'), note.rest().size()));
  }
  return {};
}

DiaryEntry parse_note(NoteText note, const std::string& now) {
  DiaryEntry entry;
  entry.place = note.position();
  const std::string_view when = take_time(note);
  entry.when = when.empty() ? now : std::string(when);
  if (note.at_end()) throw DataError(note.position(), tr("the note names no graft"), note_form());
  entry.graft = note.take(selector_length(note.rest()));
  const DiaryEvent& event = take_event(note);
  entry.event = event.name;
  entry.value = take_value(note, event.value);
  std::string_view comment = note.rest();
  if (comment.starts_with('#')) comment.remove_prefix(1);
  entry.comment = trimmed(comment);
  return entry;
}

// Lines of the file at which each entry begins, once appended.
std::vector<std::size_t> append_all(TableText& table, const std::vector<DiaryEntry>& entries) {
  std::vector<std::size_t> begins;
  for (const DiaryEntry& entry : entries) {
    const DiaryEvent* event = find_diary_event(entry.event);
    if (event != nullptr && event->value == EventValue::child) {
      throw DataError(entry.place, tr("split is no note"), tr("split a batch with `graftcast split ID N`"));
    }
    begins.push_back(table.line_count() + 1);
    append_entry(table, entry);
  }
  return begins;
}

const DiaryEntry& entry_at(const std::vector<DiaryEntry>& entries, const std::vector<std::size_t>& begins,
                           std::size_t line) {
  const auto behind = std::upper_bound(begins.begin(), begins.end(), line);
  return entries[static_cast<std::size_t>(behind - begins.begin()) - 1];
}

void check_concerns_grafts(const std::vector<DiaryLine>& added, const std::vector<DiaryEntry>& entries,
                           const std::vector<std::size_t>& begins) {
  for (const DiaryLine& line : added) {
    if (!line.grafts.empty()) continue;
    throw DataError(entry_at(entries, begins, line.line).place,
                    tr("{graft} means no graft at that time", "graft"_a = shown(line.graft)),
                    tr("check the time, and where the grafts stood"));
  }
}

}  // namespace

std::string stamp_of(const Clock& clock, Instant now) {
  std::string local = clock.local_text(now);
  const auto reading = parse_time(local);
  const bool is_unique = reading && clock.resolve(reading->reading).fold == Clock::Resolved::Fold::unique;
  return is_unique ? local : utc_text(now);
}

void append_entry(TableText& table, const DiaryEntry& entry) {
  Cells cells{{"when", entry.when}, {"graft", entry.graft}, {"event", entry.event}};
  if (!entry.value.empty()) cells.emplace("value", entry.value);
  if (!entry.comment.empty()) cells.emplace("comment", entry.comment);
  table.append(cells);
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
  TableText table = TableText::open(file, diary_columns());
  diary_from_text(table.text(), file.string(), site, clock, ledger);
  const std::size_t lines_before = table.line_count();
  const std::vector<std::size_t> begins = append_all(table, entries);
  try {
    std::vector<DiaryLine> added = diary_from_text(table.text(), file.string(), site, clock, ledger);
    std::erase_if(added, [&](const DiaryLine& line) { return line.line <= lines_before; });
    check_concerns_grafts(added, entries, begins);
    replace_file(file, table.text());
    return added;
  } catch (const DataError& error) {
    if (error.position().file != file.string() || error.position().line <= lines_before) throw;
    throw DataError(entry_at(entries, begins, error.position().line).place, error.message(), error.hint());
  }
}

}  // namespace graftcast
