#include <algorithm>
#include <array>

#include "readers/ghcn_days.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/archive_readers.hpp"

namespace graftcast {

namespace {

// ---- Fixed width: one line is one element of one month, 269 characters ----

std::chrono::year_month month_of_line(const DelimitedRows& rows) {
  const int year = whole_number_at(rows, 11, 4, 1700, 2400, tr_later("a year"));
  const int month = whole_number_at(rows, 15, 2, 1, 12, tr_later("a month"));
  return std::chrono::year(year) / std::chrono::month(static_cast<unsigned>(month));
}

char letter_at(std::string_view line, std::size_t at) {
  return at < line.size() ? line[at] : ' ';  // Editors trim blanks at line ends.
}

void take_month(const DelimitedRows& rows, GhcnDays& days) {
  constexpr std::size_t first = 21;
  constexpr std::size_t width = 8;
  const std::string_view line = rows.raw();
  if (line.size() < first) {
    throw DataError({rows.name(), rows.line(), line.size() + 1}, tr("the line ends before its first value"),
                    tr("269 characters: station, year, month, element and 31 days"));
  }
  days.check_station(line.substr(0, 11), rows, 1);
  const std::chrono::year_month month = month_of_line(rows);
  for (unsigned day = 1; day <= 31; ++day) {
    const std::size_t at = first + (day - 1) * width;
    const auto number = number_at(rows, at, 5, tr_later("a value of five characters"));
    const std::chrono::year_month_day date = month / std::chrono::day(day);
    if (!number || !date.ok()) continue;
    days.take({line.substr(17, 4), LocalDay(date), *number, letter_at(line, at + 6), std::nullopt}, rows,
              at + 1);
  }
  const std::string_view beyond = trimmed(line.substr(std::min(line.size(), first + 31 * width)));
  if (beyond.empty()) return;
  throw DataError({rows.name(), rows.line(), first + 31 * width + 1},
                  tr("{beyond} stands behind the 31 days", "beyond"_a = shown(beyond)),
                  tr("269 characters a line"));
}

// ---- Tables ----

/// A date as the tables have it, `20210701` or `2021-07-01`.
LocalDay day_in(const DelimitedRows& rows, std::size_t field) {
  std::string text(field < rows.fields().size() ? trimmed(rows.fields()[field].text) : "");
  if (text.size() == 8) text = text.substr(0, 4) + '-' + text.substr(4, 2) + '-' + text.substr(6);
  if (const auto day = parse_day(text)) return *day;
  throw DataError(rows.position(field), tr("{text} is not a date", "text"_a = shown(text)),
                  tr("YYYYMMDD or YYYY-MM-DD is right"));
}

/// `0700` as a time since midnight; nothing where it is empty.
std::optional<std::chrono::minutes> read_at(std::string_view text, const Position& position) {
  if (trimmed(text).empty()) return std::nullopt;
  const auto number = parse_number(trimmed(text));
  if (number && *number == 9999) return std::nullopt;
  if (number && *number >= 0 && *number <= 2400 && *number == static_cast<int>(*number) &&
      static_cast<int>(*number) % 100 < 60) {
    return std::chrono::hours(static_cast<int>(*number) / 100) +
           std::chrono::minutes(static_cast<int>(*number) % 100);
  }
  throw DataError(position, tr("{text} is not an hour of observation", "text"_a = shown(text)),
                  tr("hhmm is right"));
}

std::string_view text_in(const DelimitedRows& rows, std::size_t field) {
  return field < rows.fields().size() ? trimmed(rows.fields()[field].text) : std::string_view();
}

void take_single_value(const DelimitedRows& rows, GhcnDays& days) {
  if (rows.fields().size() < 4) {
    throw DataError(rows.position(rows.fields().size()), tr("the row has fewer than four fields"),
                    tr("ID,YYYYMMDD,ELEMENT,VALUE and the three flags"));
  }
  days.check_station(text_in(rows, 0), rows, rows.fields()[0].column);
  const auto number = number_in(rows, 3, tr_later("a value"));
  if (!number) return;
  const std::string_view quality = text_in(rows, 5);
  days.take({text_in(rows, 2), day_in(rows, 1), *number, quality.empty() ? ' ' : quality.front(),
             read_at(text_in(rows, 7), rows.position(7))},
            rows, rows.fields()[3].column);
}

/// A column of the by-station table and that of its attributes.
struct ElementColumn {
  std::string element;
  std::size_t field;
  std::size_t attributes;
};

struct StationTable {
  std::size_t station = 0;
  std::size_t date = 0;
  std::vector<ElementColumn> elements;
};

std::optional<std::size_t> find_header(const DelimitedRows& rows, std::string_view name) {
  for (std::size_t field = 0; field < rows.fields().size(); ++field) {
    if (trimmed(rows.fields()[field].text) == name) return field;
  }
  return std::nullopt;
}

StationTable plan_station_table(const DelimitedRows& rows) {
  StationTable table;
  const auto station = find_header(rows, "STATION");
  const auto date = find_header(rows, "DATE");
  if (!station || !date)
    throw DataError(rows.position(0), tr("the header row has no STATION or no DATE"), tr("both are needed"));
  table.station = *station;
  table.date = *date;
  for (std::size_t field = 0; field < rows.fields().size(); ++field) {
    const std::string name(trimmed(rows.fields()[field].text));
    if (const auto attributes = find_header(rows, name + "_ATTRIBUTES"))
      table.elements.push_back({name, field, *attributes});
  }
  if (table.elements.empty()) {
    throw DataError(rows.position(0),
                    tr("no column has attributes, so the units of the values are not known"),
                    tr("read it as a table with a column map that names the units"));
  }
  return table;
}

/// `M,Q,S` or `M,Q,S,HHMM` in one field.
std::array<std::string_view, 4> attributes_of(std::string_view text) {
  std::array<std::string_view, 4> parts;
  for (std::size_t part = 0; part < parts.size(); ++part) {
    const std::size_t comma = text.find(',');
    parts.at(part) = text.substr(0, comma);
    if (comma == std::string_view::npos) break;
    text.remove_prefix(comma + 1);
  }
  return parts;
}

void take_station_row(const DelimitedRows& rows, const StationTable& table, GhcnDays& days) {
  days.check_station(text_in(rows, table.station), rows, rows.position(table.station).column);
  const LocalDay day = day_in(rows, table.date);
  for (const ElementColumn& column : table.elements) {
    const auto number = number_in(rows, column.field, tr_later("a value"));
    if (!number) continue;
    if (text_in(rows, column.field).find('.') != std::string_view::npos) {
      throw DataError(
          rows.position(column.field),
          tr("{text} is no whole number of tenths: the file is an export whose units its "
             "owner chose",
             "text"_a = shown(text_in(rows, column.field))),
          tr("read it as a table (\"reader\": \"table\") with a column map that names the units"));
    }
    const auto attributes = attributes_of(text_in(rows, column.attributes));
    days.take({column.element, day, *number, attributes[1].empty() ? ' ' : attributes[1].front(),
               read_at(attributes[3], rows.position(column.attributes))},
              rows, rows.position(column.field).column);
  }
}

bool is_header(const DelimitedRows& rows) {
  const std::string_view first = trimmed(rows.fields().front().text);
  return first == "ID" || first == "STATION";
}

void read_table_rows(DelimitedRows& rows, GhcnDays& days) {
  std::optional<StationTable> table;
  if (find_header(rows, "STATION") && find_header(rows, "DATE") && !find_header(rows, "ELEMENT")) {
    table = plan_station_table(rows);
  } else if (!is_header(rows)) {
    take_single_value(rows, days);
  }
  while (rows.next()) {
    if (table) {
      take_station_row(rows, *table, days);
    } else {
      take_single_value(rows, days);
    }
  }
}

}  // namespace

Readings read_ghcn_daily(DelimitedRows& rows, const SourceSettings& source, const Location& /*location*/,
                         const Clock& clock) {
  if (!rows.next())
    throw DataError({rows.name(), 1, 1}, tr("the file is empty"), tr("GHCN-Daily lines are needed"));
  GhcnDays days(source, clock, rows.name());
  const bool table = rows.raw().substr(0, 30).find(',') != std::string_view::npos;
  if (table) {
    read_table_rows(rows, days);
  } else {
    do take_month(rows, days);
    while (rows.next());
  }
  return days.finish();
}

}  // namespace graftcast
