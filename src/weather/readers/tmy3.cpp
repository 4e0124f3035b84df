#include <algorithm>
#include <array>

#include "readers/year_rows.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/archive_readers.hpp"

namespace graftcast {

namespace {

/// Columns by the start of their headers (Wilcox & Marion 2008, Users manual for TMY3, table 1-3).
struct Tmy3Column {
  std::string_view header;
  Quantity quantity;
  double scale;
};

constexpr std::array<Tmy3Column, 6> at_stamp = {{{"Dry-bulb (C)", Quantity::air_temperature, 1},
                                                 {"Dew-point (C)", Quantity::dew_point, 1},
                                                 {"RHum (%)", Quantity::relative_humidity, 1},
                                                 {"Pressure (mbar)", Quantity::pressure, 0.1},
                                                 {"Wspd (m/s)", Quantity::wind_speed, 1},
                                                 {"TotCld (tenths)", Quantity::cloud_cover, 10}}};
constexpr std::string_view global_header = "GHI (W/m^2)";
constexpr std::string_view rain_header = "Lprecip depth (mm)";
constexpr std::string_view rain_hours_header = "Lprecip quantity (hr)";
constexpr double no_value = -9900;

class Tmy3Reading {
 public:
  Tmy3Reading(DelimitedRows& rows, const SourceSettings& source)
      : rows_(rows), notes_(rows.name()), year_(notes_), wind_factor_(wind_factor_to_2m(source)) {}

  Readings read(const Location& site);

 private:
  void read_station(const Location& site);
  void read_headers();
  std::optional<std::size_t> find(std::string_view header) const;
  EndStamp stamp() const;
  std::optional<double> number(std::optional<std::size_t> field, std::string_view what) const;
  void put(ArchiveBlock& block, std::size_t row, std::size_t field, const Tmy3Column& column, Kind kind);
  void take_row();

  DelimitedRows& rows_;
  NoteBook notes_;
  YearRows year_;
  double wind_factor_;
  std::chrono::minutes ahead_of_utc_{};
  std::vector<std::string> headers_;
  std::array<std::optional<std::size_t>, at_stamp.size()> fields_;
  std::optional<std::size_t> global_, rain_, rain_hours_;
};

/// number,"name",state,hours ahead of UTC,latitude,longitude,elevation.
void Tmy3Reading::read_station(const Location& site) {
  if (!rows_.next())
    throw DataError({rows_.name(), 1, 1}, tr("the file is empty"), tr("a TMY3 file is needed"));
  std::array<double, 4> numbers{};
  constexpr std::array<std::string_view, 4> names = {tr_later("a time zone"), tr_later("a latitude"),
                                                     tr_later("a longitude"), tr_later("an elevation")};
  constexpr std::array<double, 4> most = {14, 90, 180, 9999};
  for (std::size_t k = 0; k < numbers.size(); ++k) {
    const auto value = number_in(rows_, 3 + k, names.at(k));
    if (!value || std::abs(*value) > most.at(k)) {
      throw DataError(rows_.position(3 + k), tr("there is not {what}", "what"_a = translated(names.at(k))),
                      tr("number, name, state, hours ahead of UTC, latitude, longitude, elevation"));
    }
    numbers.at(k) = *value;
  }
  ahead_of_utc_ = std::chrono::minutes(static_cast<long>(numbers[0] * 60));
  note_distance(site, {numbers[1], numbers[2], numbers[3]}, notes_);
}

std::optional<std::size_t> Tmy3Reading::find(std::string_view header) const {
  const auto found = std::find(headers_.begin(), headers_.end(), header);
  if (found == headers_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - headers_.begin());
}

void Tmy3Reading::read_headers() {
  if (rows_.next()) {
    for (const Field& field : rows_.fields()) headers_.emplace_back(trimmed(field.text));
  }
  if (headers_.size() < 3 || !headers_[0].starts_with("Date") || !headers_[1].starts_with("Time"))
    throw DataError({rows_.name(), rows_.line(), 1}, tr("no header row with Date and Time"),
                    tr("the TMY3 headers"));
  for (std::size_t k = 0; k < at_stamp.size(); ++k) fields_.at(k) = find(at_stamp.at(k).header);
  global_ = find(global_header);
  rain_ = find(rain_header);
  rain_hours_ = find(rain_hours_header);
}

EndStamp Tmy3Reading::stamp() const {
  using namespace std::chrono;
  const std::string_view date = trimmed(rows_.fields()[0].text);
  const std::string_view time = trimmed(rows_.fields()[1].text);
  const auto number = [](std::string_view text) {
    const auto value = parse_number(text);
    return value ? static_cast<int>(*value) : -1;
  };
  if (date.size() == 10 && date[2] == '/' && date[5] == '/') {
    const year_month_day day{year(number(date.substr(6))),
                             month(static_cast<unsigned>(number(date.substr(0, 2)))),
                             std::chrono::day(static_cast<unsigned>(number(date.substr(3, 2))))};
    const int hour = time.size() == 5 && time.ends_with(":00") ? number(time.substr(0, 2)) : -1;
    if (!day.ok())
      throw DataError(rows_.position(0), tr("{date} is not a date", "date"_a = shown(date)),
                      tr("MM/DD/YYYY is right"));
    if (hour >= 1 && hour <= 24) return {day, hours(hour), rows_.line()};
    throw DataError(rows_.position(1), tr("{time} is not a full hour", "time"_a = shown(time)),
                    tr("01:00 to 24:00 is right"));
  }
  throw DataError(rows_.position(0), tr("{date} is not a date", "date"_a = shown(date)),
                  tr("MM/DD/YYYY is right"));
}

std::optional<double> Tmy3Reading::number(std::optional<std::size_t> field, std::string_view what) const {
  if (!field) return std::nullopt;
  const auto value = number_in(rows_, *field, what);
  return value && *value <= no_value ? std::nullopt : value;
}

void Tmy3Reading::put(ArchiveBlock& block, std::size_t row, std::size_t field, const Tmy3Column& column,
                      Kind kind) {
  const auto value = number(field, column.header);
  if (!value) return;
  const double factor = column.quantity == Quantity::wind_speed ? wind_factor_ : 1.0;
  block.put(block.channel(column.quantity, kind, column.header), row, *value * column.scale * factor, rows_,
            rows_.position(field).column);
}

void Tmy3Reading::take_row() {
  if (rows_.fields().size() < headers_.size()) {
    throw DataError(rows_.position(rows_.fields().size()),
                    tr("the row ends after field {count}", "count"_a = rows_.fields().size()),
                    tr("{count} fields", "count"_a = headers_.size()));
  }
  const std::size_t row = year_.add(stamp());
  for (std::size_t k = 0; k < at_stamp.size(); ++k) {
    if (fields_.at(k)) put(year_.at_stamp(), row, *fields_.at(k), at_stamp.at(k), Kind::instant);
  }
  if (global_) put(year_.before_stamp(), row, *global_, {global_header, Quantity::shortwave, 1}, Kind::mean);
  if (rain_ && number(rain_hours_, rain_hours_header) == 1.0)
    put(year_.before_stamp(), row, *rain_, {rain_header, Quantity::precipitation, 1}, Kind::sum);
}

Readings Tmy3Reading::read(const Location& site) {
  read_station(site);
  read_headers();
  while (rows_.next()) take_row();
  Readings readings;
  readings.source = rows_.name();
  readings.blocks = year_.take(std::chrono::hours(1), ahead_of_utc_, true, rows_.name());
  readings.notes = notes_.take();
  return readings;
}

}  // namespace

Readings read_tmy3(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                   const Clock& /*clock*/) {
  return Tmy3Reading(rows, source).read(location);
}

}  // namespace graftcast
