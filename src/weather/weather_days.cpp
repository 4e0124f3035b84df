#include "weather/weather_days.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "graftcast/air.hpp"
#include "local_hours.hpp"

namespace graftcast {

namespace {

/// Sum, extremes and count of the known among some numbers.
struct Known {
  double sum = 0;
  double least = 1e300;
  double greatest = -1e300;
  int count = 0;

  void add(double value) {
    if (std::isnan(value)) return;
    sum += value;
    least = std::min(least, value);
    greatest = std::max(greatest, value);
    ++count;
  }
  std::optional<double> mean() const { return count > 0 ? std::optional(sum / count) : std::nullopt; }
  std::optional<double> minimum() const { return count > 0 ? std::optional(least) : std::nullopt; }
  std::optional<double> maximum() const { return count > 0 ? std::optional(greatest) : std::nullopt; }
  /// The sum when at most `missing` of `all` are not known.
  std::optional<double> total(int all, int missing) const {
    return count > 0 && count >= all - missing ? std::optional(sum) : std::nullopt;
  }
};

/// The hours [first, past) of the series that make up a day.
struct DayHours {
  std::size_t first;
  std::size_t past;
};

Known known(std::span<const double> values, const DayHours& hours) {
  Known found;
  for (std::size_t k = hours.first; k < hours.past; ++k) found.add(values[k]);
  return found;
}

Known vapour_deficits(const HourlyWeather& weather, const DayHours& hours) {
  Known found;
  for (std::size_t k = hours.first; k < hours.past; ++k) {
    const double saturation_kpa =
        raw::saturation_vapour_pressure_kpa(weather[Variable::air_temperature].value[k]);
    found.add(saturation_kpa * (1 - weather[Variable::relative_humidity].value[k] / 100));
  }
  return found;
}

/// The most frequent origin of known values; missing when there are none.
Origin usual_origin(const HourlyWeather::Column& column, const DayHours& hours) {
  std::array<int, 6> counts{};
  for (std::size_t k = hours.first; k < hours.past; ++k)
    ++counts.at(static_cast<std::size_t>(column.origin[k]));
  const auto most = std::max_element(counts.begin(), counts.end() - 1);
  return *most > 0 ? static_cast<Origin>(most - counts.begin()) : Origin::missing;
}

bool is_only_from_daily(const HourlyWeather& weather, const DayHours& hours) {
  const auto& origin = weather[Variable::air_temperature].origin;
  return std::all_of(origin.begin() + static_cast<std::ptrdiff_t>(hours.first),
                     origin.begin() + static_cast<std::ptrdiff_t>(hours.past),
                     [](Origin each) { return each == Origin::from_daily; });
}

const DailyLogDay* find_log_day(const std::vector<DailyLogDay>& log, LocalDay day) {
  const auto found =
      std::lower_bound(log.begin(), log.end(), day,
                       [](const DailyLogDay& entry, LocalDay wanted) { return entry.reading.day < wanted; });
  return found != log.end() && found->reading.day == day ? &*found : nullptr;
}

WeatherDay summary_of(const HourlyWeather& weather, const DayHours& hours) {
  WeatherDay day;
  const auto values = [&](Variable variable) { return std::span<const double>(weather[variable].value); };
  const Known air = known(values(Variable::air_temperature), hours);
  const Known deficit = vapour_deficits(weather, hours);
  day.hours = air.count;
  day.air_temperature_min_c = air.minimum();
  day.air_temperature_max_c = air.maximum();
  day.relative_humidity_mean_pct = known(values(Variable::relative_humidity), hours).mean();
  day.vpd_mean_kpa = deficit.mean();
  day.vpd_max_kpa = deficit.maximum();
  day.wind_speed_mean_m_s = known(values(Variable::wind_speed), hours).mean();
  for (std::size_t v = 0; v < variable_count; ++v)
    day.origin.at(v) = usual_origin(weather.columns.at(v), hours);
  return day;
}

/// Sums, which need all (or nearly all) hours of the day.
void add_sums(WeatherDay& day, const HourlyWeather& weather, const DayHours& hours,
              std::span<const double> et0) {
  constexpr int bearable_hours = 3;
  const Known light = known(weather[Variable::shortwave].value, hours);
  if (const auto sum_w = light.total(day.length_h, 0)) day.shortwave_mj_m2 = *sum_w * 3600e-6;
  day.precipitation_mm =
      known(weather[Variable::precipitation].value, hours).total(day.length_h, bearable_hours);
  day.et0_mm = known(et0, hours).total(day.length_h, 0);
}

void add_degree_days(std::vector<WeatherDay>& days, const std::vector<DayHours>& hours,
                     const HourlyWeather& weather, const DegreeDayRule& rule) {
  const std::span<const double> air = weather[Variable::air_temperature].value;
  for (std::size_t index = 0; index < days.size(); ++index) {
    WeatherDay& day = days[index];
    if (day.hours == 0 || day.hours < day.length_h) continue;
    if (rule.method == DegreeDayMethod::hourly) {
      day.degree_days =
          degree_days_of_hours(air.subspan(hours[index].first, hours[index].past - hours[index].first), rule);
      continue;
    }
    const bool last = index + 1 == days.size() || !days[index + 1].air_temperature_min_c;
    const double next_minimum_c = last ? *day.air_temperature_min_c : *days[index + 1].air_temperature_min_c;
    day.degree_days =
        degree_days({*day.air_temperature_min_c, *day.air_temperature_max_c, next_minimum_c}, rule);
  }
}

}  // namespace

std::vector<WeatherDay> weather_days(const SiteWeather& weather, const Location& location, const Clock& clock,
                                     const DegreeDayRule& rule) {
  const HourlyWeather& hourly = weather.hourly;
  const std::vector<double> et0 = hourly_evapotranspiration_mm(hourly, location);
  std::vector<WeatherDay> days;
  std::vector<DayHours> ranges;
  std::size_t first = 0;
  while (first < hourly.size()) {
    const LocalDay local_day = day_of_hour(hourly.hour(first), clock);
    const HoursOfDay whole = hours_of(local_day, clock);
    const DayHours range{
        first, std::min(hourly.size(), static_cast<std::size_t>((whole.past - hourly.start).count()))};
    WeatherDay day = summary_of(hourly, range);
    day.day = local_day;
    day.length_h = static_cast<int>(whole.count());
    add_sums(day, hourly, range, et0);
    const DailyLogDay* const log = find_log_day(weather.daily_log, local_day);
    if (log != nullptr && day.et0_mm && is_only_from_daily(hourly, range)) {
      day.et0_mm = daily_log_evapotranspiration_mm(log->reading, location);
    }
    days.push_back(day);
    ranges.push_back(range);
    first = range.past;
  }
  add_degree_days(days, ranges, hourly, rule);
  return days;
}

}  // namespace graftcast
