#include "weather/daily_to_hourly.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "day_course.hpp"
#include "graftcast/air.hpp"
#include "graftcast/sun.hpp"
#include "humidity.hpp"
#include "local_hours.hpp"

namespace graftcast {

namespace {

/// The hours of one day within the series, and the sun in them.
class HoursOfOneDay {
 public:
  HoursOfOneDay(QuantityHours& into, const HoursOfDay& range, const Location& location)
      : into_(into), first_(static_cast<std::size_t>((range.first - into.start).count())) {
    for (Hour hour = range.first; hour < range.past; hour += std::chrono::hours(1)) {
      sun_.push_back(sun_period(hour, location.latitude_deg, location.longitude_deg));
    }
  }

  std::size_t size() const { return sun_.size(); }
  Hour hour(std::size_t k) const { return into_.hour(first_ + k); }
  double value(Quantity quantity, std::size_t k) const { return into_[quantity].value[first_ + k]; }
  void set(Quantity quantity, std::size_t k, double value) {
    into_[quantity].value[first_ + k] = value;
    into_[quantity].origin[first_ + k] = Origin::from_daily;
  }
  /// Every hour the same; nothing when it is not known.
  void set_all(Quantity quantity, double value) {
    if (std::isnan(value)) return;
    for (std::size_t k = 0; k < size(); ++k) set(quantity, k, value);
  }
  double outside_w_m2(std::size_t k) const { return sun_[k].mean_extraterrestrial_w_m2; }
  bool is_day(std::size_t k) const { return sun_[k].sunlit_share >= 0.5; }

  /// The hour that holds `at`, if it is one of this day.
  std::optional<std::size_t> index_of(Instant at) const {
    const long k = (std::chrono::floor<std::chrono::hours>(at) - hour(0)).count();
    if (k < 0 || k >= static_cast<long>(size())) return std::nullopt;
    return static_cast<std::size_t>(k);
  }

 private:
  QuantityHours& into_;
  std::size_t first_;
  std::vector<SunPeriod> sun_;
};

/// The coolest and the hottest hour of a day.
struct TurningHours {
  std::size_t coolest;
  std::size_t hottest;
};

TurningHours turning_hours(const HoursOfOneDay& day, const DayCourse& course,
                           const std::vector<double>& sampled) {
  const auto least = std::min_element(sampled.begin(), sampled.end()) - sampled.begin();
  const auto greatest = std::max_element(sampled.begin(), sampled.end()) - sampled.begin();
  TurningHours turning{day.index_of(course.coolest()).value_or(static_cast<std::size_t>(least)),
                       day.index_of(course.hottest()).value_or(static_cast<std::size_t>(greatest))};
  // Two hours at the least are needed for two extremes.
  if (turning.coolest == turning.hottest) turning.coolest = turning.hottest == 0 ? day.size() - 1 : 0;
  return turning;
}

TurningHours set_temperature(HoursOfOneDay& day, const DayReading& reading, const DayCourse& course) {
  std::vector<double> sampled(day.size());
  for (std::size_t k = 0; k < day.size(); ++k) {
    sampled[k] = course.temperature_c(day.hour(k) + std::chrono::minutes(30));
  }
  const TurningHours turning = turning_hours(day, course, sampled);
  for (std::size_t k = 0; k < day.size(); ++k) {
    day.set(Quantity::air_temperature, k,
            std::clamp(sampled[k], reading.minimum_temperature_c, reading.maximum_temperature_c));
  }
  day.set(Quantity::air_temperature, turning.coolest, reading.minimum_temperature_c);
  day.set(Quantity::air_temperature, turning.hottest, reading.maximum_temperature_c);
  return turning;
}

/// Humidity between its extremes: the greatest in the coolest hour.
void set_humidity_between(HoursOfOneDay& day, const DayReading& reading, const TurningHours& turning) {
  const double range_c = reading.maximum_temperature_c - reading.minimum_temperature_c;
  const double range_pct = reading.maximum_humidity_pct - reading.minimum_humidity_pct;
  for (std::size_t k = 0; k < day.size(); ++k) {
    const double above_c = day.value(Quantity::air_temperature, k) - reading.minimum_temperature_c;
    day.set(Quantity::relative_humidity, k,
            reading.maximum_humidity_pct - range_pct * (range_c > 0 ? above_c / range_c : 0.5));
  }
  day.set(Quantity::relative_humidity, turning.coolest, reading.maximum_humidity_pct);
  day.set(Quantity::relative_humidity, turning.hottest, reading.minimum_humidity_pct);
}

double constant_dew_point(const DayReading& reading) {
  if (!std::isnan(reading.dew_point_c)) return reading.dew_point_c;
  double vapour_kpa = unknown;
  if (!std::isnan(reading.mean_humidity_pct)) {
    vapour_kpa =
        vapour_pressure_from_mean_humidity_kpa(reading.maximum_temperature_c, reading.minimum_temperature_c,
                                               std::max(reading.mean_humidity_pct, 0.5));
  } else if (!std::isnan(reading.maximum_humidity_pct)) {
    vapour_kpa = vapour_pressure_from_maximum_humidity_kpa(reading.minimum_temperature_c,
                                                           std::max(reading.maximum_humidity_pct, 0.5));
  }
  return raw::dew_point_c(vapour_kpa);
}

void set_humidity(HoursOfOneDay& day, const DayReading& reading, const TurningHours& turning) {
  if (reading.minimum_humidity_pct <= reading.maximum_humidity_pct) {
    set_humidity_between(day, reading, turning);
    return;
  }
  const double dew_c = constant_dew_point(reading);
  if (std::isnan(dew_c)) return;
  for (std::size_t k = 0; k < day.size(); ++k) {
    day.set(Quantity::relative_humidity, k, humidity_of(day.value(Quantity::air_temperature, k), dew_c));
  }
}

void set_wind(HoursOfOneDay& day, const DayReading& reading) {
  // Common practice for the day and night share, no published source; the mean comes back exactly.
  constexpr double by_day = 1.4;
  constexpr double by_night = 0.6;
  std::vector<double> share(day.size());
  for (std::size_t k = 0; k < day.size(); ++k) share[k] = day.is_day(k) ? by_day : by_night;
  const double mean = std::accumulate(share.begin(), share.end(), 0.0) / static_cast<double>(day.size());
  const double greatest = *std::max_element(share.begin(), share.end());
  for (std::size_t k = 0; k < day.size(); ++k) {
    if (!std::isnan(reading.wind_speed_m_s))
      day.set(Quantity::wind_speed, k, reading.wind_speed_m_s * share[k] / mean);
    if (!std::isnan(reading.gust_m_s)) day.set(Quantity::gust, k, reading.gust_m_s * share[k] / greatest);
  }
}

void set_shortwave(HoursOfOneDay& day, const DayReading& reading) {
  if (std::isnan(reading.shortwave_mj_m2)) return;
  double outside = 0;
  for (std::size_t k = 0; k < day.size(); ++k) outside += day.outside_w_m2(k);
  const double total_w = reading.shortwave_mj_m2 * 1e6 / 3600.0;
  for (std::size_t k = 0; k < day.size(); ++k) {
    // Twilight below the pole's horizon, if any was measured, falls on all hours alike.
    const double share = outside > 0 ? day.outside_w_m2(k) / outside : 1.0 / static_cast<double>(day.size());
    day.set(Quantity::shortwave, k, total_w * share);
  }
}

CourseOfDay course_of(std::span<const DayReading> list, std::size_t index) {
  const DayReading& today = list[index];
  CourseOfDay course{today.minimum_temperature_c, today.maximum_temperature_c, today.maximum_temperature_c,
                     today.minimum_temperature_c, today.minimum_temperature_c};
  if (index > 0 && list[index - 1].day == today.day - std::chrono::days(1) &&
      list[index - 1].has_extremes()) {
    course.previous_maximum_c = list[index - 1].maximum_temperature_c;
    course.previous_minimum_c = list[index - 1].minimum_temperature_c;
  }
  if (index + 1 < list.size() && list[index + 1].day == today.day + std::chrono::days(1) &&
      list[index + 1].has_extremes()) {
    course.next_minimum_c = list[index + 1].minimum_temperature_c;
  }
  return course;
}

void set_day(HoursOfOneDay& hours_of_day, std::span<const DayReading> list, std::size_t index,
             const Location& location) {
  const DayReading& reading = list[index];
  if (reading.has_extremes()) {
    const Instant middle = hours_of_day.hour(hours_of_day.size() / 2);
    const DayCourse course(course_of(list, index),
                           sun_times(middle, location.latitude_deg, location.longitude_deg));
    const TurningHours turning = set_temperature(hours_of_day, reading, course);
    set_humidity(hours_of_day, reading, turning);
  }
  set_wind(hours_of_day, reading);
  set_shortwave(hours_of_day, reading);
  hours_of_day.set_all(Quantity::precipitation,
                       reading.precipitation_mm / static_cast<double>(hours_of_day.size()));
  hours_of_day.set_all(Quantity::pressure, reading.pressure_kpa);
  hours_of_day.set_all(Quantity::cloud_cover, reading.cloud_cover_pct);
}

}  // namespace

QuantityHours daily_to_hourly(std::span<const DayReading> list, const Location& location,
                              const Clock& clock) {
  if (list.empty()) return {};
  const Hour start = hours_of(list.front().day, clock).first;
  const Hour past = hours_of(list.back().day, clock).past;
  QuantityHours result = unknown_hours(start, static_cast<std::size_t>((past - start).count()));
  for (std::size_t index = 0; index < list.size(); ++index) {
    HoursOfOneDay day(result, hours_of(list[index].day, clock), location);
    if (day.size() >= 2) set_day(day, list, index, location);
  }
  return result;
}

}  // namespace graftcast
