#pragma once
// The table of a struct's keys. From it come reader, checks, writer, listing, schema and documentation; a key
// is the name of the member that holds it.

#include <algorithm>
#include <array>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "parameters/entry.hpp"

namespace graftcast {

/// Where a number stands in its struct, and its key.
struct NumberPlace {
  std::string_view key;
  Parameter Entry::*required = nullptr;
  std::optional<Parameter> Entry::*optional = nullptr;  ///< Set instead for a number that may be absent.

  const Parameter* of(const Entry& entry) const;  ///< Null where it is absent.
  void put(Entry& entry, Parameter parameter) const;
};

struct NumberRow {
  NumberPlace place;
  std::string_view unit, meaning;
  bool above_zero = false;  ///< The model divides by it or takes its logarithm.
};

struct WordRow {
  std::string_view key;
  std::string_view choices;  ///< With blanks between; empty where any text will do.
  std::string_view names;    ///< The section of which it must name an entry; empty where it names none.
  std::string_view meaning;
  std::string (*of)(const Entry& entry);
  void (*put)(Entry& entry, std::string_view word);
};

/// `greater` must lie at least `gap` above `lesser`: else the model divides by zero or answers nonsense.
struct Order {
  NumberPlace lesser, greater;
  double gap = 0;
};

struct KeyTable {
  std::string_view group;  ///< Name of a fixed group of constants; empty where entries bear their own.
  std::span<const NumberRow> numbers;
  std::span<const WordRow> words = {};
  std::span<const Order> orders = {};
};

/// Smallest and greatest sensible number in a unit: guards against a slip of the decimal point or of the
/// unit.
struct UnitLimits {
  std::string_view unit;
  double least, greatest;
};
std::span<const UnitLimits> known_units();
const UnitLimits& limits_of(std::string_view unit);

/// The words of `choices` one by one.
std::vector<std::string> words_in(std::string_view choices);

constexpr std::string_view choices_of(bool) {
  return "yes no";
}

/// The word for a bool, or for a value of an enumeration whose `choices_of` has one for each in their order.
template <typename Value>
std::string word_of(Value value) {
  const auto words = words_in(choices_of(value));
  if constexpr (std::is_same_v<Value, bool>) return words[value ? 0 : 1];
  return words[static_cast<std::size_t>(value)];
}
template <typename Value>
Value value_of(std::string_view word) {
  const auto words = words_in(choices_of(Value{}));
  const auto index = std::ranges::find(words, word) - words.begin();
  if constexpr (std::is_same_v<Value, bool>) return index == 0;
  return static_cast<Value>(index);
}

// ---- Rows from members

/// `callus_lower_c` of `&Species::callus_lower_c`.
template <auto member>
constexpr std::string_view name_of_member() {
  // g++ and clang++ write "... member = &Species::callus_lower_c" and then ';' or ']'.
  constexpr std::string_view function = __PRETTY_FUNCTION__;
  constexpr auto end = function.find_first_of(";]", function.find("member = "));
  constexpr auto from = function.rfind(':', end) + 1;
  return function.substr(from, end - from);
}

template <typename Owner, typename Value>
struct MemberOf {
  using owner = Owner;
  using value = Value;
};
template <typename Owner, typename Value>
constexpr MemberOf<Owner, Value> member_of(Value Owner::*) {
  return {};
}

template <auto member>
constexpr NumberPlace place_of() {
  NumberPlace place{name_of_member<member>()};
  if constexpr (requires(const Entry& entry) { entry.*static_cast<Parameter Entry::*>(member); })
    place.required = static_cast<Parameter Entry::*>(member);
  else
    place.optional = static_cast<std::optional<Parameter> Entry::*>(member);
  return place;
}

/// A number that may be zero or below where its unit allows; of an optional member one that may be absent.
template <auto member>
constexpr NumberRow number(std::string_view unit, std::string_view meaning) {
  return {place_of<member>(), unit, meaning};
}
template <auto member>
constexpr NumberRow above_zero(std::string_view unit, std::string_view meaning) {
  return {place_of<member>(), unit, meaning, true};
}

/// A word with choices: a bool or an enumeration with its `choices_of`.
template <auto member>
constexpr WordRow word(std::string_view meaning) {
  using Member = decltype(member_of(member));
  using Owner = typename Member::owner;
  using Value = typename Member::value;
  return {name_of_member<member>(),
          choices_of(Value{}),
          {},
          meaning,
          [](const Entry& entry) { return word_of(static_cast<const Owner&>(entry).*member); },
          [](Entry& entry, std::string_view word) {
            static_cast<Owner&>(entry).*member = value_of<Value>(word);
          }};
}

/// A text, one of `choices` where these are given.
template <auto member>
constexpr WordRow text(std::string_view meaning, std::string_view choices = {}, std::string_view names = {}) {
  using Owner = typename decltype(member_of(member))::owner;
  return {name_of_member<member>(),
          choices,
          names,
          meaning,
          [](const Entry& entry) { return static_cast<const Owner&>(entry).*member; },
          [](Entry& entry, std::string_view word) { static_cast<Owner&>(entry).*member = word; }};
}

/// The name of an entry of the section `names`.
template <auto member>
constexpr WordRow reference(std::string_view names, std::string_view meaning) {
  return text<member>(meaning, {}, names);
}

/// Each of `members` at least `gap` above the one before.
template <auto... members>
constexpr auto rising(double gap) {
  constexpr std::array places{place_of<members>()...};
  std::array<Order, places.size() - 1> orders;
  for (std::size_t i = 0; i < orders.size(); ++i) orders[i] = {places[i], places[i + 1], gap};
  return orders;
}
/// One is not given without the other; which is greater is left open.
template <auto one, auto other>
constexpr Order together() {
  return {place_of<one>(), place_of<other>(), -std::numeric_limits<double>::infinity()};
}
template <auto lesser, auto greater>
constexpr Order below(double gap) {
  return {place_of<lesser>(), place_of<greater>(), gap};
}

}  // namespace graftcast
