// The weather at hand and how fresh it is.

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"

namespace graftcast {

namespace {

std::string measured_words(const ReportBasis& basis) {
  const auto& until = basis.weather.measured_until;
  if (!until) return "no weather measured";
  const auto age = basis.as_of - *until;
  std::string words = fmt::format("measured until {}", moment_words(*basis.clock, *until, basis.as_of));
  if (age >= std::chrono::hours(1)) words += fmt::format(" ({} old)", duration_words(age));
  return words;
}

std::string forecast_words(const ReportBasis& basis) {
  const auto& until = basis.weather.forecast_until;
  if (!until || *until <= basis.as_of) return "no forecast";
  return fmt::format("forecast until {}", moment_words(*basis.clock, *until, basis.as_of));
}

std::string_view stand_in_words(std::string_view filled_by) {
  if (filled_by == "past-years") return "the site's own past years at this date";
  if (filled_by == "monthly-climate") return "days made up from the log's monthly climate";
  if (filled_by == "last-week") return "the last known week again";
  if (filled_by == "neighbouring-days") return "the nearest days known";
  return filled_by;
}

/// What stands in for weather ahead that nobody gave.
std::string ahead_words(const ReportBasis& basis) {
  for (const BasisGap& gap : basis.weather.gaps)
    if (gap.to > basis.as_of && !gap.filled_by.empty())
      return fmt::format("; from {} on: {}",
                         gap.from <= basis.as_of ? "now" : moment_words(*basis.clock, gap.from, basis.as_of),
                         stand_in_words(gap.filled_by));
  return {};
}

}  // namespace

std::string freshness(const ReportBasis& basis) {
  return fmt::format("{}; {}{}.", measured_words(basis), forecast_words(basis), ahead_words(basis));
}

}  // namespace graftcast
