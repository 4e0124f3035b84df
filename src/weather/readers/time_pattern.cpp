#include "readers/time_pattern.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::local_seconds;

namespace {

constexpr std::string_view known_directives = "YymdebjHIMSpzsNn";

std::string_view expanded(char directive) {
  switch (directive) {
    case 'F':
      return "%Y-%m-%d";
    case 'T':
      return "%H:%M:%S";
    case 'R':
      return "%H:%M";
    case 'D':
      return "%m/%d/%y";
    default:
      return {};
  }
}

char lower(char letter) {
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}
bool is_digit(char letter) {
  return letter >= '0' && letter <= '9';
}
bool is_blank(char letter) {
  return letter == ' ' || letter == '\t';
}

/// What the directives have found so far.
struct Parts {
  int year = 1970, month = 1, day = 1, day_of_year = 0, hour = 0, minute = 0, second = 0;
  bool afternoon = false, has_half = false;
  std::optional<std::chrono::seconds> offset;
  std::optional<long> unix_time;
  std::optional<double> day_number;
};

/// Walks along the text.
struct Cursor {
  std::string_view rest;

  std::optional<long> number(std::size_t most_digits) {
    long value = 0;
    std::size_t used = 0;
    for (; used < std::min(most_digits, rest.size()) && is_digit(rest[used]); ++used) {
      value = 10 * value + (rest[used] - '0');
    }
    if (used == 0) return std::nullopt;
    rest.remove_prefix(used);
    return value;
  }
  bool take(char letter) {
    if (rest.empty() || lower(rest.front()) != lower(letter)) return false;
    rest.remove_prefix(1);
    return true;
  }
  void skip_blanks() {
    while (!rest.empty() && is_blank(rest.front())) rest.remove_prefix(1);
  }
};

bool read_number(Cursor& cursor, std::size_t most_digits, int least, int most, int& into) {
  const auto value = cursor.number(most_digits);
  if (!value || *value < least || *value > most) return false;
  into = static_cast<int>(*value);
  return true;
}

/// All four digits, or a year written 25 would be one of antiquity.
bool read_long_year(Cursor& cursor, Parts& parts) {
  const std::size_t before = cursor.rest.size();
  return read_number(cursor, 4, 0, 9999, parts.year) && before - cursor.rest.size() == 4;
}

bool read_short_year(Cursor& cursor, Parts& parts) {
  if (!read_number(cursor, 2, 0, 99, parts.year)) return false;
  parts.year += parts.year >= 69 ? 1900 : 2000;
  return true;
}

/// The English name of a month, whole or its first three letters.
bool read_month_name(Cursor& cursor, Parts& parts) {
  constexpr std::array<std::string_view, 12> month_names = {"january",   "february", "march",    "april",
                                                            "may",       "june",     "july",     "august",
                                                            "september", "october",  "november", "december"};
  for (std::size_t month = 0; month < month_names.size(); ++month) {
    Cursor ahead = cursor;
    const auto matches = [&](std::string_view name) {
      return std::all_of(name.begin(), name.end(), [&](char letter) { return ahead.take(letter); });
    };
    if (!matches(month_names.at(month).substr(0, 3))) continue;
    cursor = ahead;
    if (matches(month_names.at(month).substr(3))) cursor = ahead;
    parts.month = static_cast<int>(month) + 1;
    return true;
  }
  return false;
}

bool read_seconds(Cursor& cursor, Parts& parts) {
  if (!read_number(cursor, 2, 0, 59, parts.second)) return false;
  if (cursor.take('.')) return cursor.number(9).has_value();
  return true;
}

bool read_half_of_day(Cursor& cursor, Parts& parts) {
  parts.has_half = true;
  parts.afternoon = cursor.take('p');
  if (!parts.afternoon && !cursor.take('a')) return false;
  const bool dotted = cursor.take('.');
  return !cursor.take('m') || !dotted || cursor.take('.');
}

bool read_offset(Cursor& cursor, Parts& parts) {
  if (cursor.take('z')) {
    parts.offset = std::chrono::seconds(0);
    return true;
  }
  const bool west = cursor.take('-');
  int hour = 0;
  int minute = 0;
  if ((!west && !cursor.take('+')) || !read_number(cursor, 2, 0, 23, hour)) return false;
  const bool colon = cursor.take(':');
  if (colon || (!cursor.rest.empty() && is_digit(cursor.rest.front()))) {
    if (!read_number(cursor, 2, 0, 59, minute)) return false;
  }
  const std::chrono::seconds size = std::chrono::hours(hour) + std::chrono::minutes(minute);
  parts.offset = west ? -size : size;
  return true;
}

bool read_unix_time(Cursor& cursor, Parts& parts) {
  const bool before = cursor.take('-');
  const auto value = cursor.number(11);
  if (!value) return false;
  parts.unix_time = before ? -*value : *value;
  return true;
}

/// Day numbers of spreadsheets from 1954 to 2119; others are too likely to be something else.
bool read_day_number(Cursor& cursor, Parts& parts, bool whole) {
  const auto day = cursor.number(5);
  if (!day || *day < 20000 || *day > 80000) return false;
  double number = static_cast<double>(*day);
  if (!whole && (cursor.take('.') || cursor.take(','))) {
    double place = 0.1;
    for (; !cursor.rest.empty() && is_digit(cursor.rest.front()); place /= 10) {
      number += place * (cursor.rest.front() - '0');
      cursor.rest.remove_prefix(1);
    }
  }
  parts.day_number = number;
  return true;
}

bool read_directive(char directive, Cursor& cursor, Parts& parts) {
  switch (directive) {
    case 'Y':
      return read_long_year(cursor, parts);
    case 'y':
      return read_short_year(cursor, parts);
    case 'm':
      return read_number(cursor, 2, 1, 12, parts.month);
    case 'd':
      return read_number(cursor, 2, 1, 31, parts.day);
    case 'e':
      cursor.skip_blanks();
      return read_number(cursor, 2, 1, 31, parts.day);
    case 'b':
      return read_month_name(cursor, parts);
    case 'j':
      return read_number(cursor, 3, 1, 366, parts.day_of_year);
    case 'H':
      return read_number(cursor, 2, 0, 24, parts.hour);
    case 'I':
      return read_number(cursor, 2, 1, 12, parts.hour);
    case 'M':
      return read_number(cursor, 2, 0, 59, parts.minute);
    case 'S':
      return read_seconds(cursor, parts);
    case 'p':
      return read_half_of_day(cursor, parts);
    case 'z':
      return read_offset(cursor, parts);
    case 'N':
    case 'n':
      return read_day_number(cursor, parts, directive == 'n');
    default:
      return read_unix_time(cursor, parts);
  }
}

std::optional<LocalDay> day_of(const Parts& parts) {
  using namespace std::chrono;
  if (parts.day_of_year > 0) {
    const bool fits = parts.day_of_year < 366 || year(parts.year).is_leap();
    if (!fits) return std::nullopt;
    return LocalDay(local_days(year(parts.year) / January / 1)) + std::chrono::days(parts.day_of_year - 1);
  }
  const year_month_day date{year(parts.year), month(static_cast<unsigned>(parts.month)),
                            std::chrono::day(static_cast<unsigned>(parts.day))};
  if (!date.ok()) return std::nullopt;
  return LocalDay(date);
}

/// Fractions of a day are written with few digits: a second or two beside a full minute means the minute.
local_seconds time_of_day_number(double number) {
  constexpr double unix_epoch = 25569;
  const long second = std::lround((number - unix_epoch) * 86400);
  const long minute = std::lround(static_cast<double>(second) / 60) * 60;
  return local_seconds(std::chrono::seconds(std::abs(second - minute) <= 2 ? minute : second));
}

std::optional<ParsedTime> complete(Parts parts) {
  if (parts.day_number) return ParsedTime{time_of_day_number(*parts.day_number), std::nullopt};
  if (parts.unix_time)
    return ParsedTime{local_seconds(std::chrono::seconds(*parts.unix_time)), std::chrono::seconds(0)};
  const auto day = day_of(parts);
  if (!day || (parts.hour == 24 && (parts.minute > 0 || parts.second > 0))) return std::nullopt;
  if (parts.has_half && parts.afternoon && parts.hour < 12) parts.hour += 12;
  if (parts.has_half && !parts.afternoon && parts.hour == 12) parts.hour = 0;
  return ParsedTime{*day + std::chrono::hours(parts.hour) + std::chrono::minutes(parts.minute) +
                        std::chrono::seconds(parts.second),
                    parts.offset};
}

}  // namespace

TimePattern::TimePattern(std::string_view format) {
  for (std::size_t at = 0; at < format.size(); ++at) {
    if (format[at] != '%') {
      items_ += {'=', format[at]};
      continue;
    }
    const char directive = ++at < format.size() ? format[at] : '\0';
    if (const auto longer = expanded(directive); !longer.empty()) {
      items_ += TimePattern(longer).items_;
    } else if (directive == '%') {
      items_ += "=%";
    } else if (directive != '\0' &&
               known_directives.find(directive == 'B' ? 'b' : directive) != std::string_view::npos) {
      items_ += {'%', directive == 'B' ? 'b' : directive};
    } else {
      throw RangeError(
          tr("the time format \"{format}\" has a directive that is not known", "format"_a = format),
          tr("known: %Y %y %m %d %e %b %B %j %H %I %M %S %p %z %s %N %n %F %T %R %D"));
    }
  }
}

bool TimePattern::has_any(std::string_view directives) const {
  for (std::size_t at = 0; at + 1 < items_.size(); at += 2) {
    if (items_[at] == '%' && directives.find(items_[at + 1]) != std::string_view::npos) return true;
  }
  return false;
}

std::optional<ParsedTime> TimePattern::parse(std::string_view text) const {
  Cursor cursor{text};
  Parts parts;
  cursor.skip_blanks();
  for (std::size_t at = 0; at + 1 < items_.size(); at += 2) {
    const char item = items_[at + 1];
    if (items_[at] == '%') {
      if (!read_directive(item, cursor, parts)) return std::nullopt;
    } else if (is_blank(item)) {
      cursor.skip_blanks();
    } else if (!cursor.take(item)) {
      return std::nullopt;
    }
  }
  cursor.skip_blanks();
  if (!cursor.rest.empty()) return std::nullopt;
  return complete(parts);
}

}  // namespace graftcast
