// MET Norway Locationforecast 2.0: GeoJSON, values at a time, rain of the hour or six hours after it.

#include <array>
#include <optional>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/answer.hpp"
#include "services/answer_channel.hpp"
#include "services/finish_answer.hpp"
#include "text/tr.hpp"
#include "weather/forecast_services.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

struct MetField {
  const char* name;
  Quantity quantity;
  Kind kind = Kind::instant;
};

constexpr auto instant_fields = std::to_array<MetField>({
    {"air_temperature", Quantity::air_temperature},
    {"relative_humidity", Quantity::relative_humidity},
    {"dew_point_temperature", Quantity::dew_point},
    {"wind_speed", Quantity::wind_speed},
    {"air_pressure_at_sea_level", Quantity::pressure},
    {"cloud_area_fraction", Quantity::cloud_cover},
});
constexpr MetField gust{"wind_speed_of_gust", Quantity::gust, Kind::maximum};
constexpr MetField rain{"precipitation_amount", Quantity::precipitation, Kind::sum};
constexpr auto extreme_fields = std::to_array<MetField>({
    {"air_temperature_min", Quantity::air_temperature, Kind::minimum},
    {"air_temperature_max", Quantity::air_temperature, Kind::maximum},
});
const std::string series = "/properties/timeseries";

class MetNorwayReader {
 public:
  MetNorwayReader(const Answer& answer, const Location& location, NoteBook& notes);
  std::vector<Block> blocks();

 private:
  /// Details of entry `k` under `part` (`instant`, `next_1_hours`), or null pointer.
  const json* details(std::size_t k, const char* part) const;
  double value(std::size_t k, const char* part, const char* name) const;
  AnswerField field(const MetField& met) const;
  std::vector<double> values(const MetField& met, const char* part, std::size_t from, std::size_t to) const;
  void add(Block& block, const MetField& met, const std::vector<double>& raw) const;
  bool steps_far(std::size_t k) const { return times_[k + 1] - times_[k] > std::chrono::hours(1); }
  void add_instants(std::vector<Block>& blocks) const;
  Block instants(std::size_t from, std::size_t to) const;
  Block gusts() const;
  Block rains() const;
  Block extremes() const;
  std::optional<Span> rain_span(std::size_t k, const char*& part) const;

  const Answer& answer_;
  const Location& location_;
  NoteBook& notes_;
  const json& entries_;
  std::vector<Instant> times_;
};

MetNorwayReader::MetNorwayReader(const Answer& answer, const Location& location, NoteBook& notes)
    : answer_(answer), location_(location), notes_(notes), entries_(answer.array_at(series)) {
  for (std::size_t k = 0; k < entries_.size(); ++k) {
    times_.push_back(answer.time_at(fmt::format("{}/{}/time", series, k)));
    if (k > 0 && times_[k] <= times_[k - 1])
      answer.fail(fmt::format("{}/{}/time", series, k), tr("the times do not rise"));
  }
  if (entries_.empty()) answer.fail(series, tr("the forecast has no entries"));
}

const json* MetNorwayReader::details(std::size_t k, const char* part) const {
  const json* at = &entries_[k];
  for (const char* const key : {"data", part, "details"}) {
    if (!at->is_object())
      answer_.fail(fmt::format("{}/{}", series, k), tr("the entry is not as it should be"));
    const auto found = at->find(key);
    if (found == at->end()) return nullptr;
    at = &*found;
  }
  return at->is_object() ? at : nullptr;
}

double MetNorwayReader::value(std::size_t k, const char* part, const char* name) const {
  const json* const object = details(k, part);
  if (object == nullptr || !object->contains(name)) return unknown;
  return answer_.number_or_none(
      (*object)[name], [&] { return fmt::format("{}/{}/data/{}/details/{}", series, k, part, name); });
}

AnswerField MetNorwayReader::field(const MetField& met) const {
  const std::string pointer = fmt::format("/properties/meta/units/{}", met.name);
  AnswerField field{met.name, met.quantity, met.kind, {}, usual_factor(met.quantity), false};
  if (met.quantity == Quantity::pressure) field.factor = factor_from_sea_level(location_);
  try {
    field.unit = answer_unit(answer_.text_at(pointer), met.quantity, met.kind);
  } catch (const RangeError& fault) {
    answer_.fail(pointer, fault.message(), fault.hint());
  }
  return field;
}

std::vector<double> MetNorwayReader::values(const MetField& met, const char* part, std::size_t from,
                                            std::size_t to) const {
  std::vector<double> raw;
  for (std::size_t k = from; k < to; ++k) raw.push_back(value(k, part, met.name));
  return raw;
}

void MetNorwayReader::add(Block& block, const MetField& met, const std::vector<double>& raw) const {
  if (has_any(raw)) add_channel(block, field(met), raw, notes_);
}

Block MetNorwayReader::instants(std::size_t from, std::size_t to) const {
  Block block;
  for (std::size_t k = from; k < to; ++k) block.spans.push_back({times_[k], times_[k]});
  for (const MetField& met : instant_fields) add(block, met, values(met, "instant", from, to));
  return block;
}

/// A block for each stretch of equal steps, since instants are joined over the usual distance of their block.
/// The instant where the step changes ends one and begins the next.
void MetNorwayReader::add_instants(std::vector<Block>& blocks) const {
  std::size_t from = 0;
  for (std::size_t k = 1; k + 1 < times_.size(); ++k) {
    if (steps_far(k) == steps_far(k - 1)) continue;
    blocks.push_back(instants(from, k + 1));
    from = k;
  }
  blocks.push_back(instants(from, times_.size()));
}

/// The gust at a time stands for the hour that follows.
Block MetNorwayReader::gusts() const {
  Block block;
  for (const Instant time : times_) block.spans.push_back({time, time + std::chrono::hours(1)});
  add(block, gust, values(gust, "instant", 0, times_.size()));
  return block;
}

/// The period after entry `k` that its rain is of: one hour where the next entry is nearer than six, since
/// the six hours of hourly entries overlap.
std::optional<Span> MetNorwayReader::rain_span(std::size_t k, const char*& part) const {
  const auto step =
      k + 1 < times_.size() ? times_[k + 1] - times_[k] : std::chrono::seconds(std::chrono::hours(6));
  part = step >= std::chrono::hours(6) && details(k, "next_6_hours") != nullptr ? "next_6_hours"
                                                                                : "next_1_hours";
  const Span span{times_[k], times_[k] + (part[5] == '6' ? std::chrono::hours(6) : std::chrono::hours(1))};
  if (step < std::chrono::hours(1) || details(k, part) == nullptr) return std::nullopt;
  return span;
}

Block MetNorwayReader::rains() const {
  Block block;
  std::vector<double> raw;
  for (std::size_t k = 0; k < times_.size(); ++k) {
    const char* part = nullptr;
    const auto span = rain_span(k, part);
    if (!span) continue;
    block.spans.push_back(*span);
    raw.push_back(value(k, part, rain.name));
  }
  add(block, rain, raw);
  return block;
}

Block MetNorwayReader::extremes() const {
  Block block;
  for (const Instant time : times_) block.spans.push_back({time, time + std::chrono::hours(6)});
  for (const MetField& met : extreme_fields) add(block, met, values(met, "next_6_hours", 0, times_.size()));
  return block;
}

std::vector<Block> MetNorwayReader::blocks() {
  std::vector<Block> all;
  add_instants(all);
  all.push_back(gusts());
  all.push_back(rains());
  all.push_back(extremes());
  std::erase_if(all, [](const Block& block) { return block.channels.empty(); });
  return all;
}

/// GeoJSON has the longitude first.
std::optional<AnswerPlace> point_of(const Answer& answer) {
  const json* const point = answer.find("/geometry/coordinates");
  if (point == nullptr || !point->is_array() || point->size() < 2 || !(*point)[0].is_number() ||
      !(*point)[1].is_number())
    return std::nullopt;
  return AnswerPlace{(*point)[1].get<double>(), (*point)[0].get<double>()};
}

}  // namespace

ServiceAnswer read_met_norway(std::string_view text, const Location& location, const AnswerOrigin& origin) {
  const Answer answer(text, origin.name);
  NoteBook notes(origin.name);
  ServiceAnswer result;
  result.readings.made_at = answer.time_at("/properties/meta/updated_at");
  result.readings.blocks = MetNorwayReader(answer, location, notes).blocks();
  result.place = point_of(answer);
  finish_answer(result, Service::met_norway, origin, notes);
  return result;
}

}  // namespace graftcast
