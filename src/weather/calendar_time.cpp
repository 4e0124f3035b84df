#include "graftcast/calendar_time.hpp"

#include <algorithm>
#include <charconv>
#include <utility>
#include <vector>

#include <date/date.h>
#include <date/tz.h>
#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::local_seconds;

namespace {

const date::time_zone& zone_of(const void* zone) {
  return *static_cast<const date::time_zone*>(zone);
}

date::local_seconds to_date(local_seconds reading) {
  return date::local_seconds(reading.time_since_epoch());
}

const std::vector<date::time_zone>& known_zones() {
  try {
    return date::get_tzdb().zones;
  } catch (const std::exception& failure) {
    throw RangeError(tr("the system's time zone data cannot be read ({reason})", "reason"_a = failure.what()),
                     tr("install the package tzdata"));
  }
}

const date::time_zone* find_zone(std::string_view name) {
  const auto& zones = known_zones();
  try {
    return date::locate_zone(std::string(name));
  } catch (const std::runtime_error&) {
    std::vector<std::string> names;
    names.reserve(zones.size());
    for (const auto& zone : zones) names.push_back(zone.name());
    const std::string near = nearest_hint(name, names);
    throw RangeError(tr("\"{name}\" is not a time zone", "name"_a = name),
                     near.empty() ? tr("give an IANA name such as Europe/Lisbon") : near);
  }
}

/// The number of exactly `count` digits at `at`, or -1.
int digits(std::string_view text, std::size_t at, std::size_t count) {
  if (text.size() < at + count) return -1;
  int number = 0;
  for (const char letter : text.substr(at, count)) {
    if (letter < '0' || letter > '9') return -1;
    number = 10 * number + (letter - '0');
  }
  return number;
}

bool has(std::string_view text, std::size_t at, char letter) {
  return at < text.size() && text[at] == letter;
}

/// `hh:mm[:ss[.fff]]` from `at` on; moves `at` behind it.
std::optional<std::chrono::seconds> clock_reading(std::string_view text, std::size_t& at) {
  const int hour = digits(text, at, 2);
  const int minute = digits(text, at + 3, 2);
  if (hour < 0 || hour > 24 || minute < 0 || minute > 59 || !has(text, at + 2, ':')) return std::nullopt;
  at += 5;
  int second = 0;
  if (has(text, at, ':')) {
    second = digits(text, at + 1, 2);
    if (second < 0 || second > 59) return std::nullopt;
    at += 3;
    if (has(text, at, '.')) {
      const std::size_t behind = std::min(text.find_first_not_of("0123456789", at + 1), text.size());
      if (behind == at + 1) return std::nullopt;
      at = behind;
    }
  }
  if (hour == 24 && (minute > 0 || second > 0)) return std::nullopt;
  return std::chrono::hours(hour) + std::chrono::minutes(minute) + std::chrono::seconds(second);
}

/// `Z`, `+hh`, `+hhmm` or `+hh:mm` as the whole of `text`.
std::optional<std::chrono::seconds> offset_reading(std::string_view text) {
  if (text == "Z" || text == "z") return std::chrono::seconds(0);
  if (text.size() < 3 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  const int hour = digits(text, 1, 2);
  int minute = 0;
  if (text.size() == 5) minute = digits(text, 3, 2);
  if (text.size() == 6) minute = text[3] == ':' ? digits(text, 4, 2) : -1;
  if (text.size() == 4 || text.size() > 6 || hour < 0 || hour > 23 || minute < 0 || minute > 59)
    return std::nullopt;
  const std::chrono::seconds size = std::chrono::hours(hour) + std::chrono::minutes(minute);
  return text[0] == '-' ? -size : size;
}

}  // namespace

Clock::Clock(std::string_view iana_name) : name_(iana_name), zone_(find_zone(iana_name)) {}

LocalDay Clock::day_of(Instant instant) const {
  return std::chrono::floor<std::chrono::days>(
      local_seconds(instant.time_since_epoch() + offset_at(instant)));
}

Instant Clock::begin_of(LocalDay day) const {
  return zone_of(zone_).to_sys(to_date(local_seconds(day)), date::choose::earliest);
}

Instant Clock::noon_of(LocalDay day) const {
  return resolve(day + std::chrono::hours(12)).instant;
}

double Clock::hours_in(LocalDay day) const {
  return std::chrono::duration<double, std::ratio<3600>>(begin_of(day + std::chrono::days(1)) - begin_of(day))
      .count();
}

std::chrono::seconds Clock::offset_at(Instant instant) const {
  return zone_of(zone_).get_info(instant).offset;
}

std::chrono::seconds Clock::standard_offset_at(Instant instant) const {
  // The zone data's own flag for "summer time" is of no use: zones with a negative winter time set it in
  // winter.
  const auto year = std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(instant)).year();
  const auto middle_of = [&](std::chrono::month month) {
    return offset_at(std::chrono::sys_days(year / month / 15));
  };
  return std::min(middle_of(std::chrono::January), middle_of(std::chrono::July));
}

Clock::Resolved Clock::resolve(local_seconds reading, bool second_pass) const {
  const date::local_info info = zone_of(zone_).get_info(to_date(reading));
  if (info.result == date::local_info::nonexistent) return {info.first.end, Resolved::Fold::absent};
  const bool doubled = info.result == date::local_info::ambiguous;
  const auto& period = doubled && second_pass ? info.second : info.first;
  return {Instant(reading.time_since_epoch() - period.offset),
          doubled ? Resolved::Fold::doubled : Resolved::Fold::unique};
}

std::string Clock::local_text(Instant instant) const {
  const local_seconds reading(instant.time_since_epoch() + offset_at(instant));
  const auto day = std::chrono::floor<std::chrono::days>(reading);
  const std::chrono::hh_mm_ss time(reading - day);
  return fmt::format("{}T{:02}:{:02}", day_text(day), time.hours().count(), time.minutes().count());
}

std::string utc_text(Instant instant) {
  const auto day = std::chrono::floor<std::chrono::days>(instant);
  const std::chrono::hh_mm_ss time(instant - day);
  return fmt::format("{}T{:02}:{:02}:{:02}Z", day_text(LocalDay(day.time_since_epoch())),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

std::string day_text(LocalDay day) {
  const std::chrono::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::optional<LocalDay> parse_day(std::string_view text) {
  const int year = digits(text, 0, 4);
  const int month = digits(text, 5, 2);
  const int day = digits(text, 8, 2);
  if (text.size() != 10 || text[4] != '-' || text[7] != '-' || year < 0 || month < 0 || day < 0)
    return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return std::nullopt;
  return LocalDay(date);
}

std::optional<ParsedTime> parse_time(std::string_view text) {
  const auto day = parse_day(text.substr(0, std::min<std::size_t>(text.size(), 10)));
  if (!day || text.size() < 16 || (text[10] != 'T' && text[10] != 't' && text[10] != ' '))
    return std::nullopt;
  std::size_t at = 11;
  const auto time = clock_reading(text, at);
  if (!time) return std::nullopt;
  ParsedTime parsed{*day + *time, std::nullopt};
  if (at == text.size()) return parsed;
  parsed.offset = offset_reading(text.substr(at));
  if (!parsed.offset) return std::nullopt;
  return parsed;
}

}  // namespace graftcast
