#pragma once
// Every sentence that a person reads goes through here, so that a language is one file: English stands in the
// code as the key, a catalogue (gettext's compiled .mo) holds the other language.
//
//   tr("{n} of {all} grafts", "n"_a = open, "all"_a = count)
//   trn("{n} graft", "{n} grafts", n, "n"_a = n)
//   trc("month", "May")
//
// Arguments have names, since languages order them differently; a name that is not given does not compile.
// Errors arise below the reports, which is why this stands in the lowest layer. Answers in JSON stay English:
// they are made without a LanguageScope.

#include <string>
#include <string_view>

#include <fmt/format.h>

namespace graftcast {

using namespace fmt::literals;

class Catalogue;

/// The language of this thread's sentences for as long as it lives; scopes may lie within each other.
class LanguageScope {
 public:
  /// Null: English. `catalogue` must outlive the scope.
  explicit LanguageScope(const Catalogue* catalogue);
  ~LanguageScope();
  LanguageScope(const LanguageScope&) = delete;
  LanguageScope& operator=(const LanguageScope&) = delete;

  /// The catalogue of this thread's innermost scope, to be handed to threads that work for it.
  static const Catalogue* current() noexcept;

 private:
  const Catalogue* outer_;
};

/// Sentence of the current language for the English one, itself where the catalogue has none. `context` tells
/// equal words apart ("May", the month).
std::string_view translated(std::string_view english, std::string_view context = {}) noexcept;
/// The form of the current language for `count` things.
std::string_view translated(std::string_view one, std::string_view many, long count) noexcept;

/// Marks a sentence of a table of constants for the catalogue; `translated` shows it.
constexpr const char* tr_later(const char* english) noexcept {
  return english;
}

/// `pattern` with `named` put in; `english` where a translation's braces do not fit them.
std::string filled_in(std::string_view pattern, std::string_view english, fmt::format_args named);

inline std::string_view text_of(fmt::string_view pattern) {
  return {pattern.data(), pattern.size()};
}

template <class... Named>
std::string tr(fmt::format_string<Named...> english, Named&&... named) {
  const std::string_view key = text_of(english);
  return filled_in(translated(key), key, fmt::make_format_args(named...));
}

template <class... Named>
std::string trc(std::string_view context, fmt::format_string<Named...> english, Named&&... named) {
  const std::string_view key = text_of(english);
  return filled_in(translated(key, context), key, fmt::make_format_args(named...));
}

template <class... Named>
std::string trn(fmt::format_string<Named...> one, fmt::format_string<Named...> many, long count,
                Named&&... named) {
  const std::string_view one_key = text_of(one);
  const std::string_view many_key = text_of(many);
  return filled_in(translated(one_key, many_key, count), count == 1 ? one_key : many_key,
                   fmt::make_format_args(named...));
}

}  // namespace graftcast
