#include "words/date_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string weekday_word(std::chrono::weekday weekday) {
  switch (weekday.c_encoding()) {
    case 0:
      return trc("weekday", "Sun");
    case 1:
      return trc("weekday", "Mon");
    case 2:
      return trc("weekday", "Tue");
    case 3:
      return trc("weekday", "Wed");
    case 4:
      return trc("weekday", "Thu");
    case 5:
      return trc("weekday", "Fri");
    default:
      return trc("weekday", "Sat");
  }
}

std::string month_word(std::chrono::month month) {
  switch (unsigned{month}) {
    case 1:
      return trc("short month", "Jan");
    case 2:
      return trc("short month", "Feb");
    case 3:
      return trc("short month", "Mar");
    case 4:
      return trc("short month", "Apr");
    case 5:
      return trc("short month", "May");
    case 6:
      return trc("short month", "Jun");
    case 7:
      return trc("short month", "Jul");
    case 8:
      return trc("short month", "Aug");
    case 9:
      return trc("short month", "Sep");
    case 10:
      return trc("short month", "Oct");
    case 11:
      return trc("short month", "Nov");
    default:
      return trc("short month", "Dec");
  }
}

std::string full_month_word(std::chrono::month month) {
  switch (unsigned{month}) {
    case 1:
      return trc("month", "January");
    case 2:
      return trc("month", "February");
    case 3:
      return trc("month", "March");
    case 4:
      return trc("month", "April");
    case 5:
      return trc("month", "May");
    case 6:
      return trc("month", "June");
    case 7:
      return trc("month", "July");
    case 8:
      return trc("month", "August");
    case 9:
      return trc("month", "September");
    case 10:
      return trc("month", "October");
    case 11:
      return trc("month", "November");
    default:
      return trc("month", "December");
  }
}

std::string day_words(LocalDay day) {
  const std::chrono::year_month_day date(day);
  return trc("date", "{weekday} {day} {month}", "weekday"_a = weekday_word(std::chrono::weekday(day)),
             "day"_a = unsigned{date.day()}, "month"_a = month_word(date.month()));
}

std::string date_words(LocalDay day) {
  const std::chrono::year_month_day date(day);
  return trc("date", "{day} {month}", "day"_a = unsigned{date.day()}, "month"_a = month_word(date.month()));
}

std::string date_words(LocalDay day, LocalDay near) {
  const std::chrono::year year = std::chrono::year_month_day(day).year();
  if (year == std::chrono::year_month_day(near).year()) return date_words(day);
  return trc("date", "{day} {year}", "day"_a = date_words(day), "year"_a = int{year});
}

std::string hour_words(const Clock& clock, Instant when) {
  return clock.local_text(when).substr(11, 5);
}

std::string dated_moment_words(const Clock& clock, Instant when) {
  return trc("moment", "{day} {time}", "day"_a = day_words(clock.day_of(when)),
             "time"_a = hour_words(clock, when));
}

}  // namespace graftcast
