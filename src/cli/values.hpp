#pragma once
// Reading the values of options. All errors are UsageError and name the option.

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"

namespace graftcast::cli {

long long whole_number(std::string_view option, const std::string& text, long long low, long long high);
double decimal_number(std::string_view option, const std::string& text, double low, double high);
/// One of `known`; otherwise the nearest are offered.
std::string word_of(std::string_view option, const std::string& text, std::span<const std::string> known);
LocalDay day_of(std::string_view option, const std::string& text);
/// An ISO 8601 time; without an offset on `clock`, a date alone at `hour_of_date` o'clock.
Instant time_of(std::string_view option, const std::string& text, const Clock& clock, int hour_of_date);

/// A `take` that puts the text itself into `target`.
std::function<void(const std::string&)> into(std::string& target);
/// A `take` of a switch.
std::function<void(const std::string&)> into(bool& target);

}  // namespace graftcast::cli
