#include "readers/foreign_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "plausibility.hpp"
#include "readers/header_text.hpp"
#include "readers/table_values.hpp"
#include "readers/time_format.hpp"
#include "text/delimited_rows.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Role = HeaderGuess::Role;

bool has_digit(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char letter) { return letter >= '0' && letter <= '9'; });
}

/// Columns by the current row, were it the header row.
std::vector<ForeignColumn> columns_of(const DelimitedRows& rows) {
  std::vector<ForeignColumn> columns;
  for (std::size_t field = 0; field < rows.fields().size(); ++field) {
    std::string header = header_text(rows.fields()[field].text);
    HeaderGuess guess = guess_header(header);
    columns.push_back({std::move(header), std::move(guess), rows.position(field), {}});
  }
  return columns;
}

std::size_t quantities_in(const std::vector<ForeignColumn>& columns) {
  const auto is_a = [&](Role role) {
    return std::count_if(columns.begin(), columns.end(),
                         [&](const ForeignColumn& each) { return each.guess.role == role; });
  };
  return is_a(Role::time) == 0 ? 0 : static_cast<std::size_t>(is_a(Role::quantity));
}

struct HeaderPlace {
  std::size_t quantities = 0;
  std::size_t line = 0;
  char separator = ',';
};

HeaderPlace find_headers(const std::filesystem::path& path) {
  constexpr int most_rows = 60;
  HeaderPlace best;
  for (const char separator : {',', ';', '\t'}) {
    DelimitedRows rows(path, separator);
    try {
      for (int row = 0; row < most_rows && rows.next(); ++row) {
        const std::size_t found = quantities_in(columns_of(rows));
        if (found > best.quantities) best = {found, rows.line(), separator};
      }
    } catch (const DataError&) {
      continue;  // Quotes that make no sense between such separators.
    }
  }
  return best;
}

void take_rows(DelimitedRows& rows, std::vector<ForeignColumn>& columns) {
  while (rows.next()) {
    if (rows.fields().size() < columns.size()) continue;  // Prose, or cut off: for the reader to judge.
    for (std::size_t field = 0; field < columns.size(); ++field)
      columns[field].texts.emplace_back(trimmed(rows.fields()[field].text));
  }
}

/// The cells of `column` that hold a digit; a footer's or a gap's do not.
std::vector<std::string_view> with_digits(const ForeignColumn& column) {
  std::vector<std::string_view> texts;
  for (const std::string& text : column.texts)
    if (has_digit(text)) texts.push_back(text);
  return texts;
}

bool all_fit(const std::vector<std::string_view>& texts, const TimePattern& pattern) {
  return !texts.empty() && std::all_of(texts.begin(), texts.end(), [&](std::string_view text) {
    return pattern.parse(text).has_value();
  });
}

/// Layout of a column of times of day, or nothing.
std::optional<std::string> time_of_day_format(const std::vector<std::string_view>& texts) {
  for (const char* const format : {"%H:%M", "%H:%M:%S", "%I:%M %p", "%I:%M:%S %p", "%I:%M%p"})
    if (all_fit(texts, TimePattern(format))) return format;
  return std::nullopt;
}

[[noreturn]] void refuse_order(const ForeignColumn& column, const std::vector<std::string>& equals,
                               const char* key) {
  throw DataError(
      column.position,
      tr("which of day and month comes first in column \"{header}\" cannot be told from its rows",
         "header"_a = column.header),
      tr("settle it with --column '{key}={header}::{first}' or --column '{key}={header}::{second}'",
         "key"_a = key, "header"_a = column.header, "first"_a = equals.at(0), "second"_a = equals.at(1)));
}

struct Layout {
  std::string format;
  bool day_only = false;
};

/// Layout of a column of dates, with or without a time of day; nothing where it holds none.
std::optional<Layout> date_layout(const ForeignColumn& column) {
  const auto texts = with_digits(column);
  if (texts.empty()) return std::nullopt;
  const auto every = [&](auto fits) { return std::all_of(texts.begin(), texts.end(), fits); };
  if (every([](std::string_view text) { return parse_day(text).has_value(); })) return Layout{"", true};
  if (every([](std::string_view text) { return parse_time(text).has_value(); })) return Layout{"", false};
  TimeFormatGuess guess;
  for (const std::string_view text : texts) guess.take(text);
  const auto answer = guess.answer();
  if (!answer.equals.empty())
    refuse_order(column, answer.equals, TimePattern(answer.equals[0]).has_time_of_day() ? "time" : "date");
  if (answer.format.empty()) return std::nullopt;
  return Layout{answer.format, !TimePattern(answer.format).has_time_of_day()};
}

}  // namespace

ForeignTable read_foreign_table(const std::filesystem::path& path) {
  const HeaderPlace place = find_headers(path);
  if (place.quantities == 0)
    throw DataError({path.string(), 0, 0},
                    tr("no row of headers with a time and anything of the weather is found"),
                    tr("name the columns with --column NAME=HEADER::UNIT"));
  DelimitedRows rows(path, place.separator);
  while (rows.next() && rows.line() < place.line) continue;
  ForeignTable table{columns_of(rows), place.separator != ','};
  take_rows(rows, table.columns);
  return table;
}

ColumnValuesGuess guess_values(const ForeignColumn& column, bool decimal_comma, Quantity quantity, Kind kind,
                               const Unit& unit, bool daily) {
  // Seen in the wild; each a code only where it cannot be a value.
  constexpr std::array<double, 16> codes = {-99,     -99.9, -999,  -999.9, -9999, -6999, -9900, -99.99,
                                            -999.99, 999,   999.9, 9999,   99999, 6999,  32767, 255};
  constexpr std::size_t most_words = 3;
  const Limits limits = physical_limits(quantity, kind, daily);
  ColumnValuesGuess guess;
  std::size_t rises = 0;
  std::size_t falls = 0;
  std::size_t rests = 0;
  const auto note_code = [&](const std::string& text) {
    if (std::find(guess.missing.begin(), guess.missing.end(), text) == guess.missing.end())
      guess.missing.push_back(text);
  };
  for (const std::string& text : column.texts) {
    if (is_missing_word(text) || is_zero_word(quantity, text)) continue;
    const auto value = parse_decimal(text, decimal_comma);
    if (!value) {
      note_code(text);
    } else if (std::find(codes.begin(), codes.end(), *value) != codes.end() &&
               !limits.hold(unit.to_own(*value))) {
      note_code(text);
    } else {
      if (!guess.numbers.empty()) {
        rises += *value > guess.numbers.back();
        falls += *value < guess.numbers.back();
        rests += *value > 0 && *value <= guess.numbers.back() && *value >= guess.numbers.back();
      }
      guess.numbers.push_back(*value);
    }
  }
  guess.readable = guess.missing.size() <= most_words && !guess.numbers.empty();
  guess.grows = rises >= 3 && falls * 3 <= rises;
  guess.never_falls = falls == 0;
  guess.rests = rises >= 3 && rests >= 3 * rises;
  return guess;
}

TimeGuess guess_time(const ForeignTable& table) {
  TimeGuess guess;
  std::optional<TimeGuess::Part> clock;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    const ForeignColumn& column = table.columns[k];
    if (column.guess.role != Role::time) continue;
    if (const auto format = time_of_day_format(with_digits(column))) {
      if (!clock)
        clock = TimeGuess::Part{"time", k, *format == "%H:%M" || *format == "%H:%M:%S" ? "" : *format};
    } else if (const auto layout = date_layout(column)) {
      const bool preferred = column.guess.is_utc && !layout->day_only;
      if (!guess.parts.empty() && !preferred) continue;
      guess.parts = {{layout->day_only ? "date" : "time", k, layout->format}};
      guess.day_only = layout->day_only;
    }
  }
  if (guess.parts.empty())
    throw DataError(
        table.columns.front().position, tr("no column holds dates that can be read"),
        tr("name it with --column 'time=HEADER::%d/%m/%Y %H:%M', with the layout after two colons"));
  if (guess.day_only && clock) {
    guess.parts.push_back(*clock);
    guess.day_only = false;
  }
  return guess;
}

}  // namespace graftcast
