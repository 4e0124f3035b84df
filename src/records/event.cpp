// Finding events by the words of the table.

#include "graftcast/event.hpp"

#include <algorithm>

namespace graftcast {

namespace {

constexpr bool is_in_order() {
  for (std::size_t k = 0; k < event_count; ++k)
    if (static_cast<std::size_t>(event_table[k].event) != k) return false;
  return static_cast<std::size_t>(Event::split) + 1 == event_count;
}
static_assert(is_in_order(), "a row for each event, in the order of the enumerators");

constexpr bool is_blank(char letter) {
  return letter == ' ' || letter == '\t' || letter == '\r';
}

constexpr char plain(char letter) {
  if (is_blank(letter)) return '-';
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

constexpr bool begins_with(std::string_view text, std::string_view phrase) {
  if (phrase.empty() || text.size() < phrase.size()) return false;
  if (text.size() > phrase.size() && !is_blank(text[phrase.size()])) return false;
  return std::equal(phrase.begin(), phrase.end(), text.begin(),
                    [](char wanted, char letter) { return plain(wanted) == plain(letter); });
}

/// Length of the longest of the row's phrases that `text` begins with; 0 where there is none.
std::size_t named_length(const EventRow& row, std::string_view text) {
  std::size_t longest = begins_with(text, row.word) ? row.word.size() : 0;
  for (std::size_t begin = 0; begin < row.synonyms.size();) {
    const std::size_t end = std::min(row.synonyms.find('|', begin), row.synonyms.size());
    const std::string_view phrase = row.synonyms.substr(begin, end - begin);
    if (phrase.size() > longest && begins_with(text, phrase)) longest = phrase.size();
    begin = end + 1;
  }
  return longest;
}

}  // namespace

std::string note_words(const EventNote& note) {
  std::string words(event_word(note.event));
  if (!note.value.empty()) words += ' ' + note.value;
  return words;
}

std::optional<NamedEvent> event_at_start(std::string_view text) {
  std::optional<NamedEvent> found;
  for (const EventRow& row : event_table) {
    const std::size_t length = named_length(row, text);
    if (length > (found ? found->length : 0)) found = NamedEvent{row.event, length};
  }
  return found;
}

std::optional<Event> event_named(std::string_view text) {
  const auto found = event_at_start(text);
  if (!found || found->length != text.size()) return std::nullopt;
  return found->event;
}

std::span<const std::string> event_words() {
  static const std::vector<std::string> words = [] {
    std::vector<std::string> all;
    for (const EventRow& row : event_table) all.emplace_back(row.word);
    return all;
  }();
  return words;
}

}  // namespace graftcast
