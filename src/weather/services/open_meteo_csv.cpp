// Open-Meteo as CSV: a block of metadata, which users often cut away, then a section for hours and one for
// days.

#include <algorithm>
#include <cmath>
#include <limits>

#include "graftcast/error.hpp"
#include "services/open_meteo_table.hpp"
#include "text/delimited_rows.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

/// `temperature_2m (°C)` taken apart.
struct Header {
  std::string name;
  std::string unit;
};

Header header_of(std::string_view text) {
  text = trimmed(text);
  const std::size_t open = text.find(" (");
  if (open == std::string_view::npos || !text.ends_with(')')) return {std::string(text), ""};
  return {std::string(text.substr(0, open)), std::string(text.substr(open + 2, text.size() - open - 3))};
}

class OpenMeteoCsv {
 public:
  OpenMeteoCsv(std::string_view text, const Location& location, const AnswerOrigin& origin)
      : rows_(DelimitedRows::from_memory(text, ',', origin.name)), location_(location), origin_(origin) {}

  OpenMeteoTable table(NoteBook& notes);

 private:
  std::string_view cell(std::size_t index) const { return trimmed(rows_.fields()[index].text); }
  void read_metadata();
  void begin_section();
  void read_row();
  void read_cell(std::size_t index, OpenMeteoColumn& column);
  void choose_columns(bool daily);
  std::chrono::seconds offset_without_metadata(NoteBook& notes) const;
  std::chrono::seconds offset_of_source() const;

  DelimitedRows rows_;
  const Location& location_;
  const AnswerOrigin& origin_;
  OpenMeteoTable table_;
  std::optional<std::chrono::seconds> offset_;
  std::vector<Header> headers_;  ///< Of the current section.
  std::vector<Position> header_places_;
  std::vector<std::size_t> column_cells_;  ///< Which cell each of its columns stands in.
  bool chosen_ = false;
};

/// The row of names was read; the row of values follows.
void OpenMeteoCsv::read_metadata() {
  std::vector<std::string> names;
  for (std::size_t k = 0; k < rows_.fields().size(); ++k) names.emplace_back(cell(k));
  if (!rows_.next() || rows_.fields().size() != names.size())
    throw DataError(rows_.position(0), tr("the row below the place's names does not fit them"));
  AnswerPlace place;
  for (std::size_t k = 0; k < names.size(); ++k) {
    const auto number = parse_number(cell(k));
    if (names[k] == "latitude" && number) place.latitude_deg = *number;
    if (names[k] == "longitude" && number) place.longitude_deg = *number;
    if (names[k] != "utc_offset_seconds") continue;
    constexpr double farthest_s = 18.0 * 3600;
    if (!number || std::abs(*number) > farthest_s)
      throw DataError(rows_.position(k), tr("not an offset from UTC in seconds"));
    offset_ = std::chrono::seconds(static_cast<long>(*number));
  }
  table_.place = place;
}

std::chrono::seconds OpenMeteoCsv::offset_of_source() const {
  if (origin_.time_zone == "UTC" || origin_.time_zone == "GMT") return std::chrono::seconds(0);
  const auto time = parse_time("2000-01-01T00:00" + origin_.time_zone);
  if (time && time->offset) return *time->offset;
  throw DataError(
      {origin_.name, 0, 0},
      tr("the file lost its offset from UTC, and {time_zone} has two",
         "time_zone"_a = shown(origin_.time_zone)),
      tr("the service keeps one offset all through a file: give it as \"time_zone\", such as \"-07:00\""));
}

std::chrono::seconds OpenMeteoCsv::offset_without_metadata(NoteBook& notes) const {
  if (!origin_.time_zone.empty()) return offset_of_source();
  notes.count("offset-assumed", tr("the lines that tell the offset from UTC were cut away; times were taken "
                                   "as UTC, the service's default "
                                   "(\"time_zone\" says otherwise)"));
  return std::chrono::seconds(0);
}

void OpenMeteoCsv::begin_section() {
  headers_.clear();
  header_places_.clear();
  for (std::size_t k = 0; k < rows_.fields().size(); ++k) {
    headers_.push_back(header_of(rows_.fields()[k].text));
    header_places_.push_back(rows_.position(k));
  }
  table_.sections.emplace_back();
  column_cells_.clear();
  chosen_ = false;
}

/// Which columns are of use; known once the first stamp shows whether the rows are days.
void OpenMeteoCsv::choose_columns(bool daily) {
  std::vector<std::string> names;
  for (const Header& header : headers_) names.push_back(header.name);
  const std::vector<std::string> models = models_in(names);
  for (std::size_t k = 1; k < headers_.size(); ++k) {
    const auto name = parse_open_meteo_name(headers_[k].name, daily, models);
    if (!name) continue;
    OpenMeteoColumn column{*name, {}, {}};
    try {
      column.field = open_meteo_field(*name->variable, headers_[k].unit, location_);
    } catch (const RangeError& fault) {
      throw DataError(header_places_[k], fault.message(), fault.hint());
    }
    table_.sections.back().columns.push_back(std::move(column));
    column_cells_.push_back(k);
  }
  chosen_ = true;
}

void OpenMeteoCsv::read_cell(std::size_t index, OpenMeteoColumn& column) {
  const std::string_view text = cell(index);
  const auto number = parse_number(text);
  if (!number && !text.empty() && text != "NaN" && text != "nan")
    throw DataError(rows_.position(index), tr("{text} is not a number", "text"_a = shown(text)),
                    tr("a number or NaN"));
  column.value.push_back(number.value_or(std::numeric_limits<double>::quiet_NaN()));
}

void OpenMeteoCsv::read_row() {
  if (rows_.fields().size() != headers_.size())
    throw DataError(rows_.position(headers_.size()),
                    tr("{count} fields below {headers} headers", "count"_a = rows_.fields().size(),
                       "headers"_a = headers_.size()),
                    tr("a file that was cut off ends like this"));
  OpenMeteoSection& section = table_.sections.back();
  const auto time = parse_open_meteo_time(cell(0), *offset_);
  if (!time) throw DataError(rows_.position(0), tr("{text} is not a time", "text"_a = shown(cell(0))));
  if (!section.time.empty() && *time <= section.time.back())
    throw DataError(rows_.position(0), tr("the times do not rise"));
  if (!chosen_) {
    const auto is_of_days = [](const Header& header) {
      return parse_open_meteo_name(header.name, true, {}).has_value();
    };
    choose_columns(parse_day(cell(0)) || std::ranges::any_of(headers_, is_of_days));
  }
  section.time.push_back(*time);
  for (std::size_t k = 0; k < section.columns.size(); ++k) read_cell(column_cells_[k], section.columns[k]);
}

OpenMeteoTable OpenMeteoCsv::table(NoteBook& notes) {
  while (rows_.next()) {
    const std::string first(cell(0));
    if (first == "location_id")
      throw DataError(rows_.position(0), tr("the file is for several places"), tr("ask for one place"));
    if (first == "latitude") {
      read_metadata();
    } else if (first == "time") {
      if (!offset_) offset_ = offset_without_metadata(notes);
      begin_section();
    } else if (table_.sections.empty()) {
      throw DataError(rows_.position(0), tr("a row before any header"), tr("a header that begins with time"));
    } else {
      read_row();
    }
  }
  return std::move(table_);
}

}  // namespace

OpenMeteoTable open_meteo_csv(std::string_view text, const Location& location, const AnswerOrigin& origin,
                              NoteBook& notes) {
  return OpenMeteoCsv(text, location, origin).table(notes);
}

}  // namespace graftcast
