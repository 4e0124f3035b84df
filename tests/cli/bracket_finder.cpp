#include "bracket_finder.hpp"

#include <algorithm>

namespace graftcast::testing {

namespace {

bool is_small_letter(char letter) {
  // Bytes of letters beyond ASCII count as letters.
  return (letter >= 'a' && letter <= 'z') || static_cast<unsigned char>(letter) >= 0xC3;
}

bool may_stand_anywhere(std::string_view word, const std::set<std::string>& known) {
  return word.starts_with('-') || std::ranges::none_of(word, is_small_letter) ||
         word.find_first_of("0123456789/=_.@") != std::string_view::npos || known.contains(std::string(word));
}

/// The text outside the brackets, a blank for what is within.
std::string outside(std::string_view text, std::vector<std::string>& faults) {
  std::string rest;
  int depth = 0;
  while (!text.empty()) {
    const bool opens = text.starts_with(opening), closes = text.starts_with(closing);
    if (opens) ++depth;
    if (closes && --depth < 0) {
      faults.emplace_back(closing);
      depth = 0;
    }
    rest += depth > 0 || closes ? ' ' : text.front();
    text.remove_prefix(opens ? opening.size() : closes ? closing.size() : 1);
  }
  if (depth > 0) faults.emplace_back(opening);
  return rest;
}

std::string_view without_end(std::string_view word) {
  while (!word.empty() && word.find_last_of(".!?") == word.size() - 1) word.remove_suffix(1);
  return word;
}

}  // namespace

std::vector<std::string> words_in(std::string_view text) {
  constexpr std::string_view parting = " \t\r\n,;:()[]{}<>\"'`|*";
  std::vector<std::string> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = std::min(text.find_first_not_of(parting, at), text.size());
    const std::size_t end = std::min(text.find_first_of(parting, begin), text.size());
    const std::string_view word = without_end(text.substr(begin, end - begin));
    if (!word.empty()) words.emplace_back(word);
    at = end;
  }
  return words;
}

std::vector<std::string> words_outside_brackets(std::string_view text, const std::set<std::string>& known) {
  std::vector<std::string> found;
  for (std::string& word : words_in(outside(text, found)))
    if (!may_stand_anywhere(word, known)) found.push_back(std::move(word));
  return found;
}

}  // namespace graftcast::testing
