#include "readers/stamp.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::local_seconds;

namespace {

using Part = StampColumns::Part;

std::string_view text_of(const DelimitedRows& rows, const Part& part) {
  return trimmed(rows.fields()[part.field].text);
}

[[noreturn]] void refuse(const DelimitedRows& rows, const Part& part, std::string_view what,
                         std::string hint) {
  throw DataError(rows.position(part.field),
                  tr("\"{text}\" in column \"{header}\" is not {what}",
                     "text"_a = text_of(rows, part).substr(0, 60), "header"_a = part.header, "what"_a = what),
                  std::move(hint));
}

/// A whole number between the two limits; ".0" behind it is allowed.
int whole_number(const DelimitedRows& rows, const Part& part, int least, int most) {
  std::string_view text = text_of(rows, part);
  if (text.ends_with(".0")) text.remove_suffix(2);
  int value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc() || end != text.data() + text.size() || value < least || value > most) {
    refuse(rows, part, tr("a whole number in its range"),
           tr("{least}..{most} is right", "least"_a = least, "most"_a = most));
  }
  return value;
}

RowStamp read_time(const DelimitedRows& rows, const Part& part) {
  const std::string_view text = text_of(rows, part);
  if (part.pattern) {
    if (const auto time = part.pattern->parse(text)) return {*time, !part.pattern->has_time_of_day()};
    refuse(rows, part, tr("a time of the format given"), tr("see the format of the column in site.json"));
  }
  if (const auto time = parse_time(text)) return {*time, false};
  if (const auto day = parse_day(text)) return {{local_seconds(*day), std::nullopt}, true};
  refuse(rows, part, tr("a time"),
         tr("ISO 8601 such as 2025-01-31T06:00, or name the format of the column in site.json"));
}

/// Clock time alone, `hh:mm` or by the part's own pattern.
std::chrono::seconds read_time_of_day(const DelimitedRows& rows, const Part& part) {
  static const TimePattern usual("%H:%M");
  static const TimePattern usual_with_seconds("%H:%M:%S");
  const std::string_view text = text_of(rows, part);
  auto time = part.pattern ? part.pattern->parse(text) : usual.parse(text);
  if (!time && !part.pattern) time = usual_with_seconds.parse(text);
  if (!time)
    refuse(rows, part, tr("a time of day"),
           tr("hh:mm is right, or name the format of the column in site.json"));
  return time->reading.time_since_epoch();  // The pattern leaves the date at 1970-01-01.
}

RowStamp read_date_and_time(const DelimitedRows& rows, const StampColumns& stamp) {
  RowStamp row = read_time(rows, *stamp.date);
  if (!stamp.time) return row;
  row.time.reading =
      std::chrono::floor<std::chrono::days>(row.time.reading) + read_time_of_day(rows, *stamp.time);
  row.day_only = false;
  return row;
}

LocalDay read_numbered_day(const DelimitedRows& rows, const StampColumns& stamp) {
  using namespace std::chrono;
  const year in_year(whole_number(rows, *stamp.year, 1600, 2400));
  if (stamp.day_of_year) {
    const int most = in_year.is_leap() ? 366 : 365;
    return LocalDay(local_days(in_year / January / 1)) +
           days(whole_number(rows, *stamp.day_of_year, 1, most) - 1);
  }
  const month in_month(static_cast<unsigned>(whole_number(rows, *stamp.month, 1, 12)));
  const std::chrono::day day(static_cast<unsigned>(whole_number(rows, *stamp.day, 1, 31)));
  const year_month_day date{in_year, in_month, day};
  if (!date.ok()) refuse(rows, *stamp.day, tr("a day of that month"), tr("the calendar has no such date"));
  return LocalDay(date);
}

/// The hour 0..24, or `hhmm` where it is written with three digits or more ("0015" is a quarter past
/// midnight).
std::chrono::seconds read_hour(const DelimitedRows& rows, const Part& part) {
  const int value = whole_number(rows, part, 0, 2400);
  const std::string_view text = text_of(rows, part);
  if (value <= 24 && (text.size() <= 2 || text.ends_with(".0"))) return std::chrono::hours(value);
  if (value % 100 > 59) refuse(rows, part, tr("an hour"), tr("0..24 is right, or hhmm"));
  return std::chrono::hours(value / 100) + std::chrono::minutes(value % 100);
}

RowStamp read_numbers(const DelimitedRows& rows, const StampColumns& stamp) {
  RowStamp row{{local_seconds(read_numbered_day(rows, stamp)), std::nullopt}, !stamp.hour};
  if (stamp.hour) row.time.reading += read_hour(rows, *stamp.hour);
  if (stamp.minute) row.time.reading += std::chrono::minutes(whole_number(rows, *stamp.minute, 0, 60));
  return row;
}

}  // namespace

RowStamp StampColumns::read(const DelimitedRows& rows) const {
  if (date) return read_date_and_time(rows, *this);
  if (time) return read_time(rows, *time);
  return read_numbers(rows, *this);
}

std::optional<StampColumns::Part>* StampColumns::part(std::string_view key) {
  const std::array<std::pair<std::string_view, std::optional<Part>*>, 8> parts = {
      {{"time", &time},
       {"date", &date},
       {"year", &year},
       {"month", &month},
       {"day", &day},
       {"day_of_year", &day_of_year},
       {"hour", &hour},
       {"minute", &minute}}};
  const auto* const found =
      std::find_if(parts.begin(), parts.end(), [&](const auto& entry) { return entry.first == key; });
  return found == parts.end() ? nullptr : found->second;
}

}  // namespace graftcast
