#include "wording.hpp"

#include <array>

#include <fmt/format.h>

namespace graftcast {

std::string degrees_text(const Season& season, double celsius) {
  return season.settings.us_units ? fmt::format("{:.0f} degF", celsius * 1.8 + 32)
                                  : fmt::format("{:.1f} degC", celsius);
}

std::string wind_text(const Season& season, double m_s) {
  constexpr double mph_per_m_s = 3600 / 1609.344;
  return season.settings.us_units ? fmt::format("{:.0f} mph", m_s * mph_per_m_s)
                                  : fmt::format("{:.0f} m/s", m_s);
}

std::string weekday_text(LocalDay day) {
  constexpr std::array weekdays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                              "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::chrono::year_month_day date{day};
  const std::chrono::weekday weekday{day};
  return fmt::format("{} {} {}", weekdays[weekday.c_encoding()], static_cast<unsigned>(date.day()),
                     months[static_cast<unsigned>(date.month()) - 1]);
}

std::string moment_text(const Season& season, Instant when) {
  return weekday_text(season.clock.day_of(when)) +
         season.clock.local_text(when).substr(10).replace(0, 1, " ");
}

}  // namespace graftcast
