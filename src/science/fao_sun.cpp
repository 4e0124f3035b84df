// Sun formulas of FAO-56, which know only the day of the year.

#include <cmath>
#include <numbers>

#include "graftcast/error.hpp"
#include "graftcast/sun.hpp"
#include "range_check.hpp"
#include "sunlit_arc.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

double checked_latitude_rad(double latitude_deg) {
  require_within(latitude_deg, valid::latitude);
  return latitude_deg * degree;
}

double year_angle_rad(int day_of_year) {
  require_within(day_of_year, {tr_later("day of the year"), 1, 366, tr_later("days")});
  return 2 * std::numbers::pi * day_of_year / 365;
}

}  // namespace

int day_of_year(std::chrono::year_month_day day) {
  if (!day.ok()) throw RangeError(tr("day is not in the calendar"), tr("give a Gregorian date"));
  const auto new_year = std::chrono::sys_days(day.year() / std::chrono::January / 1);
  return static_cast<int>((std::chrono::sys_days(day) - new_year).count()) + 1;
}

double inverse_relative_distance(int day_of_year) {
  return 1 + 0.033 * std::cos(year_angle_rad(day_of_year));  // eq. 23
}

double fao_declination_rad(int day_of_year) {
  return 0.409 * std::sin(year_angle_rad(day_of_year) - 1.39);  // eq. 24
}

double sunset_hour_angle_rad(double latitude_deg, int day_of_year) {
  return sunset_angle_rad(checked_latitude_rad(latitude_deg), fao_declination_rad(day_of_year));
}

double day_length_h(double latitude_deg, int day_of_year) {
  return 24 / std::numbers::pi * sunset_hour_angle_rad(latitude_deg, day_of_year);  // eq. 34
}

double extraterrestrial_day_mj_m2(double latitude_deg, int day_of_year) {
  return extraterrestrial_period_mj_m2(latitude_deg, day_of_year, 0, 24);
}

double seasonal_correction_h(int day_of_year) {
  require_within(day_of_year, {tr_later("day of the year"), 1, 366, tr_later("days")});
  const double b = 2 * std::numbers::pi * (day_of_year - 81) / 364;              // eq. 33
  return 0.1645 * std::sin(2 * b) - 0.1255 * std::cos(b) - 0.025 * std::sin(b);  // eq. 32
}

double fao_hour_angle_rad(double clock_h, double meridian_deg, double longitude_deg, int day_of_year) {
  require_within(clock_h, {tr_later("clock time"), 0, 24, "h"});
  require_within(meridian_deg, {tr_later("meridian of the clock"), -180, 180, tr_later("degrees")});
  require_within(longitude_deg, valid::longitude);
  // Eq. 31 with longitudes east positive; 0.06667 h is a degree.
  const double solar_h =
      clock_h + 0.06667 * (longitude_deg - meridian_deg) + seasonal_correction_h(day_of_year);
  return std::numbers::pi / 12 * (solar_h - 12);
}

double extraterrestrial_period_mj_m2(double latitude_deg, int day_of_year, double middle_rad,
                                     double length_h) {
  require_within(middle_rad, {tr_later("hour angle"), -1e6, 1e6, "rad"});
  require_within(length_h, {tr_later("length of the period"), 1e-6, 24, "h"});
  const SunlitArc arc = sunlit_arc(checked_latitude_rad(latitude_deg), fao_declination_rad(day_of_year),
                                   middle_rad, std::numbers::pi / 12 * length_h);  // eq. 29 and 30
  return 12 * 60 / std::numbers::pi * solar_constant_mj_m2_min * inverse_relative_distance(day_of_year) *
         arc.sine_integral;  // eq. 28; over 24 h it is eq. 21
}

}  // namespace graftcast
