#include "degree_day_sum.hpp"

#include <algorithm>
#include <span>

#include "advice/since.hpp"
#include "graftcast/error.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

std::span<const double> air_of(const Season& season, std::size_t begin, std::size_t end) {
  return std::span(season.outlook.weather[Variable::air_temperature].value).subspan(begin, end - begin);
}

DailyExtremes extremes(const Season& season, std::size_t day) {
  const DaySpan& span = season.days[day];
  const auto air = air_of(season, span.begin, span.end);
  DailyExtremes e{*std::min_element(air.begin(), air.end()), *std::max_element(air.begin(), air.end()), 0};
  e.next_minimum_c = e.minimum_c;
  if (day + 1 < season.days.size()) {
    const auto next = air_of(season, season.days[day + 1].begin, season.days[day + 1].end);
    e.next_minimum_c = *std::min_element(next.begin(), next.end());
  }
  return e;
}

}  // namespace

double degree_days_of_day(const Season& season, std::size_t day, std::size_t from, std::size_t to,
                          const DegreeDayRule& rule) {
  const DaySpan& span = season.days[day];
  const std::size_t begin = std::max(span.begin, from);
  const std::size_t end = std::min(span.end, to);
  if (begin >= end) return 0;
  if (rule.method == DegreeDayMethod::hourly) return degree_days_of_hours(air_of(season, begin, end), rule);
  const double share = static_cast<double>(end - begin) / static_cast<double>(span.end - span.begin);
  return share * degree_days(extremes(season, day), rule);
}

double degree_days_between(const Season& season, std::size_t from, std::size_t to,
                           const DegreeDayRule& rule) {
  double sum = 0;
  for (std::size_t day = 0; day < season.days.size(); ++day)
    sum += degree_days_of_day(season, day, from, to, rule);
  return sum;
}

DegreeDayRule degree_day_rule(const Species& species, const DegreeDaySettings& site,
                              const DegreeDaySettings& asked) {
  const auto word = [](const std::optional<std::string>& first, const std::optional<std::string>& second,
                       const char* otherwise) { return first.value_or(second.value_or(otherwise)); };
  const auto method = word(asked.method, site.method, "hourly");
  const auto cutoff = word(asked.cutoff, site.cutoff, "horizontal");
  DegreeDayRule rule;
  const auto known_method = parse_degree_day_method(method);
  const auto known_cutoff = parse_cutoff(cutoff);
  if (!known_method)
    throw UsageError("unknown degree-day method '" + method + "'",
                     nearest_hint(method, degree_day_method_words()));
  if (!known_cutoff)
    throw UsageError("unknown cut-off '" + cutoff + "'", nearest_hint(cutoff, cutoff_words()));
  rule.method = *known_method;
  rule.cutoff = *known_cutoff;
  rule.base_c = asked.base_c.value_or(site.base_c.value_or(species.degree_day_base_c));
  rule.upper_c = asked.upper_c.value_or(site.upper_c.value_or(species.degree_day_upper_c));
  return rule;
}

}  // namespace graftcast
