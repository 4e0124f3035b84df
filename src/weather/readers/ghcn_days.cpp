#include "readers/ghcn_days.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::local_seconds;

/// An element that is read: the own unit is `scale` times the number in the file (GHCN-Daily readme, III).
struct GhcnDays::Element {
  std::string_view name;
  Quantity quantity;
  Kind kind;
  double scale;
  bool of_day_before_reading = false;  ///< Of the 24 hours that end at the observation.
};

const GhcnDays::Element* GhcnDays::find_element(std::string_view name) {
  static constexpr std::array<Element, 12> elements = {
      {{"TMAX", Quantity::air_temperature, Kind::maximum, 0.1, true},
       {"TMIN", Quantity::air_temperature, Kind::minimum, 0.1},
       {"TAVG", Quantity::air_temperature, Kind::mean, 0.1},
       {"PRCP", Quantity::precipitation, Kind::sum, 0.1, true},
       {"ADPT", Quantity::dew_point, Kind::mean, 0.1},
       {"RHAV", Quantity::relative_humidity, Kind::mean, 1},
       {"RHMN", Quantity::relative_humidity, Kind::minimum, 1},
       {"RHMX", Quantity::relative_humidity, Kind::maximum, 1},
       {"AWND", Quantity::wind_speed, Kind::mean, 0.1},
       {"WSFG", Quantity::gust, Kind::maximum, 0.1},
       {"ASTP", Quantity::pressure, Kind::mean, 0.01},
       {"ACMH", Quantity::cloud_cover, Kind::mean, 1}}};
  const auto* const found =
      std::find_if(elements.begin(), elements.end(), [&](const Element& each) { return each.name == name; });
  return found == elements.end() ? nullptr : found;
}

GhcnDays::GhcnDays(const SourceSettings& source, const Clock& clock, std::string name)
    : name_(std::move(name)),
      notes_(name_),
      clock_(source.time_zone, clock),
      wind_factor_(wind_factor_to_2m(source)) {}

double GhcnDays::own_value(const Element& element, double number) const {
  const bool is_wind = element.quantity == Quantity::wind_speed || element.quantity == Quantity::gust;
  // Division by ten gives the decimal number that the tenths stand for; a product with 0.1 does not.
  return number / std::round(1 / element.scale) * (is_wind ? wind_factor_ : 1.0);
}

Span GhcnDays::span_of(const GhcnValue& value, const Element& element) {
  const bool shifted = element.of_day_before_reading && value.read_at &&
                       *value.read_at < std::chrono::hours(24) && *value.read_at > std::chrono::minutes(0);
  if (!shifted) return clock_.day(value.day);
  const local_seconds end = value.day + *value.read_at;
  return {clock_.resolve(end - std::chrono::days(1), false).instant, clock_.resolve(end, false).instant};
}

std::size_t GhcnDays::row_of(const Span& span) {
  const auto [place, is_new] = row_of_span_.try_emplace({span.begin, span.end}, block_.rows());
  return is_new ? block_.add_row() : place->second;
}

void GhcnDays::take(const GhcnValue& value, const DelimitedRows& rows, std::size_t column) {
  constexpr double none = -9999;
  if (value.number == none) return;
  const Element* const element = find_element(value.element);
  if (element == nullptr) {
    ++unused_[std::string(value.element)];
    return;
  }
  if (value.quality != ' ') {
    if (notes_.count("failed-check", tr("{element}: the archive's own check failed; set aside",
                                        "element"_a = value.element))) {
      notes_.example(tr("{position}: {number:g} on {day}, flag {quality}",
                        "position"_a = to_string({name_, rows.line(), column}), "number"_a = value.number,
                        "day"_a = day_text(value.day), "quality"_a = value.quality));
    }
    return;
  }
  any_read_at_ = any_read_at_ || value.read_at;
  const std::size_t channel = block_.channel(element->quantity, element->kind, element->name);
  block_.put(channel, row_of(span_of(value, *element)), own_value(*element, value.number), rows, column);
}

void GhcnDays::check_station(std::string_view id, const DelimitedRows& rows, std::size_t column) {
  if (station_.empty()) station_ = id;
  if (station_ == id) return;
  throw DataError(
      {name_, rows.line(), column},
      tr("station {id} after station {station}", "id"_a = shown(id), "station"_a = shown(station_)),
      tr("keep the rows of one station"));
}

Readings GhcnDays::finish() {
  std::vector<std::optional<Span>> spans(block_.rows());
  for (const auto& [span, row] : row_of_span_) spans[row] = Span{span.first, span.second};
  Readings readings;
  readings.source = name_;
  readings.blocks.push_back(block_.take(spans));
  if (readings.blocks.front().spans.empty())
    throw DataError({name_, 0, 0}, tr("the record has no value that can be used"),
                    tr("TMAX, TMIN or PRCP without flags"));
  if (!any_read_at_) {
    notes_.count(
        "day-boundary",
        tr("the file does not tell at what hour the days end: at stations read in the morning a maximum "
           "and the rain are of the day before"));
  }
  for (const auto& [element, count] : unused_) {
    const bool several_days = element.starts_with("MD");
    notes_.count(several_days ? "several-days" : "unused-column",
                 several_days ? tr("{element}: an amount of several days; set aside", "element"_a = element)
                              : tr("{element} is not read", "element"_a = element),
                 count);
  }
  readings.notes = notes_.take();
  return readings;
}

}  // namespace graftcast
