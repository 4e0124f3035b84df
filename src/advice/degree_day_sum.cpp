#include "degree_day_sum.hpp"

#include <algorithm>
#include <span>

#include "advice/since.hpp"

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
  DegreeDayRule rule;
  rule.method = asked.method.value_or(site.method.value_or(DegreeDayMethod::hourly));
  rule.cutoff = asked.cutoff.value_or(site.cutoff.value_or(Cutoff::horizontal));
  rule.base_c = asked.base_c.value_or(site.base_c.value_or(species.degree_day_base_c));
  rule.upper_c = asked.upper_c.value_or(site.upper_c.value_or(species.degree_day_upper_c));
  return rule;
}

}  // namespace graftcast
