// The words by which files and commands name degree-day methods and cut-offs.

#include <array>

#include "graftcast/degree_days.hpp"

namespace graftcast {

namespace {

template <class Enum>
struct Word {
  Enum value;
  std::string_view text;
};

constexpr std::array<Word<DegreeDayMethod>, 7> methods{{
    {DegreeDayMethod::average, "average"},
    {DegreeDayMethod::average_floored, "average-floored"},
    {DegreeDayMethod::triangle, "triangle"},
    {DegreeDayMethod::double_triangle, "double-triangle"},
    {DegreeDayMethod::sine, "sine"},
    {DegreeDayMethod::double_sine, "double-sine"},
    {DegreeDayMethod::hourly, "hourly"},
}};

constexpr std::array<Word<Cutoff>, 4> cutoffs{{
    {Cutoff::none, "none"},
    {Cutoff::horizontal, "horizontal"},
    {Cutoff::intermediate, "intermediate"},
    {Cutoff::vertical, "vertical"},
}};

template <class Words, class Enum>
std::string_view text_of(const Words& words, Enum value) {
  for (const auto& word : words) {
    if (word.value == value) return word.text;
  }
  return {};
}

template <class Enum, std::size_t Size>
std::optional<Enum> value_of(const std::array<Word<Enum>, Size>& words, std::string_view text) {
  for (const auto& word : words) {
    if (word.text == text) return word.value;
  }
  return std::nullopt;
}

template <class Words>
std::vector<std::string> texts_of(const Words& words) {
  std::vector<std::string> texts;
  texts.reserve(words.size());
  for (const auto& word : words) texts.emplace_back(word.text);
  return texts;
}

}  // namespace

std::string_view degree_day_method_word(DegreeDayMethod method) {
  return text_of(methods, method);
}
std::string_view cutoff_word(Cutoff cutoff) {
  return text_of(cutoffs, cutoff);
}
std::optional<DegreeDayMethod> parse_degree_day_method(std::string_view word) {
  return value_of(methods, word);
}
std::optional<Cutoff> parse_cutoff(std::string_view word) {
  return value_of(cutoffs, word);
}
std::vector<std::string> degree_day_method_words() {
  return texts_of(methods);
}
std::vector<std::string> cutoff_words() {
  return texts_of(cutoffs);
}

}  // namespace graftcast
