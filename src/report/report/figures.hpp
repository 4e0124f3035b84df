#pragma once
// Numbers, dates and counts in words, for people. JSON has its own.

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// `temperature_c` [degC] as `46 °C`, `115 °F`, in ASCII `46 degC`.
std::string temperature_words(const TerminalStyle& style, double temperature_c);
/// The number alone, in the unit of `temperature_unit`, with `decimals`.
std::string temperature_figure(const TerminalStyle& style, double temperature_c, int decimals = 0);
std::string temperature_unit(const TerminalStyle& style);

/// Probability 0..1 as `59 %`, `under 1 %`, `over 99 %`.
std::string percent_words(double probability);
/// Whether two probabilities are the same in whole percents.
bool are_alike_in_percent(double low, double high);
/// Two probabilities as `43-77 %`; `all members alike` where they are the same in whole percents.
std::string percent_range_words(const TerminalStyle& style, double low, double high);

/// `Wed 18 Jun`; with the year where it is not that of `near`.
std::string day_words(LocalDay day, LocalDay near);
/// `today 20:00`, `tomorrow 07:00`, `Thu 19 Jun 07:00` on the site's clock.
std::string moment_words(const Clock& clock, Instant instant, Instant as_of);
/// A length of time as `40 min`, `5 h`, `3 days`.
std::string duration_words(std::chrono::seconds length);

/// `a, b and c`; `a, b, c`; `a; b; c`.
std::string listed(std::span<const std::string> words);
std::string with_commas(std::span<const std::string> words);
std::string with_semicolons(std::span<const std::string> words);

/// One character a value, from the lowest to the highest bar; UTF-8. NaN gives a blank. Empty for no values.
std::string sparkline(std::span<const double> values);

}  // namespace graftcast
