#include "cell.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::size_t longest_cell_bytes = 10'000;

bool is_control(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return byte < 0x20 || byte == 0x7F;
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
    cell.fail(tr("{column} {text} does not exist in {zone}: the clock went forward",
                 "column"_a = cell.column(), "text"_a = shown(cell.text()), "zone"_a = clock.name()),
              tr("the next reading that does is {time}", "time"_a = clock.local_text(resolved.instant)));
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
    fail(tr("{column} holds {count} bytes", "column"_a = column_, "count"_a = content.size()),
         tr("at most {limit} fit", "limit"_a = longest_cell_bytes));
  }
  const bool is_plain = std::none_of(content.begin(), content.end(), [](char letter) {
    return is_control(letter) && letter != '\n' && letter != '\t';
  });
  if (!is_plain) fail(tr("{column} holds a control character", "column"_a = column_), tr("take it out"));
  return std::string(content);
}

std::string Cell::line() const {
  std::string content = words();
  if (content.find_first_of("\n\t") != std::string::npos) {
    fail(tr("{column} holds a line break or a tab", "column"_a = column_), tr("write it in one line"));
  }
  return content;
}

std::optional<double> Cell::number(double low, double high, std::string_view unit) const {
  if (empty()) return std::nullopt;
  const auto value = parse_number(text());
  if (!value)
    fail(tr("{column} {text} is not a number", "column"_a = column_, "text"_a = shown(text())),
         range_hint(low, high, unit));
  if (*value < low || *value > high) {
    fail(tr("{column} {text} is out of range", "column"_a = column_, "text"_a = shown(text())),
         range_hint(low, high, unit));
  }
  return value;
}

std::optional<int> Cell::whole_number(int low, int high) const {
  const auto value = number(low, high, {});
  if (!value) return std::nullopt;
  if (*value != std::floor(*value)) {
    fail(tr("{column} {text} is not a whole number", "column"_a = column_, "text"_a = shown(text())),
         range_hint(low, high, {}));
  }
  return static_cast<int>(*value);
}

std::string Cell::word_of(std::span<const std::string> known) const {
  const std::string_view word = text();
  if (word.empty() || std::find(known.begin(), known.end(), word) != known.end()) return std::string(word);
  fail(tr("{column} {word} is not known", "column"_a = column_, "word"_a = shown(word)),
       names_hint(word, known));
}

RecordTime time_of(const Cell& cell, const Clock& clock) {
  const std::string hint = tr("write a date as 2025-03-14, or a date and time as 2025-03-14T09:30");
  RecordTime result{};
  if (const auto day = parse_day(cell.text()))
    result.day = *day;
  else if (const auto time = parse_time(cell.text()))
    result = on_clock(cell, *time, clock);
  else
    cell.fail(tr("{column} {text} is not a date", "column"_a = cell.column(), "text"_a = shown(cell.text())),
              hint);
  if (!is_plausible(result.day)) {
    cell.fail(tr("the year of {column} {text} is outside 1900 to 2100", "column"_a = cell.column(),
                 "text"_a = shown(cell.text())),
              hint);
  }
  return result;
}

std::string range_hint(double low, double high, std::string_view unit) {
  if (unit.empty()) return tr("give a number from {low} to {high}", "low"_a = low, "high"_a = high);
  return tr("give a number from {low} to {high} {unit}", "low"_a = low, "high"_a = high,
            "unit"_a = translated(unit));
}

std::string names_hint(std::string_view wrong, std::span<const std::string> known) {
  constexpr std::size_t few = 30;
  std::string near = nearest_hint(wrong, known);
  if (!near.empty() || known.empty()) return near;
  if (known.size() > few)
    return tr("give one of the {count} known names, for example {name}", "count"_a = known.size(),
              "name"_a = known[0]);
  return tr("give one of: {names}", "names"_a = fmt::join(known, ", "));
}

}  // namespace graftcast
