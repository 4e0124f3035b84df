#include "key_table.hpp"

#include <algorithm>
#include <utility>

namespace graftcast {

namespace {

constexpr auto units = std::to_array<UnitLimits>({
    {"1", 0, 100},
    {"share", 0, 1},
    {"degC", -60, 80},
    {"K", 0, 60},
    {"K d-1", 0, 10},
    {"d", 0, 400},
    {"d-1", 0, 100},
    {"h", 0, 72},
    {"min", 0, 1440},
    {"degC d", 0, 5000},
    {"day of year", 1, 366},
    {"mm", 0, 2000},
    {"cm2", 0, 5000},
    {"m2", 0, 10},
    {"g", 0, 1000},
    {"m s-1", 0, 60},
    {"mmol m-2 s-1", 0, 1000},
    {"mol m-2 s-1", 0, 5},
    {"W m-2", 0, 2000},
    {"W m-2 K-1", 0, 1000},
    {"W m-1 K-1", 0, 10},
});

}  // namespace

std::span<const UnitLimits> known_units() {
  return units;
}

const UnitLimits& limits_of(std::string_view unit) {
  return *std::ranges::find(units, unit, &UnitLimits::unit);
}

std::vector<std::string> words_in(std::string_view choices) {
  std::vector<std::string> words;
  while (!choices.empty()) {
    const auto end = std::min(choices.find(' '), choices.size());
    words.emplace_back(choices.substr(0, end));
    choices.remove_prefix(std::min(end + 1, choices.size()));
  }
  return words;
}

const Parameter* NumberPlace::of(const Entry& entry) const {
  if (required != nullptr) return &(entry.*required);
  const auto& held = entry.*optional;
  return held ? &*held : nullptr;
}

void NumberPlace::put(Entry& entry, Parameter parameter) const {
  if (required != nullptr) {
    entry.*required = std::move(parameter);
  } else {
    entry.*optional = std::move(parameter);
  }
}

Entry::Entry(const KeyTable& table) : name(table.group), table_(&table) {}

std::map<std::string_view, const Parameter*> Entry::numbers() const {
  std::map<std::string_view, const Parameter*> numbers;
  for (const NumberRow& row : table().numbers)
    if (const Parameter* number = row.place.of(*this)) numbers.emplace(row.place.key, number);
  return numbers;
}

std::map<std::string_view, std::string> Entry::words() const {
  std::map<std::string_view, std::string> words;
  for (const WordRow& row : table().words) words.emplace(row.key, row.of(*this));
  return words;
}

}  // namespace graftcast
