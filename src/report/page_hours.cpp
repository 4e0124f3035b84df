#include "page_hours.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "page_figures.hpp"
#include "page_markup.hpp"
#include "report/figures.hpp"

namespace graftcast {

namespace {

constexpr int farthest_step = 30, step_signs = 61;
constexpr int longest_rest = 27, first_rest = 2;
constexpr int long_step = 87, farthest_long_step = 1860;

std::string signs_of_numbers() {
  std::string signs;
  for (char c = '#'; c <= '~'; ++c)
    if (c != '&' && c != '\'' && c != '<' && c != '>') signs += c;
  return signs;
}

int nearest_whole(double value) {
  return static_cast<int>(std::lround(value));
}

template <typename Whole>
std::vector<int> wholes(std::span<const double> values, const Whole& as_whole) {
  std::vector<int> numbers;
  numbers.reserve(values.size());
  std::ranges::transform(values, std::back_inserter(numbers), as_whole);
  return numbers;
}

std::string packed_temperatures(std::span<const double> values_c, const TerminalStyle& style) {
  return packed_numbers(
      wholes(values_c, [&](double value_c) { return nearest_whole(page_temperature(style, value_c)); }));
}

/// Differences in whole percents; the limits of a band keep their distance while the band moves.
std::string packed_distance(std::span<const double> from, std::span<const double> to) {
  std::vector<int> numbers;
  for (std::size_t i = 0; i < from.size(); ++i)
    numbers.push_back(nearest_whole(100 * to[i]) - nearest_whole(100 * from[i]));
  return packed_numbers(numbers);
}

/// Hours of the series, which begins at `start`, at which its local days begin; the first may lie before it,
/// the last lies beyond it.
std::string packed_days(const Clock& clock, Hour start, std::size_t hours) {
  std::vector<int> begins;
  const auto index_of = [&](LocalDay day) {
    return static_cast<int>((std::chrono::ceil<std::chrono::hours>(clock.begin_of(day)) - start).count());
  };
  for (LocalDay day = clock.day_of(start);; day += std::chrono::days(1)) {
    begins.push_back(index_of(day));
    if (begins.back() > static_cast<int>(hours)) break;
  }
  return packed_numbers(begins);
}

/// Days of each column, where some have several.
std::string packed_columns(std::span<const ChartDay> days) {
  if (std::ranges::all_of(days, [](const ChartDay& day) { return day.days == 1; })) return {};
  std::vector<int> counts;
  for (const ChartDay& day : days) counts.push_back(day.days);
  return fmt::format(" data-columns=\"{}\"", packed_numbers(counts));
}

}  // namespace

std::string packed_numbers(std::span<const int> numbers) {
  static const std::string signs = signs_of_numbers();
  const auto sign = [](int number) { return signs[static_cast<std::size_t>(number)]; };
  std::string text;
  int last = 0;
  for (std::size_t i = 0; i < numbers.size();) {
    int rest = 0;
    while (i < numbers.size() && numbers[i] == last && rest < longest_rest) ++rest, ++i;
    if (rest > 0) {
      text += sign(rest < first_rest ? farthest_step : rest - first_rest + step_signs);
      continue;
    }
    const int step = std::clamp(numbers[i++] - last, -farthest_long_step, farthest_long_step);
    last += step;
    if (std::abs(step) <= farthest_step) {
      text += sign(step + farthest_step);
    } else {
      text += sign(long_step);
      text += sign((step + farthest_long_step) / step_signs);
      text += sign((step + farthest_long_step) % step_signs);
    }
  }
  return text;
}

PageHours::PageHours(const PageBasis& page) : page_(page) {
  for (const GraftSince& graft : page.content.since.grafts) {
    if (graft.hours && (longest_ == nullptr || graft.hours->start < longest_->start))
      longest_ = &*graft.hours;
  }
}

std::size_t PageHours::place_of(const std::string& series) {
  const auto [found, is_new] = places_.emplace(series, tissues_.size());
  if (is_new) tissues_.push_back(series);
  return found->second;
}

std::string PageHours::attributes(const GraftSince& graft, std::span<const ChartDay> days) {
  if (!graft.hours || graft.hours->water.empty()) return {};
  const SinceHours& hours = *graft.hours;
  const auto since_grafting = page_.basis.as_of - Instant(hours.start);
  const auto now = std::chrono::floor<std::chrono::hours>(since_grafting).count() - 1;
  return fmt::format(
      " data-first=\"{}\" data-now=\"{}\" data-tissue=\"{}\" data-water=\"{}\" data-low=\"{}\" "
      "data-high=\"{}\" data-healing=\"{}\"{}",
      (hours.start - longest_->start).count(), std::max(0L, static_cast<long>(now)),
      place_of(packed_temperatures(hours.tissue_c, page_.style)),
      packed_numbers(wholes(hours.water, [](double share) { return nearest_whole(100 * share); })),
      packed_distance(hours.water, hours.water_low), packed_distance(hours.water, hours.water_high),
      packed_numbers(wholes(hours.healing, [](double healing) { return nearest_whole(100 * healing); })),
      packed_columns(days));
}

std::string PageHours::shared() const {
  if (longest_ == nullptr) return {};
  std::string html =
      fmt::format(R"(<div id="hours" hidden data-start="{}" data-unit="{}" data-days="{}" data-air="{}">)",
                  longest_->start.time_since_epoch().count(), temperature_unit(page_.style),
                  packed_days(*page_.basis.clock, longest_->start, longest_->air_c.size()),
                  packed_temperatures(longest_->air_c, page_.style));
  for (const std::string& tissue : tissues_) html += fmt::format("<i data-tissue=\"{}\"></i>", tissue);
  return html + "</div>\n";
}

}  // namespace graftcast
