#include <array>
#include <cmath>

#include "readers/archive_block.hpp"
#include "text/tr.hpp"
#include "weather/archive_readers.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

namespace {

constexpr double no_value = -9999;

/// Cloud cover [%] of an ISD sky code: 0..8 oktas, 9 obscured, 11..13 scattered (3 to 4 oktas), 14..16 broken
/// (5 to 7), 17..19 overcast. 10, partly obscured, tells no cover.
std::optional<double> cloud_cover_pct(double code) {
  if (code >= 0 && code <= 8) return code * 12.5;
  if (code == 9 || (code >= 17 && code <= 19)) return 100;
  if (code >= 11 && code <= 13) return 3.5 * 12.5;
  if (code >= 14 && code <= 16) return 6 * 12.5;
  return std::nullopt;
}

/// The ISD-Lite layout (NOAA, isd-lite-format; its positions for the day and the dew point are misprinted).
class IsdLiteReading {
 public:
  IsdLiteReading(DelimitedRows& rows, const SourceSettings& source, const Location& location)
      : rows_(rows),
        notes_(rows.name()),
        wind_factor_(wind_factor_to_2m(source)),
        site_over_sea_level_(site_over_sea_level(location)) {}

  Readings read();

 private:
  std::optional<double> number(std::size_t begin, std::string_view what) const;
  Instant stamp();
  void put(ArchiveBlock& block, std::size_t channel, std::size_t begin, std::string_view what, double divisor,
           double factor = 1);
  void put_rain(ArchiveBlock& block, std::size_t channel, std::size_t begin);
  void take_row();
  std::vector<std::optional<Span>> intervals(std::chrono::hours length) const;
  std::vector<std::optional<Span>> six_hours_alone() const;

  DelimitedRows& rows_;
  NoteBook notes_;
  double wind_factor_;
  double site_over_sea_level_;
  std::vector<Instant> stamps_;
  ArchiveBlock values_{false, notes_};
  ArchiveBlock rain_{false, notes_};
  ArchiveBlock six_hour_rain_{false, notes_};
  std::size_t air_ = values_.channel(Quantity::air_temperature, Kind::instant, tr_later("air temperature"));
  std::size_t dew_ = values_.channel(Quantity::dew_point, Kind::instant, tr_later("dew point"));
  std::size_t pressure_ = values_.channel(Quantity::pressure, Kind::instant, tr_later("sea level pressure"));
  std::size_t wind_ = values_.channel(Quantity::wind_speed, Kind::instant, tr_later("wind speed"));
  std::size_t cloud_ = values_.channel(Quantity::cloud_cover, Kind::instant, tr_later("sky condition"));
  std::size_t one_hour_ = rain_.channel(Quantity::precipitation, Kind::sum, tr_later("rain of one hour"));
  std::size_t six_hours_ =
      six_hour_rain_.channel(Quantity::precipitation, Kind::sum, tr_later("rain of six hours"));
};

std::optional<double> IsdLiteReading::number(std::size_t begin, std::string_view what) const {
  const auto value = number_at(rows_, begin, 6, what);
  if (!value) {
    throw DataError({rows_.name(), rows_.line(), rows_.raw().size() + 1},
                    tr("the line ends before its last value"),
                    tr("61 characters: year, month, day, hour and eight values"));
  }
  return *value == no_value ? std::nullopt : value;
}

Instant IsdLiteReading::stamp() {
  using namespace std::chrono;
  const year_month_day date{
      year(whole_number_at(rows_, 0, 4, 1800, 2400, tr_later("a year"))),
      month(static_cast<unsigned>(whole_number_at(rows_, 5, 2, 1, 12, tr_later("a month")))),
      day(static_cast<unsigned>(whole_number_at(rows_, 8, 2, 1, 31, tr_later("a day"))))};
  if (!date.ok())
    throw DataError({rows_.name(), rows_.line(), 9}, tr("the calendar has no such day"),
                    tr("a day of that month"));
  const Instant at = sys_days(date) + hours(whole_number_at(rows_, 11, 2, 0, 23, tr_later("an hour")));
  if (stamps_.empty() || at > stamps_.back()) return at;
  throw DataError({rows_.name(), rows_.line(), 1}, tr("the line is not later than the one before it"),
                  tr("lines in order, each hour once"));
}

void IsdLiteReading::put(ArchiveBlock& block, std::size_t channel, std::size_t begin, std::string_view what,
                         double divisor, double factor) {
  if (const auto value = number(begin, what))
    block.put(channel, block.rows() - 1, *value / divisor * factor, rows_, begin + 1);
}

void IsdLiteReading::put_rain(ArchiveBlock& block, std::size_t channel, std::size_t begin) {
  constexpr double trace = -1;
  const auto value = number(begin, tr_later("an amount of rain"));
  if (value) block.put(channel, block.rows() - 1, *value == trace ? 0 : *value / 10, rows_, begin + 1);
}

void IsdLiteReading::take_row() {
  stamps_.push_back(stamp());
  for (ArchiveBlock* const block : {&values_, &rain_, &six_hour_rain_}) block->add_row();
  put(values_, air_, 13, tr_later("a temperature"), 10);
  put(values_, dew_, 19, tr_later("a dew point"), 10);
  put(values_, pressure_, 25, tr_later("a pressure"), 100, site_over_sea_level_);
  put(values_, wind_, 37, tr_later("a wind speed"), 10, wind_factor_);
  if (const auto code = number(43, tr_later("a sky code"))) {
    if (const auto cover = cloud_cover_pct(*code)) values_.put(cloud_, values_.rows() - 1, *cover, rows_, 44);
  }
  put_rain(rain_, one_hour_, 49);
  put_rain(six_hour_rain_, six_hours_, 55);
}

std::vector<std::optional<Span>> IsdLiteReading::intervals(std::chrono::hours length) const {
  std::vector<std::optional<Span>> spans;
  for (const Instant at : stamps_) spans.emplace_back(Span{at - length, at});
  return spans;
}

/// Six-hourly amounts none of whose hours has its own, and that do not overlap.
std::vector<std::optional<Span>> IsdLiteReading::six_hours_alone() const {
  std::vector<std::optional<Span>> spans = intervals(std::chrono::hours(6));
  Instant taken_until = Instant::min();
  for (std::size_t row = 0; row < spans.size(); ++row) {
    bool alone = !std::isnan(six_hour_rain_.value(six_hours_, row)) && spans[row]->begin >= taken_until;
    for (std::size_t before = row + 1; alone && before-- > 0 && stamps_[before] > spans[row]->begin;)
      alone = std::isnan(rain_.value(one_hour_, before));
    if (alone) {
      taken_until = spans[row]->end;
    } else {
      spans[row].reset();
    }
  }
  return spans;
}

Readings IsdLiteReading::read() {
  while (rows_.next()) take_row();
  const auto six = six_hours_alone();
  Readings readings;
  readings.source = rows_.name();
  for (Block block : {values_.take(intervals(std::chrono::hours(0))), six_hour_rain_.take(six),
                      rain_.take(intervals(std::chrono::hours(1)))}) {
    if (!block.channels.empty()) readings.blocks.push_back(std::move(block));
  }
  if (readings.blocks.empty())
    throw DataError({rows_.name(), 0, 0}, tr("the file has no value that can be used"),
                    tr("ISD-Lite lines of hours"));
  readings.notes = notes_.take();
  return readings;
}

}  // namespace

Readings read_isd_lite(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                       const Clock& /*clock*/) {
  return IsdLiteReading(rows, source, location).read();
}

}  // namespace graftcast
