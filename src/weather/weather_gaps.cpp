#include "weather_gaps.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace graftcast {

namespace {

// Gusts and pressure are passed over: few logs have them, and little hangs on them.
constexpr std::array reported = {Variable::air_temperature, Variable::relative_humidity, Variable::wind_speed,
                                 Variable::shortwave, Variable::precipitation};

using GapKey = std::tuple<Instant, Instant, std::string>;

/// What stands in for hour `k` of `column`, a hole of source `primary`.
std::string filler(const HourlyWeather::Column& column, long k, std::size_t primary,
                   const std::vector<SourceHours>& sources) {
  if (k < 0 || k >= static_cast<long>(column.value.size())) return {};
  const auto index = static_cast<std::size_t>(k);
  if (!column.known(index)) return {};
  if (column.origin[index] == Origin::derived) return "derivation";
  if (column.source[index] == primary || column.origin[index] == Origin::filled) return "interpolation";
  return sources[column.source[index]].name;
}

class GapList {
 public:
  GapList(const std::vector<SourceHours>& sources, const QuantityHours& merged)
      : sources_(sources), merged_(merged) {}

  /// Adds a run, split wherever what fills it changes.
  void add(const SourceHoles::Run& run, std::size_t primary, Variable variable) {
    const auto& column = merged_.columns[static_cast<std::size_t>(variable)];
    const auto filled_by = [&](Hour hour) {
      return filler(column, (hour - merged_.start).count(), primary, sources_);
    };
    Hour from = run.from;
    while (from < run.to) {
      const std::string by = filled_by(from);
      Hour to = from + std::chrono::hours(1);
      // Beyond the series nothing is known, however long: no need to walk there hour by hour.
      if (from >= merged_.hour(merged_.size())) to = run.to;
      while (to < run.to && filled_by(to) == by) to += std::chrono::hours(1);
      variables_[{from, to, by}].push_back(variable);
      from = to;
    }
  }

  std::vector<WeatherGap> take() {
    std::vector<WeatherGap> gaps;
    for (auto& [key, variables] : variables_) {
      gaps.push_back({std::get<0>(key), std::get<1>(key), std::get<2>(key), std::move(variables)});
    }
    return gaps;
  }

 private:
  const std::vector<SourceHours>& sources_;
  const QuantityHours& merged_;
  std::map<GapKey, std::vector<Variable>> variables_;
};

/// The first measured source that knows anything of the variable.
std::optional<std::size_t> primary_of(const std::vector<SourceHours>& sources,
                                      const std::vector<SourceHoles>& holes, std::size_t quantity) {
  for (std::size_t index = 0; index < sources.size(); ++index) {
    if (!sources[index].is_forecast && holes[index].known_until[quantity]) return index;
  }
  return std::nullopt;
}

}  // namespace

SourceHoles holes_of(const QuantityHours& series) {
  SourceHoles holes;
  for (std::size_t q = 0; q < quantity_count; ++q) {
    const auto& origin = series.columns[q].origin;
    for (std::size_t k = 0; k < origin.size(); ++k) {
      if (origin[k] == Origin::missing) continue;
      auto& until = holes.known_until[q];
      if (until && *until < series.hour(k)) holes.runs[q].push_back({*until, series.hour(k)});
      until = series.hour(k + 1);
    }
  }
  return holes;
}

std::vector<WeatherGap> find_gaps(const std::vector<SourceHours>& sources,
                                  const std::vector<SourceHoles>& holes, const QuantityHours& merged,
                                  Instant as_of) {
  GapList list(sources, merged);
  for (const Variable variable : reported) {
    const auto quantity = static_cast<std::size_t>(variable);
    const auto primary = primary_of(sources, holes, quantity);
    if (!primary) continue;
    for (const SourceHoles::Run& run : holes[*primary].runs[quantity]) list.add(run, *primary, variable);
    const Hour until = *holes[*primary].known_until[quantity];
    const Hour now = std::chrono::floor<std::chrono::hours>(as_of);
    if (until < now) list.add({until, now}, *primary, variable);
  }
  return list.take();
}

}  // namespace graftcast
