#include "weather/table_reader.hpp"

#include <algorithm>
#include <functional>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "readers/running_total.hpp"
#include "readers/table_values.hpp"
#include "readers/time_format.hpp"
#include "readers/time_line.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "valid_years.hpp"

namespace graftcast {

namespace {

bool is_blank_row(const DelimitedRows& rows) {
  for (const Field& field : rows.fields()) {
    if (!trimmed(field.text).empty()) return false;
  }
  return true;
}

/// A row that cannot be one of values: prose, a sum or a mean below the table. Either it has too few fields,
/// or where the time should stand there is not a digit.
bool is_prose(const DelimitedRows& rows, const TablePlan& plan) {
  if (rows.fields().size() < plan.width) return true;
  const std::string_view time = rows.fields()[plan.stamp.first_field()].text;
  return std::none_of(time.begin(), time.end(), [](char letter) { return letter >= '0' && letter <= '9'; });
}

/// Reads the rows below the headers.
class TableReading {
 public:
  /// `expected_bytes`: size of the file where it is known, so that the columns need not grow as they fill.
  TableReading(DelimitedRows& rows, TablePlan plan, std::uintmax_t expected_bytes, NoteBook notes)
      : rows_(rows), plan_(std::move(plan)), expected_bytes_(expected_bytes), notes_(std::move(notes)) {}

  void read_rows();
  Readings finish(const SourceSettings& source, const Location& location, const Clock& site_clock);

 private:
  bool is_row();
  void check_width();
  void check_era(const RowStamp& stamp) const;
  void note_end();
  void begin(const RowStamp& stamp);
  void take_row();
  void note_columns();

  DelimitedRows& rows_;
  TablePlan plan_;
  std::uintmax_t expected_bytes_;
  NoteBook notes_;
  RowTimes times_;
  std::vector<ColumnValues> values_;
  std::optional<DataError>
      no_row_;  ///< The first row that is none of values; an error unless no more follow.
  std::size_t no_rows_ = 0;
  bool starts_with_digit_ = false;  ///< The first of them: a row of values that is cut off.
};

/// False for prose, which is an error only where rows of values follow.
bool TableReading::is_row() {
  if (!is_prose(rows_, plan_)) return true;
  const std::size_t count = rows_.fields().size();
  ++no_rows_;
  if (no_row_) return false;
  starts_with_digit_ = !rows_.raw().empty() && rows_.raw().front() >= '0' && rows_.raw().front() <= '9';
  if (count < plan_.width) {
    no_row_.emplace(
        rows_.position(count),
        tr("the row ends after field {count} of {width}", "count"_a = count, "width"_a = plan_.width),
        tr("as many fields as the header row has"));
  } else {
    const std::size_t field = plan_.stamp.first_field();
    no_row_.emplace(
        rows_.position(field),
        tr("\"{text}\" is not a time", "text"_a = trimmed(rows_.fields()[field].text).substr(0, 60)),
        tr("ISO 8601 such as 2025-01-31T06:00, or name the format of the column in site.json"));
  }
  return false;
}

void TableReading::check_width() {
  for (std::size_t field = plan_.width; field < rows_.fields().size(); ++field) {
    if (trimmed(rows_.fields()[field].text).empty()) continue;
    throw DataError(rows_.position(field),
                    tr("the row has {count} fields, the header row {width}",
                       "count"_a = rows_.fields().size(), "width"_a = plan_.width),
                    tr("quote fields that hold the separator; with decimal commas, separate by semicolons"));
  }
}

void TableReading::begin(const RowStamp& stamp) {
  times_.daily = stamp.day_only;
  const bool decimal_comma = rows_.delimiter() != ',';
  constexpr std::uintmax_t most_rows = 4'000'000;
  const std::uintmax_t rows = std::min(expected_bytes_ / (rows_.raw().size() + 1) * 17 / 16, most_rows);
  for (TableColumn& column : plan_.columns) {
    values_.emplace_back(std::move(column), stamp.day_only, decimal_comma, rows);
  }
  times_.reading.reserve(rows);
  times_.offset_s.reserve(rows);
  times_.line.reserve(rows);
}

/// A slip in a year would make a series of millennia, all of it a gap.
void TableReading::check_era(const RowStamp& stamp) const {
  const Instant reading(stamp.time.reading.time_since_epoch());
  if (reading >= first_valid_instant && reading < past_valid_instants) return;
  throw DataError(rows_.position(plan_.stamp.first_field()),
                  tr("{day} is no day of weather that was measured or forecast",
                     "day"_a = day_text(std::chrono::floor<std::chrono::days>(stamp.time.reading))),
                  tr("the years 1801 to 2198 are read; a year of two digits needs its layout named with %y"));
}

void TableReading::take_row() {
  const RowStamp stamp = plan_.stamp.read(rows_);
  check_era(stamp);
  if (times_.size() == 0) begin(stamp);
  if (stamp.day_only != times_.daily) {
    throw DataError(rows_.position(0), tr("days and times of day are mixed in one file"),
                    tr("one of the two in every row"));
  }
  times_.reading.push_back(stamp.time.reading);
  times_.offset_s.push_back(stamp.time.offset ? static_cast<std::int32_t>(stamp.time.offset->count())
                                              : RowTimes::no_offset);
  times_.line.push_back(static_cast<std::uint32_t>(rows_.line()));
  for (ColumnValues& values : values_) values.take(rows_, notes_);
}

void TableReading::read_rows() {
  while (rows_.next()) {
    if (is_blank_row(rows_) || !is_row()) continue;
    if (no_row_) throw DataError(*no_row_);
    check_width();
    take_row();
  }
  if (times_.size() == 0) {
    if (no_row_) throw DataError(*no_row_);
    throw DataError({rows_.name(), rows_.line(), 1}, tr("there is no row below the headers"),
                    tr("rows of values are needed"));
  }
  note_end();
}

void TableReading::note_end() {
  if (!no_row_) return;
  const bool footer = no_rows_ > 1 || !starts_with_digit_;
  if (notes_.count(footer ? "footer" : "cut-off-row",
                   footer ? tr("lines below the table are not of it")
                          : tr("the last row is cut off and was set aside"),
                   no_rows_))
    notes_.example(to_string(no_row_->position()));
}

void TableReading::note_columns() {
  if (!plan_.unused.empty()) {
    notes_.count("unused-column",
                 tr("columns that are not read: {unused}", "unused"_a = fmt::join(plan_.unused, ", ")),
                 plan_.unused.size());
  }
  if (!plan_.suspects.empty()) {
    notes_.count("unused-column",
                 tr("columns that are not read, by their name perhaps meant to be: {suspects}",
                    "suspects"_a = fmt::join(plan_.suspects, ", ")),
                 plan_.suspects.size());
  }
}

/// `channel` in the order of the time line.
Channel reordered(Channel channel, const TimeLine& line) {
  bool in_order = line.row.size() == channel.value.size();
  for (std::size_t k = 0; in_order && k < line.row.size(); ++k) in_order = line.row[k] == k;
  if (in_order) return channel;
  Channel sorted{channel.quantity, channel.kind, {}};
  sorted.value.reserve(line.row.size());
  for (const std::uint32_t row : line.row) sorted.value.push_back(channel.value[row]);
  return sorted;
}

/// Blocks of channels in the order of the line.
std::vector<Block> blocks_of(TimeLine line, std::vector<Channel> channels) {
  Block over_intervals;
  Block at_instants;
  for (Channel& channel : channels) {
    const bool moment = line.instants && channel.kind == Kind::mean;
    if (moment) channel.kind = Kind::instant;
    (moment ? at_instants : over_intervals).channels.push_back(std::move(channel));
  }
  std::vector<Block> all;
  if (!at_instants.channels.empty()) {
    for (const Span& span : line.interval) at_instants.spans.push_back({span.end, span.end});
    all.push_back(std::move(at_instants));
  }
  if (!over_intervals.channels.empty()) {
    over_intervals.spans = std::move(line.interval);
    all.push_back(std::move(over_intervals));
  }
  return all;
}

Readings TableReading::finish(const SourceSettings& source, const Location& location,
                              const Clock& site_clock) {
  note_columns();
  const bool utc = plan_.stamp.utc && source.time_zone.empty();
  SourceClock clock = utc ? SourceClock::utc() : SourceClock(source.time_zone, site_clock);
  std::vector<Channel> channels;
  for (ColumnValues& values : values_) channels.push_back(values.finish(source, location, notes_));
  TimeLine line = lay_out(times_, clock, source.stamp, notes_, rows_.name());
  for (std::size_t k = 0; k < channels.size(); ++k) {
    channels[k] = reordered(std::move(channels[k]), line);
    const TableColumn& column = values_[k].column();
    if (column.named.turn == NamedQuantity::Turn::running_total)
      turn_into_rises(channels[k], line, column.header, notes_);
  }
  Readings readings;
  readings.source = rows_.name();
  readings.blocks = blocks_of(std::move(line), std::move(channels));
  readings.notes = notes_.take();
  return readings;
}

/// Opens the table with a separator, 0 for the one that its first line suggests.
using Open = std::function<DelimitedRows(char separator)>;

/// A table whose headers have been found.
struct OpenTable {
  DelimitedRows rows;
  TablePlan plan;
};

/// Lines before the headers may suggest the wrong separator: then the others are tried.
OpenTable open_table(const Open& open, const SourceSettings& source) {
  std::optional<DataError> best_fault;  // The one that got farthest knows most.
  for (const char separator : {'\0', ';', '\t', ','}) {
    try {
      DelimitedRows rows = open(separator);
      TablePlan plan = plan_table(rows, source);
      return {std::move(rows), std::move(plan)};
    } catch (const DataError& fault) {
      if (!best_fault || fault.position().line > best_fault->position().line) best_fault.emplace(fault);
    }
  }
  throw DataError(*best_fault);
}

/// The time column whose layout has to be told from its texts, or nothing.
StampColumns::Part* open_question(StampColumns& stamp) {
  std::optional<StampColumns::Part>& part = stamp.date ? stamp.date : stamp.time;
  return part && !part->pattern ? &*part : nullptr;
}

bool is_iso(std::string_view text) {
  return parse_time(text) || parse_day(text);
}

/// The text of the current row's time, or nothing where the row has none.
std::optional<std::string_view> time_text(const DelimitedRows& rows, const StampColumns::Part& part) {
  if (part.field >= rows.fields().size()) return std::nullopt;
  return trimmed(rows.fields()[part.field].text);
}

[[noreturn]] void refuse_order(const Position& position, const StampColumns::Part& part,
                               const std::vector<std::string>& equals) {
  throw DataError(position,
                  tr("which of day and month comes first in column \"{header}\" cannot be told from its rows",
                     "header"_a = part.header),
                  tr("map the column with \"format\": \"{first}\" or \"{second}\"", "first"_a = equals.at(0),
                     "second"_a = equals.at(1)));
}

/// Reads the times of the whole file once where they are not ISO 8601, to find their layout. Rows that fit no
/// layout are left to the reader to refuse.
void settle_time_format(OpenTable& table, const Open& open, NoteBook& notes) {
  StampColumns::Part* const part = open_question(table.plan.stamp);
  if (part == nullptr) return;
  DelimitedRows rows = open(table.rows.delimiter());
  while (rows.line() < table.rows.line() && rows.next()) continue;
  TimeFormatGuess guess;
  Position first;
  while (rows.next()) {
    if (is_prose(rows, table.plan)) continue;
    const auto text = time_text(rows, *part);
    if (!text) continue;
    if (first.line == 0 && is_iso(*text)) return;
    if (first.line == 0) first = rows.position(part->field);
    guess.take(*text);
  }
  const TimeFormatGuess::Answer answer = guess.answer();
  if (!answer.equals.empty()) refuse_order(first, *part, answer.equals);
  if (answer.format.empty()) return;
  part->pattern.emplace(answer.format);
  notes.count("time-format", tr("column \"{header}\": times are read as {format}", "header"_a = part->header,
                                "format"_a = answer.format));
}

Readings read_all(const Open& open, std::uintmax_t expected_bytes, const SourceSettings& source,
                  const Location& location, const Clock& site_clock) {
  OpenTable table = open_table(open, source);
  NoteBook notes(table.rows.name());
  settle_time_format(table, open, notes);
  TableReading reading(table.rows, std::move(table.plan), expected_bytes, std::move(notes));
  reading.read_rows();
  return reading.finish(source, location, site_clock);
}

}  // namespace

Readings read_table_text(std::string_view text, const std::string& shown_name, const SourceSettings& source,
                         const Location& location, const Clock& site_clock) {
  const auto open = [&](char separator) { return DelimitedRows::from_memory(text, separator, shown_name); };
  return read_all(open, text.size(), source, location, site_clock);
}

Readings read_table(const std::filesystem::path& path, const SourceSettings& source, const Location& location,
                    const Clock& site_clock, const std::string& shown_name) {
  const auto open = [&](char separator) { return DelimitedRows(path, separator, shown_name); };
  std::error_code unknown_size;
  const std::uintmax_t bytes = std::filesystem::file_size(path, unknown_size);
  return read_all(open, unknown_size ? 0 : bytes, source, location, site_clock);
}

}  // namespace graftcast
