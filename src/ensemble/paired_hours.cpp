#include "paired_hours.hpp"

#include <algorithm>
#include <cmath>

#include "ensemble/outlook.hpp"
#include "plant/scion_climate.hpp"

namespace graftcast {

namespace {

bool is_measured(const HourlyWeather& weather, Variable variable, std::size_t at) {
  return weather[variable].origin[at] == Origin::measured;
}

/// Good enough to compare with: not stood in for, nor made of a daily log.
bool is_of_the_hour(const HourlyWeather& weather, Variable variable, std::size_t at) {
  const Origin origin = weather[variable].origin[at];
  return origin == Origin::measured || origin == Origin::derived;
}

}  // namespace

PairedHours paired_hours(const HourlyWeather& open, const HourlyWeather& at_spot, const Location& location,
                         const Models& models) {
  PairedHours pairs;
  const Hour from = std::max(open.start, at_spot.start), to = std::min(open.end(), at_spot.end());
  if (from >= to) return pairs;
  const Outlook whole = complete_weather(open, from, to, to);
  pairs.ambient = ambient_of(location, whole.weather, 0, one_course(whole.weather, 0, whole.weather.size()),
                             models.climate);
  std::vector<double> seen;
  for (Hour hour = from; hour < to; hour += std::chrono::hours(1)) {
    const auto a = static_cast<std::size_t>((hour - open.start).count());
    const auto b = static_cast<std::size_t>((hour - at_spot.start).count());
    const bool known = is_measured(open, Variable::air_temperature, a) &&
                       is_of_the_hour(open, Variable::relative_humidity, a) &&
                       is_of_the_hour(open, Variable::wind_speed, a) &&
                       is_of_the_hour(open, Variable::shortwave, a) &&
                       is_measured(at_spot, Variable::air_temperature, b);
    if (!known) continue;
    pairs.used.push_back((hour - from).count());
    seen.push_back(at_spot[Variable::air_temperature].value[b]);
    pairs.light_measured += is_measured(open, Variable::shortwave, a) ? 1 : 0;
    pairs.wind_measured += is_measured(open, Variable::wind_speed, a) ? 1 : 0;
    if (!is_measured(open, Variable::wind_speed, a) || !is_measured(at_spot, Variable::wind_speed, b))
      continue;
    pairs.wind_open.push_back(open[Variable::wind_speed].value[a]);
    pairs.wind_spot.push_back(at_spot[Variable::wind_speed].value[b]);
  }
  pairs.seen_c = Eigen::Map<const Eigen::ArrayXd>(seen.data(), static_cast<Eigen::Index>(seen.size()));
  return pairs;
}

double correlation_from_hour_to_hour(const Eigen::ArrayXd& values, const std::vector<Eigen::Index>& places) {
  double together = 0, alone = 0;
  const double mean = values.mean();
  for (Eigen::Index i = 1; i < values.size(); ++i) {
    if (places[static_cast<std::size_t>(i)] != places[static_cast<std::size_t>(i) - 1] + 1) continue;
    together += (values[i] - mean) * (values[i - 1] - mean);
    alone += 0.5 * (std::pow(values[i] - mean, 2) + std::pow(values[i - 1] - mean, 2));
  }
  return alone > 0 ? std::clamp(together / alone, 0.0, 0.99) : 0.0;
}

double effective_number(double count, double correlation) {
  return count * (1 - correlation) / (1 + correlation);
}

}  // namespace graftcast
