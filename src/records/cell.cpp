#include "cell.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "text/text.hpp"

namespace graftcast {

namespace {

constexpr std::size_t longest_cell_bytes = 10'000;

bool is_control(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return byte < 0x20 || byte == 0x7F;
}

std::string range_hint(double low, double high, std::string_view unit) {
  return fmt::format("give a number from {} to {}{}{}", low, high, unit.empty() ? "" : " ", unit);
}

bool is_plausible(LocalDay day) {
  const auto year = std::chrono::year_month_day(day).year();
  return year >= std::chrono::year(1900) && year <= std::chrono::year(2100);
}

RecordTime on_clock(const Cell& cell, const ParsedTime& time, const Clock& clock) {
  if (time.offset) {
    const Instant instant(time.reading.time_since_epoch() - *time.offset);
    return {clock.day_of(instant), instant};
  }
  const Clock::Resolved resolved = clock.resolve(time.reading);
  if (resolved.fold == Clock::Resolved::Fold::absent) {
    cell.fail(fmt::format("{} {} does not exist in {}: the clock went forward", cell.column(),
                          shown(cell.text()), clock.name()),
              "the next reading that does is " + clock.local_text(resolved.instant));
  }
  return {std::chrono::floor<std::chrono::days>(time.reading), resolved.instant};
}

}  // namespace

std::string_view Cell::text() const {
  return trimmed(rows_.fields()[index_].text);
}

void Cell::fail(const std::string& message, const std::string& hint) const {
  throw DataError(position(), message, hint);
}

std::string Cell::words() const {
  const std::string_view content = text();
  if (content.size() > longest_cell_bytes) {
    fail(fmt::format("{} holds {} bytes", column_, content.size()),
         fmt::format("at most {} fit", longest_cell_bytes));
  }
  const bool is_plain = std::none_of(content.begin(), content.end(), [](char letter) {
    return is_control(letter) && letter != '\n' && letter != '\t';
  });
  if (!is_plain) fail(fmt::format("{} holds a control character", column_), "take it out");
  return std::string(content);
}

std::string Cell::line() const {
  std::string content = words();
  if (content.find_first_of("\n\t") != std::string::npos) {
    fail(fmt::format("{} holds a line break or a tab", column_), "write it in one line");
  }
  return content;
}

std::optional<double> Cell::number(double low, double high, std::string_view unit) const {
  if (empty()) return std::nullopt;
  const auto value = parse_number(text());
  if (!value) fail(fmt::format("{} {} is not a number", column_, shown(text())), range_hint(low, high, unit));
  if (*value < low || *value > high) {
    fail(fmt::format("{} {} is out of range", column_, shown(text())), range_hint(low, high, unit));
  }
  return value;
}

std::optional<int> Cell::whole_number(int low, int high) const {
  const auto value = number(low, high, {});
  if (!value) return std::nullopt;
  if (*value != std::floor(*value)) {
    fail(fmt::format("{} {} is not a whole number", column_, shown(text())), range_hint(low, high, {}));
  }
  return static_cast<int>(*value);
}

std::string Cell::word_of(std::span<const std::string> known) const {
  const std::string_view word = text();
  if (word.empty() || std::find(known.begin(), known.end(), word) != known.end()) return std::string(word);
  fail(fmt::format("{} {} is not known", column_, shown(word)), names_hint(word, known));
}

RecordTime time_of(const Cell& cell, const Clock& clock) {
  const std::string hint = "write a date as 2025-03-14, or a date and time as 2025-03-14T09:30";
  RecordTime result{};
  if (const auto day = parse_day(cell.text()))
    result.day = *day;
  else if (const auto time = parse_time(cell.text()))
    result = on_clock(cell, *time, clock);
  else
    cell.fail(fmt::format("{} {} is not a date", cell.column(), shown(cell.text())), hint);
  if (!is_plausible(result.day)) {
    cell.fail(fmt::format("the year of {} {} is outside 1900 to 2100", cell.column(), shown(cell.text())),
              hint);
  }
  return result;
}

std::string names_hint(std::string_view wrong, std::span<const std::string> known) {
  constexpr std::size_t few = 30;
  std::string near = nearest_hint(wrong, known);
  if (!near.empty() || known.empty()) return near;
  if (known.size() > few)
    return fmt::format("give one of the {} known names, for example {}", known.size(), known[0]);
  return fmt::format("give one of: {}", fmt::join(known, ", "));
}

}  // namespace graftcast
