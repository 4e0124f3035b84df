#pragma once
// Finds what was not said through the catalogue of sentences, in an answer in the made-up language that puts
// every sentence in brackets.

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast::testing {

/// The brackets of the made-up language: signs that stand nowhere else.
inline constexpr std::string_view opening = "\u27e6", closing = "\u27e7";

/// Words of `text`: parted by blanks, brackets, quotes and what ends a clause.
std::vector<std::string> words_in(std::string_view text);

/// Words outside the brackets that no rule lets stand there. Rules: words of `known`; those without a small
/// letter (FILE, UTC); those with a digit, a slash, an equals sign, an underscore or a dot within (dates,
/// numbers, paths, names of columns); options. A closing bracket without an opening one, or one that is never
/// closed, is told as itself.
std::vector<std::string> words_outside_brackets(std::string_view text, const std::set<std::string>& known);

}  // namespace graftcast::testing
