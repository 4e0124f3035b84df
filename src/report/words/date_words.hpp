#pragma once
// Days and moments in words (private to the layer).

#include <string>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// `Sun`.
std::string weekday_word(std::chrono::weekday weekday);
/// `Jan`.
std::string month_word(std::chrono::month month);
/// `January`.
std::string full_month_word(std::chrono::month month);

/// `Thu 12 Jun`, of days whose year is plain.
std::string day_words(LocalDay day);
/// `12 Jun`, where the weekday says nothing.
std::string date_words(LocalDay day);
/// The same, with the year where it is not that of `near`.
std::string date_words(LocalDay day, LocalDay near);
/// `Thu 12 Jun 07:00` on the site's clock.
std::string dated_moment_words(const Clock& clock, Instant when);
/// `07:00` on the site's clock.
std::string hour_words(const Clock& clock, Instant when);

}  // namespace graftcast
