#include "weather/forecast_skill.hpp"

#include <algorithm>
#include <cmath>

#include "humidity.hpp"
#include "weather/forecast_services.hpp"

namespace graftcast {

namespace {

/// Below this the logarithm of a wind says more of the instrument's threshold than of the air.
constexpr double least_wind_m_s = 0.5;

/// Hours of the series that a log measured.
class Measured {
 public:
  explicit Measured(const HourlyWeather& weather) : weather_(weather) {
    const std::string_view archive = service_name(Service::open_meteo_archive);
    for (const std::string& source : weather.sources) is_log_.push_back(source != archive);
  }

  /// The value in `hour`, where a log measured it.
  std::optional<double> at(Variable variable, Hour hour) const {
    const long index = (hour - weather_.start).count();
    if (index < 0 || index >= static_cast<long>(weather_.size())) return std::nullopt;
    const auto k = static_cast<std::size_t>(index);
    const HourlyWeather::Column& column = weather_[variable];
    if (column.origin[k] != Origin::measured || !is_log_.at(column.source[k])) return std::nullopt;
    return column.value[k];
  }

 private:
  const HourlyWeather& weather_;
  std::vector<bool> is_log_;
};

struct Sums {
  std::size_t count = 0;
  double error = 0, square = 0;

  void add(double each) {
    ++count;
    error += each;
    square += each * each;
  }
  double mean() const { return error / static_cast<double>(count); }
  double rms() const { return std::sqrt(square / static_cast<double>(count)); }
  std::optional<double> known_rms() const { return count > 0 ? std::optional(rms()) : std::nullopt; }
};

/// Everything summed up over one day of lead.
struct LeadSums {
  std::array<Sums, variable_count> variables;
  Sums dew_point, ln_wind;
  double radiation_error = 0, radiation_square = 0;
  std::size_t forecasts = 0;
};

class Comparison {
 public:
  explicit Comparison(const HourlyWeather& measured) : measured_(measured) {}

  /// True when an hour was compared.
  bool add(const MadeForecast& forecast);
  void fill(ForecastSkill& skill) const;

 private:
  bool add_hour(const HourlyWeather& forecast, std::size_t index, LeadSums& sums) const;
  static LeadSpread spread_of(int day, const LeadSums& sums);

  Measured measured_;
  std::array<LeadSums, most_lead_days> days_;
};

/// True when the temperature was compared, which is what a forecast counts by.
bool Comparison::add_hour(const HourlyWeather& forecast, std::size_t index, LeadSums& sums) const {
  std::array<std::optional<double>, variable_count> truth;
  for (std::size_t v = 0; v < variable_count; ++v) {
    if (!forecast.columns[v].known(index)) continue;
    truth[v] = measured_.at(static_cast<Variable>(v), forecast.hour(index));
    if (truth[v]) sums.variables[v].add(forecast.columns[v].value[index] - *truth[v]);
  }
  const auto both = [&](Variable variable) { return truth[static_cast<std::size_t>(variable)]; };
  const auto said = [&](Variable variable) { return forecast[variable].value[index]; };
  const auto air = both(Variable::air_temperature);
  if (const auto humidity = both(Variable::relative_humidity); air && humidity)
    sums.dew_point.add(dew_point_of(said(Variable::air_temperature), said(Variable::relative_humidity)) -
                       dew_point_of(*air, *humidity));
  const double wind_m_s = said(Variable::wind_speed);
  if (const auto wind = both(Variable::wind_speed); wind && std::min(*wind, wind_m_s) >= least_wind_m_s)
    sums.ln_wind.add(std::log(wind_m_s / *wind));
  if (const auto radiation = both(Variable::shortwave)) {
    const double expected = said(Variable::shortwave);
    sums.radiation_error += (*radiation - expected) * (*radiation - expected);
    sums.radiation_square += expected * expected;
  }
  return air.has_value();
}

bool Comparison::add(const MadeForecast& forecast) {
  std::array<bool, most_lead_days> counted{};
  for (std::size_t k = 0; k < forecast.hourly.size(); ++k) {
    const auto lead = Instant(forecast.hourly.hour(k)) - forecast.made_at;
    if (lead < std::chrono::seconds(0)) continue;
    const auto day = static_cast<std::size_t>(lead / std::chrono::hours(24));
    if (day >= days_.size()) break;
    if (add_hour(forecast.hourly, k, days_.at(day))) counted.at(day) = true;
  }
  for (std::size_t day = 0; day < days_.size(); ++day) days_.at(day).forecasts += counted.at(day) ? 1 : 0;
  return std::ranges::find(counted, true) != counted.end();
}

LeadSpread Comparison::spread_of(int day, const LeadSums& sums) {
  LeadSpread spread{day,
                    sums.forecasts,
                    sums.variables[static_cast<std::size_t>(Variable::air_temperature)].rms(),
                    sums.dew_point.known_rms(),
                    sums.ln_wind.known_rms(),
                    std::nullopt};
  if (sums.radiation_square > 0) spread.radiation = std::sqrt(sums.radiation_error / sums.radiation_square);
  return spread;
}

void Comparison::fill(ForecastSkill& skill) const {
  for (int day = 1; day <= most_lead_days; ++day) {
    const LeadSums& sums = days_.at(static_cast<std::size_t>(day) - 1);
    for (std::size_t v = 0; v < variable_count; ++v) {
      const Sums& of_variable = sums.variables.at(v);
      if (of_variable.count > 0)
        skill.errors.at(v).push_back({day, of_variable.count, of_variable.mean(), of_variable.rms()});
    }
    if (sums.forecasts > 0) skill.spreads.push_back(spread_of(day, sums));
  }
}

}  // namespace

ForecastSkill skill_of(std::string source, std::span<const MadeForecast> forecasts,
                       const HourlyWeather& measured) {
  ForecastSkill skill;
  skill.source = std::move(source);
  Comparison comparison(measured);
  for (const MadeForecast& forecast : forecasts) {
    if (!comparison.add(forecast)) continue;
    ++skill.forecasts;
    skill.first_made = std::min(skill.first_made.value_or(forecast.made_at), forecast.made_at);
    skill.last_made = std::max(skill.last_made.value_or(forecast.made_at), forecast.made_at);
  }
  comparison.fill(skill);
  return skill;
}

std::string source_ahead(const HourlyWeather& weather, Instant as_of) {
  const HourlyWeather::Column& air = weather[Variable::air_temperature];
  for (std::size_t k = 0; k < weather.size(); ++k) {
    if (Instant(weather.hour(k + 1)) <= as_of || weather.forecast_lead_h[k] <= 0) continue;
    return weather.sources.at(air.source[k]);
  }
  return {};
}

}  // namespace graftcast
