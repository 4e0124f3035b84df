#include "report/figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "text/tr.hpp"
#include "words/count_words.hpp"
#include "words/date_words.hpp"

namespace graftcast {

namespace {

using std::chrono::year_month_day;

constexpr std::array<std::string_view, 8> bars{"\u2581", "\u2582", "\u2583", "\u2584",
                                               "\u2585", "\u2586", "\u2587", "\u2588"};

double shown_temperature(const TerminalStyle& style, double temperature_c) {
  return style.units == UnitSystem::us ? temperature_c * 9.0 / 5.0 + 32.0 : temperature_c;
}

/// Without a minus before nothing but zeros.
std::string fixed(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return fmt::format("{:.{}f}", std::round(value * scale) / scale + 0.0, decimals);
}

int whole_percent(double probability) {
  return static_cast<int>(std::lround(100.0 * std::clamp(probability, 0.0, 1.0)));
}

std::string_view bar_of(double value, double low, double high) {
  if (std::isnan(value)) return " ";
  const double share = high > low ? (value - low) / (high - low) : 0.5;
  return bars.at(static_cast<std::size_t>(std::lround(share * (bars.size() - 1))));
}

}  // namespace

std::string temperature_unit(const TerminalStyle& style) {
  if (style.units == UnitSystem::us) return style.utf8 ? tr("°F") : tr("degF");
  return style.utf8 ? tr("°C") : tr("degC");
}

std::string temperature_figure(const TerminalStyle& style, double temperature_c, int decimals) {
  return fixed(shown_temperature(style, temperature_c), decimals);
}

std::string temperature_words(const TerminalStyle& style, double temperature_c) {
  return trc("temperature", "{figure} {unit}", "figure"_a = temperature_figure(style, temperature_c),
             "unit"_a = temperature_unit(style));
}

std::string percent_words(double probability) {
  const int percent = whole_percent(probability);
  if (percent < 1) return tr("under 1 %");
  return percent > 99 ? tr("over 99 %") : tr("{percent} %", "percent"_a = percent);
}

bool are_alike_in_percent(double low, double high) {
  return whole_percent(low) == whole_percent(high);
}

std::string percent_range_words(const TerminalStyle& style, double low, double high) {
  if (are_alike_in_percent(low, high)) return tr("all members alike");
  return tr("{low}{dash}{high} %", "low"_a = whole_percent(low), "dash"_a = range_dash(style),
            "high"_a = whole_percent(high));
}

std::string day_words(LocalDay day, LocalDay near) {
  const std::chrono::year year = year_month_day(day).year();
  if (year == year_month_day(near).year()) return day_words(day);
  return trc("date", "{day} {year}", "day"_a = day_words(day), "year"_a = int{year});
}

std::string moment_words(const Clock& clock, Instant instant, Instant as_of) {
  const LocalDay day = clock.day_of(instant);
  const LocalDay today = clock.day_of(as_of);
  const std::string time = hour_words(clock, instant);
  if (day == today) return tr("today {time}", "time"_a = time);
  if (day == today + std::chrono::days(1)) return tr("tomorrow {time}", "time"_a = time);
  if (day == today - std::chrono::days(1)) return tr("yesterday {time}", "time"_a = time);
  return trc("moment", "{day} {time}", "day"_a = day_words(day, today), "time"_a = time);
}

std::string duration_words(std::chrono::seconds length) {
  if (length < std::chrono::hours(1))
    return tr("{n} min", "n"_a = std::chrono::floor<std::chrono::minutes>(length).count());
  if (length < std::chrono::days(2))
    return tr("{n} h", "n"_a = std::chrono::floor<std::chrono::hours>(length).count());
  return days_words(static_cast<std::size_t>(std::chrono::floor<std::chrono::days>(length).count()));
}

std::string listed(std::span<const std::string> words) {
  if (words.size() < 2) return with_commas(words);
  return trc("end of a list", "{list} and {last}", "list"_a = with_commas(words.first(words.size() - 1)),
             "last"_a = words.back());
}

std::string with_commas(std::span<const std::string> words) {
  std::string list;
  for (const std::string& word : words)
    list = list.empty() ? word : trc("within a list", "{list}, {next}", "list"_a = list, "next"_a = word);
  return list;
}

std::string with_semicolons(std::span<const std::string> words) {
  std::string list;
  for (const std::string& word : words)
    list = list.empty() ? word : trc("within a list", "{list}; {next}", "list"_a = list, "next"_a = word);
  return list;
}

std::string sparkline(std::span<const double> values) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const double value : values)
    if (!std::isnan(value)) {
      low = std::min(low, value);
      high = std::max(high, value);
    }
  std::string line;
  for (const double value : values) line += bar_of(value, low, high);
  return line;
}

}  // namespace graftcast
