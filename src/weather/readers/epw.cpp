#include <array>

#include "readers/year_rows.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/archive_readers.hpp"

namespace graftcast {

namespace {

/// A column that is read: numbers at or above `none_from` stand for no value (EnergyPlus, Auxiliary Programs:
/// EPW data dictionary).
struct EpwColumn {
  std::size_t field;
  const char* name;
  Quantity quantity;
  double none_from;
  double scale;
};

constexpr EpwColumn dry_bulb{6, tr_later("dry bulb temperature"), Quantity::air_temperature, 99.9, 1};
constexpr EpwColumn dew_point{7, tr_later("dew point temperature"), Quantity::dew_point, 99.9, 1};
constexpr EpwColumn humidity{8, tr_later("relative humidity"), Quantity::relative_humidity, 999, 1};
constexpr EpwColumn pressure{9, tr_later("station pressure"), Quantity::pressure, 999999, 0.001};
constexpr EpwColumn global{13, tr_later("global horizontal radiation"), Quantity::shortwave, 9999, 1};
constexpr EpwColumn wind{21, tr_later("wind speed"), Quantity::wind_speed, 999, 1};
constexpr EpwColumn sky_cover{22, tr_later("total sky cover"), Quantity::cloud_cover, 99, 10};
constexpr std::size_t fewest_fields = 29;

struct EpwHeader {
  Location station;
  std::chrono::minutes ahead_of_utc{};
  int records_per_hour = 1;
  bool said_typical = false;
};

double needed_number(const DelimitedRows& rows, std::size_t field, double least, double greatest,
                     std::string_view what) {
  const auto value = number_in(rows, field, what);
  if (value && *value >= least && *value <= greatest) return *value;
  throw DataError(rows.position(field), tr("LOCATION has no {what} there", "what"_a = translated(what)),
                  tr("a number from {least:g} to {greatest:g}", "least"_a = least, "greatest"_a = greatest));
}

/// LOCATION,city,state,country,source,WMO number,latitude,longitude,hours ahead of UTC,elevation.
void take_location(const DelimitedRows& rows, EpwHeader& header) {
  header.station.latitude_deg = needed_number(rows, 6, -90, 90, tr_later("latitude"));
  header.station.longitude_deg = needed_number(rows, 7, -180, 180, tr_later("longitude"));
  const double hours = needed_number(rows, 8, -12, 14, tr_later("time zone"));
  header.ahead_of_utc = std::chrono::minutes(static_cast<long>(hours * 60));
  header.station.elevation_m = needed_number(rows, 9, -1000, 9999.9, "elevation");
  const std::string_view kind = trimmed(rows.fields()[4].text);
  header.said_typical = kind.find("TMY") != std::string_view::npos ||
                        kind.find("IWEC") != std::string_view::npos ||
                        kind.find("TRY") != std::string_view::npos;
}

/// DATA PERIODS,periods,records an hour,...; it ends the header.
void take_periods(const DelimitedRows& rows, EpwHeader& header) {
  header.records_per_hour = whole_number_in(rows, 2, 1, 60, tr_later("a number of records an hour"));
  if (60 % header.records_per_hour == 0) return;
  throw DataError(rows.position(2), tr("that many records do not fill an hour evenly"), "1, 2, 3, 4, 6, ...");
}

EpwHeader read_header(DelimitedRows& rows) {
  EpwHeader header;
  constexpr int header_lines = 12;  // Eight; comments may run on.
  bool located = false;
  for (int line = 0; line < header_lines && rows.next(); ++line) {
    const std::string_view word = trimmed(rows.fields().front().text);
    if (word == "LOCATION") {
      take_location(rows, header);
      located = true;
    } else if (word == "DATA PERIODS" && located) {
      take_periods(rows, header);
      return header;
    }
  }
  throw DataError(
      {rows.name(), rows.line(), 1},
      located ? tr("no line DATA PERIODS ends the header") : tr("no line LOCATION begins the file"),
      tr("an EPW header of eight lines, LOCATION to DATA PERIODS"));
}

/// Year, month, day, hour 1..24 and, with several records an hour, the minute, which some files count from 0
/// and others up to 60.
class EpwClock {
 public:
  explicit EpwClock(int records_per_hour) : step_(60 / records_per_hour) {}

  std::chrono::minutes step() const { return step_; }
  EndStamp read(const DelimitedRows& rows) {
    const int year = whole_number_in(rows, 0, 1800, 2400, tr_later("a year"));
    const int month = whole_number_in(rows, 1, 1, 12, tr_later("a month"));
    const int day = whole_number_in(rows, 2, 1, 31, tr_later("a day"));
    const int hour = whole_number_in(rows, 3, 1, 24, tr_later("an hour"));
    const std::chrono::year_month_day date{std::chrono::year(year),
                                           std::chrono::month(static_cast<unsigned>(month)),
                                           std::chrono::day(static_cast<unsigned>(day))};
    // A typical year may take 29 February from its own year; no month has a 30 February.
    if (!date.ok() && !(month == 2 && day == 29))
      throw DataError(rows.position(2), tr("the calendar has no such day"), tr("a day of that month"));
    return {date, std::chrono::hours(hour - 1) + within_hour(rows), rows.line()};
  }

 private:
  std::chrono::minutes within_hour(const DelimitedRows& rows) {
    if (step_ == std::chrono::hours(1)) return step_;
    const std::chrono::minutes minute(whole_number_in(rows, 4, 0, 60, tr_later("a minute")));
    if (minutes_ == Minutes::unknown)
      minutes_ = minute == std::chrono::minutes(0) ? Minutes::from_zero : Minutes::to_sixty;
    const std::chrono::minutes end = minutes_ == Minutes::from_zero ? minute + step_ : minute;
    if (end.count() >= step_.count() && end <= std::chrono::hours(1) && end.count() % step_.count() == 0)
      return end;
    throw DataError(rows.position(4), tr("the minute does not fit the records of an hour"),
                    tr("a step of {count} minutes", "count"_a = step_.count()));
  }

  std::chrono::minutes step_;
  enum class Minutes { unknown, from_zero, to_sixty } minutes_ = Minutes::unknown;
};

class EpwReading {
 public:
  EpwReading(DelimitedRows& rows, const SourceSettings& source)
      : rows_(rows), notes_(rows.name()), year_(notes_), wind_factor_(wind_factor_to_2m(source)) {}

  Readings read(const Location& site);

 private:
  void take_row(EpwClock& clock);
  void take(ArchiveBlock& block, std::size_t row, const EpwColumn& column, Kind kind, double factor);

  DelimitedRows& rows_;
  NoteBook notes_;
  YearRows year_;
  double wind_factor_;
};

void EpwReading::take(ArchiveBlock& block, std::size_t row, const EpwColumn& column, Kind kind,
                      double factor) {
  const auto number = number_in(rows_, column.field, column.name);
  if (!number || *number >= column.none_from) return;
  block.put(block.channel(column.quantity, kind, column.name), row, *number * column.scale * factor, rows_,
            rows_.position(column.field).column);
}

void EpwReading::take_row(EpwClock& clock) {
  const std::size_t count = rows_.fields().size();
  if (count < fewest_fields) {
    throw DataError(rows_.position(count), tr("the row ends after field {count}", "count"_a = count),
                    tr("35 fields, at least 29"));
  }
  const EndStamp stamp = clock.read(rows_);
  const std::size_t row = year_.add(stamp);
  for (const EpwColumn& column : {dry_bulb, dew_point, humidity, pressure, sky_cover})
    take(year_.at_stamp(), row, column, Kind::instant, 1);
  take(year_.at_stamp(), row, wind, Kind::instant, wind_factor_);
  // Wh/m2 of the interval; over an hour that is its mean in W/m2.
  take(year_.before_stamp(), row, global, Kind::mean, 60.0 / static_cast<double>(clock.step().count()));
}

Readings EpwReading::read(const Location& site) {
  const EpwHeader header = read_header(rows_);
  note_distance(site, header.station, notes_);
  EpwClock clock(header.records_per_hour);
  while (rows_.next()) take_row(clock);
  Readings readings;
  readings.source = rows_.name();
  readings.blocks = year_.take(clock.step(), header.ahead_of_utc, header.said_typical, rows_.name());
  notes_.count("no-rain", tr("rain is not read from such a file, whose column for it is undependable"));
  readings.notes = notes_.take();
  return readings;
}

}  // namespace

Readings read_epw(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                  const Clock& /*clock*/) {
  return EpwReading(rows, source).read(location);
}

}  // namespace graftcast
