// US National Weather Service, raw gridpoint: layers of runs of equal hours, each with its unit.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/answer.hpp"
#include "services/answer_channel.hpp"
#include "services/finish_answer.hpp"
#include "services/iso_interval.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/forecast_services.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

struct NwsLayer {
  const char* name;
  Quantity quantity;
  Kind kind = Kind::mean;
};

constexpr auto layers = std::to_array<NwsLayer>({
    {"temperature", Quantity::air_temperature},
    {"maxTemperature", Quantity::air_temperature, Kind::maximum},
    {"minTemperature", Quantity::air_temperature, Kind::minimum},
    {"dewpoint", Quantity::dew_point},
    {"relativeHumidity", Quantity::relative_humidity},
    {"skyCover", Quantity::cloud_cover},
    {"windSpeed", Quantity::wind_speed},
    {"windGust", Quantity::gust, Kind::maximum},
    {"quantitativePrecipitation", Quantity::precipitation, Kind::sum},
});

struct Run {
  Span span;
  double value = 0;
};

class NwsReader {
 public:
  NwsReader(const Answer& answer, NoteBook& notes)
      : answer_(answer), notes_(notes), updated_at_(answer.time_at("/properties/updateTime")) {}

  std::vector<Block> blocks() const;
  Instant updated_at() const { return updated_at_; }

 private:
  std::vector<Run> runs(const std::string& pointer) const;
  std::vector<Run> by_the_hour(const std::vector<Run>& runs, const std::string& pointer) const;
  AnswerField field(const NwsLayer& layer, const std::string& pointer) const;
  Block block_of(const NwsLayer& layer) const;

  const Answer& answer_;
  NoteBook& notes_;
  Instant updated_at_;
};

/// The layer's intervals and values, in order; empty where the layer is not there or has none.
std::vector<Run> NwsReader::runs(const std::string& pointer) const {
  if (answer_.find(pointer) == nullptr) return {};
  const json& values = answer_.array_at(pointer);
  std::vector<Run> runs;
  for (std::size_t k = 0; k < values.size(); ++k) {
    const std::string place = fmt::format("{}/{}", pointer, k);
    const std::string time = answer_.text_at(place + "/validTime");
    const auto span = parse_interval(time, updated_at_);
    if (!span) answer_.fail(place + "/validTime", tr("{time} is not an interval", "time"_a = shown(time)));
    if (!values[k].contains("value")) answer_.fail(place, tr("there is no value"));
    runs.push_back({*span, answer_.number_or_none(values[k]["value"], [&] { return place + "/value"; })});
  }
  std::ranges::stable_sort(runs, {}, [](const Run& run) { return run.span.begin; });
  return runs;
}

AnswerField NwsReader::field(const NwsLayer& layer, const std::string& pointer) const {
  AnswerField field{layer.name, layer.quantity, layer.kind, {}, usual_factor(layer.quantity), false};
  try {
    field.unit = answer_unit(answer_.text_at(pointer), layer.quantity, layer.kind);
  } catch (const RangeError& fault) {
    answer_.fail(pointer, fault.message(), fault.hint());
  }
  return field;
}

/// Equal hours come merged into one run, so its value holds for each hour of it; sums and extremes are of the
/// whole.
std::vector<Run> NwsReader::by_the_hour(const std::vector<Run>& runs, const std::string& pointer) const {
  constexpr std::size_t most_hours = 5000;  // Forecasts run to about 200 hours.
  std::vector<Run> each;
  for (const Run& run : runs) {
    for (Instant begin = run.span.begin; begin < run.span.end; begin += std::chrono::hours(1)) {
      if (each.size() == most_hours) answer_.fail(pointer, tr("the layer is longer than any forecast"));
      each.push_back({{begin, std::min(begin + std::chrono::hours(1), run.span.end)}, run.value});
    }
  }
  return each;
}

Block NwsReader::block_of(const NwsLayer& layer) const {
  const std::string pointer = fmt::format("/properties/{}", layer.name);
  std::vector<Run> all = runs(pointer + "/values");
  if (all.empty()) return {};
  if (layer.kind == Kind::mean) all = by_the_hour(all, pointer);
  Block block;
  std::vector<double> raw;
  for (const Run& run : all) {
    block.spans.push_back(run.span);
    raw.push_back(run.value);
  }
  if (has_any(raw)) add_channel(block, field(layer, pointer + "/uom"), raw, notes_);
  return block;
}

std::vector<Block> NwsReader::blocks() const {
  std::vector<Block> all;
  for (const NwsLayer& layer : layers) {
    Block block = block_of(layer);
    if (!block.channels.empty()) all.push_back(std::move(block));
  }
  return all;
}

/// The middle of the grid cell's corners, which stand longitude first.
std::optional<AnswerPlace> middle_of_cell(const Answer& answer) {
  const json* const ring = answer.find("/geometry/coordinates/0");
  if (ring == nullptr || !ring->is_array() || ring->empty()) return std::nullopt;
  AnswerPlace middle;
  const double share = 1 / static_cast<double>(ring->size());
  for (const json& corner : *ring) {
    if (!corner.is_array() || corner.size() < 2 || !corner[0].is_number() || !corner[1].is_number())
      return std::nullopt;
    middle.longitude_deg += share * corner[0].get<double>();
    middle.latitude_deg += share * corner[1].get<double>();
  }
  return middle;
}

}  // namespace

ServiceAnswer read_nws_gridpoint(std::string_view text, const Location&, const AnswerOrigin& origin) {
  const Answer answer(text, origin.name);
  NoteBook notes(origin.name);
  const NwsReader reader(answer, notes);
  ServiceAnswer result;
  result.readings.made_at = reader.updated_at();
  result.readings.blocks = reader.blocks();
  result.place = middle_of_cell(answer);
  finish_answer(result, Service::nws, origin, notes);
  return result;
}

}  // namespace graftcast
