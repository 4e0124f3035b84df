#include "readers/archive_block.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "plausibility.hpp"
#include "readers/quantity_names.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

std::size_t ArchiveBlock::channel(Quantity quantity, Kind kind, std::string_view name) {
  for (std::size_t k = 0; k < columns_.size(); ++k) {
    if (columns_[k].quantity == quantity && columns_[k].kind == kind) return k;
  }
  columns_.push_back({quantity, kind, std::string(name), std::vector<double>(row_count_, unknown)});
  return columns_.size() - 1;
}

std::size_t ArchiveBlock::add_row() {
  for (Column& column : columns_) column.value.push_back(unknown);
  return row_count_++;
}

void ArchiveBlock::note(const DelimitedRows& rows, std::size_t column, std::string_view kind,
                        const std::string& text, double value) {
  if (notes_.count(kind, text))
    notes_.example(fmt::format("{}: {:g}", to_string({rows.name(), rows.line(), column}), value));
}

void ArchiveBlock::put(std::size_t channel, std::size_t row, double value, const DelimitedRows& rows,
                       std::size_t column) {
  Column& into = columns_[channel];
  const Limits limits = physical_limits(into.quantity, into.kind, daily_);
  if (!limits.hold(value)) {
    const auto nearest = without_overshoot(into.quantity, into.kind, value);
    if (!nearest) {
      const auto named = parse_quantity_name(cf_name(into.quantity)).value().named;
      note(rows, column, "beyond-limits",
           tr("{quantity}: set aside, since it cannot be below {least:g} or above {greatest:g} {unit}",
              "quantity"_a = translated(into.name), "least"_a = limits.least, "greatest"_a = limits.greatest,
              "unit"_a =
                  own_unit_name(into.kind == Kind::sum && named->other_dimension ? *named->other_dimension
                                                                                 : named->dimension)),
           value);
      return;
    }
    note(rows, column, "overshoot",
         tr("{quantity}: slightly beyond {nearest:g}, taken as {nearest:g}",
            "quantity"_a = translated(into.name), "nearest"_a = *nearest),
         value);
    value = *nearest;
  }
  if (!std::isnan(into.value[row])) {
    note(rows, column, "repeated-time",
         tr("{quantity}: a second value for the same time; set aside", "quantity"_a = translated(into.name)),
         value);
    return;
  }
  into.value[row] = value;
}

bool ArchiveBlock::any_known(std::size_t row) const {
  return std::any_of(columns_.begin(), columns_.end(),
                     [&](const Column& column) { return !std::isnan(column.value[row]); });
}

Block ArchiveBlock::take(const std::vector<std::optional<Span>>& spans) {
  std::vector<std::size_t> order;
  for (std::size_t row = 0; row < row_count_; ++row) {
    if (spans[row] && any_known(row)) order.push_back(row);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return spans[a]->begin < spans[b]->begin; });
  Block block;
  for (const std::size_t row : order) block.spans.push_back(*spans[row]);
  for (const Column& column : columns_) {
    Channel channel{column.quantity, column.kind, {}};
    channel.value.reserve(order.size());
    for (const std::size_t row : order) channel.value.push_back(column.value[row]);
    const bool any = std::any_of(channel.value.begin(), channel.value.end(),
                                 [](double value) { return !std::isnan(value); });
    if (any) block.channels.push_back(std::move(channel));
  }
  return block;
}

namespace {

[[noreturn]] void refuse_number(const DelimitedRows& rows, std::size_t column, std::string_view text,
                                std::string_view what, std::string hint) {
  throw DataError({rows.name(), rows.line(), column},
                  tr("{text} is not {what}", "text"_a = shown(text), "what"_a = translated(what)),
                  std::move(hint));
}

int whole_within(const DelimitedRows& rows, std::size_t column, std::string_view text,
                 std::optional<double> value, int least, int most, std::string_view what) {
  if (!value || *value != std::floor(*value) || *value < least || *value > most)
    refuse_number(rows, column, text, what,
                  tr("a whole number from {least} to {most}", "least"_a = least, "most"_a = most));
  return static_cast<int>(*value);
}

}  // namespace

std::optional<double> number_at(const DelimitedRows& rows, std::size_t begin, std::size_t length,
                                std::string_view what) {
  if (begin >= rows.raw().size()) return std::nullopt;
  const std::string_view text = trimmed(rows.raw().substr(begin, length));
  if (text.empty()) return std::nullopt;
  const auto value = parse_number(text);
  if (!value) refuse_number(rows, begin + 1, text, what, tr("a number"));
  return value;
}

int whole_number_at(const DelimitedRows& rows, std::size_t begin, std::size_t length, int least, int most,
                    std::string_view what) {
  const std::string_view text =
      begin < rows.raw().size() ? rows.raw().substr(begin, length) : std::string_view();
  return whole_within(rows, begin + 1, text, number_at(rows, begin, length, what), least, most, what);
}

std::optional<double> number_in(const DelimitedRows& rows, std::size_t index, std::string_view what) {
  if (index >= rows.fields().size()) return std::nullopt;
  const std::string_view text = trimmed(rows.fields()[index].text);
  if (text.empty()) return std::nullopt;
  const auto value = parse_number(text);
  if (!value) refuse_number(rows, rows.fields()[index].column, text, what, tr("a number, or nothing"));
  return value;
}

int whole_number_in(const DelimitedRows& rows, std::size_t index, int least, int most,
                    std::string_view what) {
  const bool there = index < rows.fields().size();
  return whole_within(rows, rows.position(index).column, there ? rows.fields()[index].text : "",
                      number_in(rows, index, what), least, most, what);
}

double wind_factor_to_2m(const SourceSettings& source) {
  const double height_m = source.wind_height_m.value_or(10);
  return height_m == 2 ? 1.0 : wind_at_2m_m_s(1, height_m);
}

double site_over_sea_level(const Location& location) {
  return air_pressure_kpa(location.elevation_m) / air_pressure_kpa(0);
}

void note_distance(const Location& site, const Location& station, NoteBook& notes) {
  constexpr double km_per_degree = 111.2;
  const double north_km = km_per_degree * (station.latitude_deg - site.latitude_deg);
  const double turn_deg = std::remainder(station.longitude_deg - site.longitude_deg, 360.0);
  const double east_km = km_per_degree * turn_deg * std::cos(site.latitude_deg * std::numbers::pi / 180);
  const double away_km = std::hypot(north_km, east_km);
  const double higher_m = station.elevation_m - site.elevation_m;
  if (away_km <= 50 && std::abs(higher_m) <= 300) return;
  notes.count("elsewhere",
              higher_m < 0
                  ? tr("the station stands {distance:.0f} km from the site and {height:.0f} m lower",
                       "distance"_a = away_km, "height"_a = -higher_m)
                  : tr("the station stands {distance:.0f} km from the site and {height:.0f} m higher",
                       "distance"_a = away_km, "height"_a = higher_m));
}

}  // namespace graftcast
