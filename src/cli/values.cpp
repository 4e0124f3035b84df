#include "values.hpp"

#include <cmath>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast::cli {

namespace {

[[noreturn]] void refuse(std::string_view option, const std::string& text, const std::string& wanted) {
  throw UsageError(tr("{option} does not take {text}", "option"_a = option, "text"_a = shown(text)), wanted);
}

}  // namespace

long long whole_number(std::string_view option, const std::string& text, long long low, long long high) {
  const auto number = parse_number(text);
  const std::string wanted = tr("give a whole number from {low} to {high}", "low"_a = low, "high"_a = high);
  if (!number || std::floor(*number) != *number || *number < static_cast<double>(low) ||
      *number > static_cast<double>(high))
    refuse(option, text, wanted);
  return static_cast<long long>(*number);
}

double decimal_number(std::string_view option, const std::string& text, double low, double high) {
  const auto number = parse_number(text);
  if (!number || *number < low || *number > high)
    refuse(option, text, tr("give a number from {low:g} to {high:g}", "low"_a = low, "high"_a = high));
  return *number;
}

std::string word_of(std::string_view option, const std::string& text, std::span<const std::string> known) {
  for (const std::string& word : known)
    if (word == text) return text;
  const std::string near = nearest_hint(text, known);
  refuse(option, text, near.empty() ? tr("give one of: {names}", "names"_a = fmt::join(known, ", ")) : near);
}

LocalDay day_of(std::string_view option, const std::string& text) {
  const auto day = parse_day(text);
  if (!day) refuse(option, text, tr("give a day such as 2025-06-18"));
  return *day;
}

Instant time_of(std::string_view option, const std::string& text, const Clock& clock, int hour_of_date) {
  if (const auto day = parse_day(text))
    return clock.resolve(std::chrono::local_seconds(*day) + std::chrono::hours(hour_of_date)).instant;
  const auto time = parse_time(text);
  if (!time)
    refuse(option, text, tr("give a time such as 2025-06-18T06:30, or with an offset: 2025-06-18T06:30Z"));
  if (time->offset) return Instant(time->reading.time_since_epoch()) - *time->offset;
  return clock.resolve(time->reading).instant;
}

std::function<void(const std::string&)> into(std::string& target) {
  return [&target](const std::string& text) { target = text; };
}

std::function<void(const std::string&)> into(bool& target) {
  return [&target](const std::string&) { target = true; };
}

}  // namespace graftcast::cli
