#include <algorithm>
#include <array>
#include <cmath>

#include "readers/archive_block.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/archive_readers.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

namespace {

std::string lower(std::string_view text) {
  std::string copy(trimmed(text));
  for (char& letter : copy) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  return copy;
}

/// Names are the same in all releases but for their case and for `_code` at the end of some.
class GhcnhHeaders {
 public:
  explicit GhcnhHeaders(const DelimitedRows& rows) {
    for (const Field& field : rows.fields()) names_.push_back(lower(field.text));
  }
  std::size_t size() const { return names_.size(); }
  std::optional<std::size_t> find(const std::string& name) const {
    for (std::size_t k = 0; k < names_.size(); ++k) {
      if (names_[k] == name || names_[k] == name + "_code") return k;
    }
    return std::nullopt;
  }

 private:
  std::vector<std::string> names_;
};

/// An element with the columns that go with it.
struct GhcnhElement {
  std::string name;
  std::size_t value = 0;
  std::optional<std::size_t> quality;
  std::optional<std::size_t> report;
};

std::string_view text_in(const DelimitedRows& rows, std::optional<std::size_t> field) {
  return field && *field < rows.fields().size() ? trimmed(rows.fields()[*field].text) : std::string_view();
}

/// Codes that count as good: none, and 0, 1, 4, 5, 9 of the older sources (ISD's scale). Letters name a
/// failed check.
bool is_good(std::string_view quality) {
  constexpr std::array<std::string_view, 6> good = {"", "0", "1", "4", "5", "9"};
  return std::find(good.begin(), good.end(), quality) != good.end();
}

class GhcnHourlyReading {
 public:
  GhcnHourlyReading(DelimitedRows& rows, const SourceSettings& source, const Location& location)
      : rows_(rows),
        notes_(rows.name()),
        wind_factor_(wind_factor_to_2m(source)),
        site_over_sea_level_(site_over_sea_level(location)) {}

  Readings read();

 private:
  void plan();
  std::optional<GhcnhElement> element(const GhcnhHeaders& headers, const std::string& name) const;
  Instant stamp() const;
  Instant stamp_of_parts() const;
  std::optional<double> good_number(const std::optional<GhcnhElement>& element);
  void put(const std::optional<GhcnhElement>& element, Quantity quantity, double factor);
  void put_pressure();
  void take_rain(Instant at);
  void take_row();
  void check_station();
  std::vector<std::optional<Span>> hours_apart() const;
  std::vector<std::optional<Span>> six_hours_alone(const std::vector<std::optional<Span>>& hourly) const;
  void drop_repeated();

  DelimitedRows& rows_;
  NoteBook notes_;
  double wind_factor_;
  double site_over_sea_level_;
  std::string station_;
  std::optional<std::size_t> station_field_, date_;
  std::array<std::optional<std::size_t>, 5> parts_;  ///< Year, month, day, hour, minute.
  std::optional<GhcnhElement> air_, dew_, humidity_, wind_, pressure_, sea_level_, rain_, six_hour_rain_;
  ArchiveBlock values_{false, notes_};
  ArchiveBlock hour_rain_{false, notes_};
  ArchiveBlock six_rain_{false, notes_};
  std::vector<std::optional<Span>> instants_;
  std::vector<std::optional<Span>> hours_;
  std::vector<std::optional<Span>> sixes_;
};

std::optional<GhcnhElement> GhcnHourlyReading::element(const GhcnhHeaders& headers,
                                                       const std::string& name) const {
  const auto value = headers.find(name);
  if (!value) return std::nullopt;
  return GhcnhElement{name, *value, headers.find(name + "_quality_code"),
                      headers.find(name + "_report_type")};
}

void GhcnHourlyReading::plan() {
  if (!rows_.next())
    throw DataError({rows_.name(), 1, 1}, tr("the file is empty"), tr("a header row is needed"));
  const GhcnhHeaders headers(rows_);
  station_field_ = headers.find("station");
  if (!station_field_) station_field_ = headers.find("station_id");
  date_ = headers.find("date");
  constexpr std::array<const char*, 5> parts = {"year", "month", "day", "hour", "minute"};
  for (std::size_t k = 0; k < parts.size(); ++k) parts_.at(k) = headers.find(parts.at(k));
  const bool in_parts =
      std::all_of(parts_.begin(), parts_.end(), [](const auto& part) { return part.has_value(); });
  air_ = element(headers, "temperature");
  if (!air_ || (!date_ && !in_parts)) {
    throw DataError(rows_.position(0), tr("the header row has no temperature or no time"),
                    tr("temperature, and DATE or Year to Minute"));
  }
  dew_ = element(headers, "dew_point_temperature");
  humidity_ = element(headers, "relative_humidity");
  wind_ = element(headers, "wind_speed");
  pressure_ = element(headers, "station_level_pressure");
  sea_level_ = element(headers, "sea_level_pressure");
  rain_ = element(headers, "precipitation");
  six_hour_rain_ = element(headers, "precipitation_6_hour");
}

Instant GhcnHourlyReading::stamp_of_parts() const {
  using namespace std::chrono;
  const year_month_day day{
      year(whole_number_in(rows_, *parts_[0], 1700, 2400, tr_later("a year"))),
      month(static_cast<unsigned>(whole_number_in(rows_, *parts_[1], 1, 12, tr_later("a month")))),
      std::chrono::day(static_cast<unsigned>(whole_number_in(rows_, *parts_[2], 1, 31, tr_later("a day"))))};
  if (!day.ok())
    throw DataError(rows_.position(*parts_[2]), tr("the calendar has no such day"),
                    tr("a day of that month"));
  return sys_days(day) + std::chrono::hours(whole_number_in(rows_, *parts_[3], 0, 23, tr_later("an hour"))) +
         std::chrono::minutes(whole_number_in(rows_, *parts_[4], 0, 59, tr_later("a minute")));
}

Instant GhcnHourlyReading::stamp() const {
  if (!date_) return stamp_of_parts();
  const std::string_view text = text_in(rows_, date_);
  if (const auto time = parse_time(text))
    return Instant(time->reading.time_since_epoch() - time->offset.value_or(std::chrono::seconds(0)));
  throw DataError(rows_.position(*date_), tr("{text} is not a time", "text"_a = shown(text)),
                  tr("YYYY-MM-DDTHH:MM:SS in UTC is right"));
}

std::optional<double> GhcnHourlyReading::good_number(const std::optional<GhcnhElement>& element) {
  if (!element) return std::nullopt;
  const std::string_view text = text_in(rows_, element->value);
  const std::string_view quality = text_in(rows_, element->quality);
  if (!text.empty() && !is_good(quality)) {
    if (notes_.count("failed-check",
                     tr("{name}: the archive's own check failed; set aside", "name"_a = element->name))) {
      notes_.example(tr("{position}: {text}, code {quality}",
                        "position"_a = to_string(rows_.position(element->value)), "text"_a = text,
                        "quality"_a = quality));
    }
    return std::nullopt;
  }
  if (text == "T") return 0;  // A trace of rain.
  const auto number = number_in(rows_, element->value, element->name);
  return number && *number <= -999 ? std::nullopt : number;
}

void GhcnHourlyReading::put(const std::optional<GhcnhElement>& element, Quantity quantity, double factor) {
  if (const auto number = good_number(element)) {
    values_.put(values_.channel(quantity, Kind::instant, element->name), values_.rows() - 1, *number * factor,
                rows_, rows_.position(element->value).column);
  }
}

void GhcnHourlyReading::put_pressure() {
  const bool at_station = !text_in(rows_, pressure_ ? std::optional(pressure_->value) : std::nullopt).empty();
  constexpr double hpa_to_kpa = 0.1;
  put(at_station ? pressure_ : sea_level_, Quantity::pressure,
      hpa_to_kpa * (at_station ? 1.0 : site_over_sea_level_));
}

/// An hourly routine report counts from the one before it and comes some minutes before the full hour.
void GhcnHourlyReading::take_rain(Instant at) {
  const auto within_hour = at - std::chrono::floor<std::chrono::hours>(at);
  const std::string_view report = text_in(rows_, rain_ ? rain_->report : std::nullopt);
  hour_rain_.add_row();
  six_rain_.add_row();
  hours_.emplace_back(Span{at - std::chrono::hours(1), at});
  sixes_.emplace_back(Span{at - std::chrono::hours(6), at});
  const bool routine = report == "FM-15" &&
                       (within_hour >= std::chrono::minutes(45) || within_hour == std::chrono::minutes(0));
  if (const auto number = routine ? good_number(rain_) : std::nullopt) {
    hour_rain_.put(hour_rain_.channel(Quantity::precipitation, Kind::sum, rain_->name), hour_rain_.rows() - 1,
                   *number, rows_, rows_.position(rain_->value).column);
  }
  if (const auto number = good_number(six_hour_rain_)) {
    six_rain_.put(six_rain_.channel(Quantity::precipitation, Kind::sum, six_hour_rain_->name),
                  six_rain_.rows() - 1, *number, rows_, rows_.position(six_hour_rain_->value).column);
  }
}

void GhcnHourlyReading::check_station() {
  const std::string_view id = text_in(rows_, station_field_);
  if (station_.empty()) station_ = id;
  if (station_ == id) return;
  throw DataError(
      rows_.position(*station_field_),
      tr("station {id} after station {station}", "id"_a = shown(id), "station"_a = shown(station_)),
      tr("keep the rows of one station"));
}

void GhcnHourlyReading::take_row() {
  check_station();
  const Instant at = stamp();
  if (!instants_.empty() && at < instants_.back()->begin) {
    throw DataError(rows_.position(date_.value_or(0)), tr("the row is earlier than the one before it"),
                    tr("rows in order of time"));
  }
  instants_.emplace_back(Span{at, at});
  values_.add_row();
  put(air_, Quantity::air_temperature, 1);
  put(dew_, Quantity::dew_point, 1);
  put(humidity_, Quantity::relative_humidity, 1);
  put(wind_, Quantity::wind_speed, wind_factor_);
  put_pressure();
  take_rain(at);
}

/// Of several reports of one minute the first stands.
void GhcnHourlyReading::drop_repeated() {
  for (std::size_t row = instants_.size(); row-- > 1;) {
    if (instants_[row] == instants_[row - 1]) {
      instants_[row].reset();
      notes_.count("repeated-time", tr("a second report of the same minute was set aside"));
    }
  }
}

bool has_value(const ArchiveBlock& block, std::size_t row) {
  return block.has_channels() && !std::isnan(block.value(0, row));
}

std::vector<std::optional<Span>> GhcnHourlyReading::hours_apart() const {
  std::vector<std::optional<Span>> apart(hours_.size());
  Instant until = Instant::min();
  for (std::size_t row = 0; row < hours_.size(); ++row) {
    if (!has_value(hour_rain_, row) || hours_[row]->end <= until) continue;
    apart[row] = Span{std::max(hours_[row]->begin, until), hours_[row]->end};
    until = hours_[row]->end;
  }
  return apart;
}

std::vector<std::optional<Span>> GhcnHourlyReading::six_hours_alone(
    const std::vector<std::optional<Span>>& hourly) const {
  std::vector<std::optional<Span>> alone(sixes_.size());
  Instant until = Instant::min();
  for (std::size_t row = 0; row < sixes_.size(); ++row) {
    const Span& six = *sixes_[row];
    if (!has_value(six_rain_, row) || six.begin < until) continue;
    bool known_by_hour = false;
    for (std::size_t k = row + 1; !known_by_hour && k-- > 0 && hours_[k]->end > six.begin;)
      known_by_hour = hourly[k].has_value();
    for (std::size_t k = row + 1; !known_by_hour && k < hours_.size() && hours_[k]->begin < six.end; ++k)
      known_by_hour = hourly[k].has_value();
    if (known_by_hour) continue;
    alone[row] = six;
    until = six.end;
  }
  return alone;
}

Readings GhcnHourlyReading::read() {
  plan();
  while (rows_.next()) take_row();
  drop_repeated();
  const auto hourly = hours_apart();
  const auto six = six_hours_alone(hourly);
  Readings readings;
  readings.source = rows_.name();
  for (Block block : {values_.take(instants_), six_rain_.take(six), hour_rain_.take(hourly)}) {
    if (!block.channels.empty()) readings.blocks.push_back(std::move(block));
  }
  if (readings.blocks.empty())
    throw DataError({rows_.name(), 0, 0}, tr("the file has no value that can be used"),
                    tr("rows of reports"));
  readings.notes = notes_.take();
  return readings;
}

}  // namespace

Readings read_ghcn_hourly(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                          const Clock& /*clock*/) {
  return GhcnHourlyReading(rows, source, location).read();
}

}  // namespace graftcast
