#include "services/answer_channel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "graftcast/error.hpp"
#include "plausibility.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

Dimension dimension_of(Quantity quantity, Kind kind) {
  switch (quantity) {
    case Quantity::air_temperature:
    case Quantity::dew_point:
      return Dimension::temperature;
    case Quantity::relative_humidity:
    case Quantity::cloud_cover:
      return Dimension::proportion;
    case Quantity::wind_speed:
    case Quantity::gust:
      return Dimension::speed;
    case Quantity::shortwave:
      return kind == Kind::sum ? Dimension::exposure : Dimension::irradiance;
    case Quantity::precipitation:
      return kind == Kind::sum ? Dimension::depth : Dimension::depth_rate;
    case Quantity::pressure:
      return Dimension::pressure;
  }
  return Dimension::temperature;
}

struct Seen {
  double raw;
  Instant at;
};

void note_beyond(const AnswerField& field, const Limits& limits, std::optional<double> nearest,
                 const Seen& seen, NoteBook& notes) {
  const std::string text =
      nearest ? tr("{quantity}: slightly beyond {nearest:g}, taken as {nearest:g}", "quantity"_a = field.name,
                   "nearest"_a = *nearest)
              : tr("{quantity}: set aside, since it cannot be below {least:g} or above {greatest:g} {unit}",
                   "quantity"_a = field.name, "least"_a = limits.least, "greatest"_a = limits.greatest,
                   "unit"_a = own_unit_name(field.unit.dimension));
  if (notes.count(nearest ? "overshoot" : "beyond-limits", text))
    notes.example(fmt::format("{}: {:g} {}", utc_text(seen.at), seen.raw, field.unit.name));
}

}  // namespace

Unit answer_unit(std::string_view text, Quantity quantity, Kind kind) {
  const Unit unit = parse_unit(text);
  const Dimension wanted = dimension_of(quantity, kind);
  if (unit.dimension != wanted)
    throw RangeError(tr("\"{text}\" is {dimension}, but {quantity} is {needed}", "text"_a = text,
                        "dimension"_a = dimension_name(unit.dimension), "quantity"_a = cf_name(quantity),
                        "needed"_a = dimension_name(wanted)));
  return unit;
}

double factor_from_sea_level(const Location& location) {
  return air_pressure_kpa(location.elevation_m) / air_pressure_kpa(0);
}

double usual_factor(Quantity quantity) {
  return quantity == Quantity::wind_speed || quantity == Quantity::gust ? wind_at_2m_m_s(1, 10) : 1;
}

bool has_any(const std::vector<double>& values) {
  return std::ranges::any_of(values, [](double value) { return !std::isnan(value); });
}

void add_channel(Block& block, const AnswerField& field, const std::vector<double>& raw, NoteBook& notes) {
  const Limits limits = physical_limits(field.quantity, field.kind, field.daily);
  Channel channel{field.quantity, field.kind, {}};
  channel.value.reserve(raw.size());
  for (std::size_t k = 0; k < raw.size(); ++k) {
    double value = field.unit.to_own(raw[k]);
    if (!std::isnan(value) && !limits.hold(value)) {
      const auto nearest = without_overshoot(field.quantity, field.kind, value);
      note_beyond(field, limits, nearest, {raw[k], block.spans[k].begin}, notes);
      value = nearest.value_or(std::numeric_limits<double>::quiet_NaN());
    }
    channel.value.push_back(value * field.factor);
  }
  if (has_any(channel.value)) block.channels.push_back(std::move(channel));
}

}  // namespace graftcast
