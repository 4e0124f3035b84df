#include "ensemble/monthly_climate.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/air.hpp"

namespace graftcast {

namespace {

constexpr double calm_m_s = 0.1;          // A calm day's wind, which has no logarithm.
constexpr double no_sun_clearness = 0.5;  // Of a day without sun, where it changes nothing.
constexpr std::size_t hours_a_day = 24;

std::chrono::year_month_day date_of(long day) {
  return std::chrono::year_month_day(std::chrono::sys_days(std::chrono::days(day)));
}

bool is_whole_hour(const HourlyWeather& known, std::size_t at) {
  constexpr std::array needed_of_a_day{Variable::air_temperature, Variable::relative_humidity,
                                       Variable::wind_speed, Variable::shortwave};
  return std::ranges::all_of(needed_of_a_day, [&](Variable variable) {
    return known[variable].known(at) && known[variable].origin[at] != Origin::forecast;
  });
}

/// A whole day of the log.
struct LoggedDay {
  long day = 0;
  DayFigures figures{};
  double rain_mm = unknown;
  std::array<double, hours_a_day> warmth{}, wind{};
};

std::optional<LoggedDay> logged_day(const HourlyWeather& known, std::size_t first,
                                    const std::vector<SunHour>& sun) {
  LoggedDay day;
  double vapour = 0, wind = 0, light = 0, clear = 0, rain = 0;
  double highest = -1e9, lowest = 1e9;
  for (std::size_t h = 0; h < hours_a_day; ++h) {
    const std::size_t at = first + h;
    if (!is_whole_hour(known, at)) return std::nullopt;
    const double air_c = known[Variable::air_temperature].value[at];
    highest = std::max(highest, air_c);
    lowest = std::min(lowest, air_c);
    vapour += raw::saturation_vapour_pressure_kpa(air_c) * known[Variable::relative_humidity].value[at] /
              100.0 / hours_a_day;
    wind += known[Variable::wind_speed].value[at] / hours_a_day;
    light += known[Variable::shortwave].value[at];
    clear += sun[h].clear_sky_w_m2;
    rain += known[Variable::precipitation].known(at) ? known[Variable::precipitation].value[at] : unknown;
  }
  for (std::size_t h = 0; h < hours_a_day; ++h) {
    day.warmth[h] =
        (known[Variable::air_temperature].value[first + h] - lowest) / std::max(highest - lowest, 0.1);
    day.wind[h] = known[Variable::wind_speed].value[first + h] / std::max(wind, calm_m_s);
  }
  day.figures = {highest, lowest, clear > 0 ? light / clear : no_sun_clearness,
                 raw::dew_point_c(std::max(vapour, 1e-3)), std::log(std::max(wind, calm_m_s))};
  day.rain_mm = rain;
  return day;
}

/// Means of hours lie within those of days: stretched, so that the coldest hour is 0 and the warmest 1.
void stretch(std::array<double, hours_a_day>& warmth) {
  const auto [low, high] = std::ranges::minmax(warmth);
  for (double& value : warmth) value = high > low ? (value - low) / (high - low) : 0.5;
}

MonthClimate month_climate(const std::vector<const LoggedDay*>& days) {
  MonthClimate month;
  month.days = days.size();
  if (days.empty()) return month;
  const double share = 1.0 / static_cast<double>(days.size());
  double rain = 0, rain_days = 0;
  for (const LoggedDay* day : days) {
    for (std::size_t k = 0; k < day_figures; ++k) month.mean[k] += share * day->figures[k];
    for (std::size_t h = 0; h < hours_a_day; ++h) {
      month.warmth[h] += share * day->warmth[h];
      month.wind[h] += share * day->wind[h];
    }
    if (std::isnan(day->rain_mm)) continue;
    rain += day->rain_mm;
    rain_days += 1;
  }
  for (const LoggedDay* day : days) {
    for (std::size_t k = 0; k < day_figures; ++k)
      month.sd[k] += std::pow(day->figures[k] - month.mean[k], 2) * share;
  }
  for (double& sd : month.sd) sd = std::sqrt(sd);
  stretch(month.warmth);
  if (rain_days > 0) month.rain_mm_per_day = rain / rain_days;
  return month;
}

}  // namespace

MonthlyClimate::MonthlyClimate(const HourlyWeather& known, Hour until, const Location& location,
                               const ClimateCourseConstants& constants)
    : location_(location),
      constants_(constants),
      solar_offset_(static_cast<int>(std::lround(location.longitude_deg / 15))) {
  std::array<std::vector<LoggedDay>, 12> by_month;
  const Hour end = std::min(known.end(), until);
  const auto first_day = std::chrono::ceil<std::chrono::days>(known.start + solar_offset_).time_since_epoch();
  std::optional<LoggedDay> last;
  for (Hour midnight = Hour(first_day) - solar_offset_; midnight + std::chrono::hours(24) <= end;
       midnight += std::chrono::hours(24)) {
    const auto sun = sun_of_hours(location, midnight, hours_a_day);
    std::optional<LoggedDay> day =
        logged_day(known, static_cast<std::size_t>((midnight - known.start).count()), sun);
    if (!day) continue;
    day->day = solar_day(midnight);
    by_month[unsigned{date_of(day->day).month()} - 1].push_back(*day);
    last = day;
  }
  for (std::size_t m = 0; m < 12; ++m) {
    std::vector<const LoggedDay*> days;
    for (const LoggedDay& day : by_month[m]) days.push_back(&day);
    const bool is_borrowed = static_cast<double>(days.size()) < constants.least_days;
    if (is_borrowed) {
      for (const std::size_t beside : {(m + 11) % 12, (m + 1) % 12})
        for (const LoggedDay& day : by_month[beside]) days.push_back(&day);
    }
    if (static_cast<double>(days.size()) < constants.least_days) continue;
    months_[m] = month_climate(days);
    months_[m].is_borrowed = is_borrowed;
  }
  if (!last || months_[unsigned{date_of(last->day).month()} - 1].days == 0) return;
  last_day_ = last->day;
  last_departures_ = departures_of(last->day, last->figures);
}

long MonthlyClimate::solar_day(Hour hour) const {
  return std::chrono::floor<std::chrono::days>(hour + solar_offset_).time_since_epoch().count();
}

bool MonthlyClimate::knows(Hour hour) const {
  return of(date_of(solar_day(hour)).month()).days > 0;
}

double MonthlyClimate::rain_mm(Hour hour) const {
  return of(date_of(solar_day(hour)).month()).rain_mm_per_day / hours_a_day;
}

DayFigures MonthlyClimate::departures_of(long day, const DayFigures& figures) const {
  const auto [mean, sd] = normal(day);
  DayFigures departures{};
  for (std::size_t k = 0; k < day_figures; ++k)
    departures[k] = sd[k] > 0 ? std::clamp((figures[k] - mean[k]) / sd[k], -3.0, 3.0) : 0.0;
  return departures;
}

std::pair<DayFigures, DayFigures> MonthlyClimate::normal(long day) const {
  // Straight lines between the fifteenths; a neighbour that is not known leaves the month as it is.
  const std::chrono::year_month_day date = date_of(day);
  const double from_middle = (unsigned{date.day()} - 15.0) / 30.4;
  const std::chrono::month beside =
      from_middle < 0 ? date.month() - std::chrono::months(1) : date.month() + std::chrono::months(1);
  const MonthClimate& own = of(date.month());
  const MonthClimate& there = of(beside).days > 0 ? of(beside) : own;
  const MonthClimate& here = own.days > 0 ? own : there;
  std::pair<DayFigures, DayFigures> figures;
  for (std::size_t k = 0; k < day_figures; ++k) {
    figures.first[k] = std::lerp(here.mean[k], there.mean[k], std::abs(from_middle));
    figures.second[k] = std::lerp(here.sd[k], there.sd[k], std::abs(from_middle));
  }
  return figures;
}

}  // namespace graftcast
