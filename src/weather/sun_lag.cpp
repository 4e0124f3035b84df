#include "sun_lag.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/sun.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::size_t day_h = 24;

/// A day from solar midnight to solar midnight.
struct SolarDay {
  std::size_t first = 0;  ///< Index of its first hour.
  double measured = 0;    ///< Sum of the hours' means [W h m-2].
  double outside = 0;
  double measured_moment = 0;  ///< Sum of each hour's mean times its place in the day.
  double outside_moment = 0;
  std::optional<std::size_t> sunrise, sunset;  ///< First and last hour with any sun.

  double lag_h() const { return measured_moment / measured - outside_moment / outside; }
  bool is_bright() const {
    constexpr double least_outside_w_h_m2 = 1500;
    return outside > least_outside_w_h_m2 && measured > 0.5 * outside;
  }
};

/// The day that begins with hour `first`; nothing unless all its hours are measured.
std::optional<SolarDay> solar_day(const QuantityHours& hours, const SunHours& sun, std::size_t first) {
  const auto& light = hours[Quantity::shortwave];
  SolarDay day;
  day.first = first;
  for (std::size_t k = 0; k < day_h; ++k) {
    const std::size_t hour = first + k;
    if (light.origin[hour] != Origin::measured) return std::nullopt;
    const double outside = sun.outside_w_m2(hour);
    const double place = static_cast<double>(k) + 0.5;
    day.measured += light.value[hour];
    day.measured_moment += light.value[hour] * place;
    day.outside += outside;
    day.outside_moment += outside * place;
    if (outside <= 0) continue;
    if (!day.sunrise) day.sunrise = hour;
    day.sunset = hour;
  }
  return day;
}

/// Index of the first hour at or after `from` that begins a solar day (to the hour).
std::size_t first_solar_midnight(const QuantityHours& hours, std::size_t from, const Location& location) {
  const long utc_h = hours.hour(from).time_since_epoch().count();
  const long solar_h = utc_h + std::lround(location.longitude_deg / 15.0);
  const long into_day = ((solar_h % 24) + 24) % 24;
  return from + static_cast<std::size_t>((24 - into_day) % 24);
}

bool keeps_summer_time(const Clock& clock, Hour hour) {
  return clock.offset_at(hour) != clock.standard_offset_at(hour);
}

std::vector<SolarDay> bright_days(const QuantityHours& hours, const SunHours& sun, const Location& location,
                                  const Clock& clock, bool in_summer_time) {
  std::vector<SolarDay> days;
  for (std::size_t first = first_solar_midnight(hours, sun.first(), location); first + day_h <= hours.size();
       first += day_h) {
    if (keeps_summer_time(clock, hours.hour(first + day_h / 2)) != in_summer_time) continue;
    const auto day = solar_day(hours, sun, first);
    const bool has_dark_edges =
        day && day->sunrise && *day->sunrise > day->first && *day->sunset + 1 < day->first + day_h;
    if (has_dark_edges && day->is_bright()) days.push_back(*day);
  }
  return days;
}

double median_lag_h(const std::vector<SolarDay>& days) {
  std::vector<double> lags;
  for (const SolarDay& day : days) lags.push_back(day.lag_h());
  const auto middle = lags.begin() + static_cast<std::ptrdiff_t>(lags.size() / 2);
  std::nth_element(lags.begin(), middle, lags.end());
  return *middle;
}

/// An hour and how much of its light the sun cannot have given.
struct Excess {
  std::size_t hour;
  double w_m2;
};

/// The greater excess of the hour in which the sun rises or sets and of the dark one beside it: where the sun
/// goes just after the full hour, the dark one alone would show nothing.
Excess excess_about(const std::vector<double>& light, const SunHours& sun, std::size_t edge,
                    std::size_t dark) {
  const Excess at_edge{edge, light[edge] - sun.outside_w_m2(edge)};
  const Excess in_dark{dark, light[dark]};
  return at_edge.w_m2 > in_dark.w_m2 ? at_edge : in_dark;
}

/// Counts days with more light than can be about sunset (sunrise when the lag is below 0), and more than on
/// the opposite side. Twilight is the same on both sides.
void count_lit(SunLag& lag, const std::vector<SolarDay>& days, const QuantityHours& hours,
               const SunHours& sun) {
  constexpr double least_w_m2 = 2;
  const auto& light = hours[Quantity::shortwave].value;
  for (const SolarDay& day : days) {
    const Excess evening = excess_about(light, sun, *day.sunset, *day.sunset + 1);
    const Excess morning = excess_about(light, sun, *day.sunrise, *day.sunrise - 1);
    const Excess& suspect = lag.median_h > 0 ? evening : morning;
    const Excess& opposite = lag.median_h > 0 ? morning : evening;
    if (suspect.w_m2 <= std::max(opposite.w_m2, 0.0) + least_w_m2) continue;
    lag.latest = hours.hour(suspect.hour + 1);
    if (lag.lit++ == 0)
      lag.example = tr("{time}: {excess:.0f} W/m2 more than the sun can give",
                       "time"_a = utc_text(hours.hour(suspect.hour)), "excess"_a = suspect.w_m2);
  }
}

}  // namespace

std::optional<SunLag> sun_lag(const QuantityHours& hours, const SunHours& sun, const Location& location,
                              const Clock& clock, bool in_summer_time) {
  constexpr std::size_t least_days = 10;
  const auto days = bright_days(hours, sun, location, clock, in_summer_time);
  if (days.size() < least_days) return std::nullopt;
  SunLag lag;
  lag.days = days.size();
  lag.median_h = median_lag_h(days);
  count_lit(lag, days, hours, sun);
  return lag;
}

}  // namespace graftcast
