#include "app/mornings_ahead.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace graftcast {

SeasonSettings mornings_settings(const OpenSite& open, const SiteWeather& weather, int days) {
  SeasonSettings settings = season_settings(open);
  settings.own_errors = own_errors_of(open, weather);
  settings.outlook_days = days + when_follow_days;
  settings.monthly_climate = true;
  return settings;
}

Instant midwinter_or_now(const OpenSite& open, const SiteWeather& weather) {
  const LocalDay today = open.clock.day_of(open.as_of);
  const Instant midwinter = open.clock.begin_of(midwinter_before(today, open.site.location.latitude_deg));
  return weather.hourly.size() > 0 && Instant(weather.hourly.start) <= midwinter ? midwinter : open.as_of;
}

std::vector<WhenAsk> ways_on_record(const std::vector<GraftRecord>& grafts, std::size_t most) {
  std::map<std::pair<std::string, std::string>, int> counts;
  for (const GraftRecord& graft : grafts) counts[{graft.row.species, graft.row.method}] += graft.row.count;
  std::vector<std::pair<int, WhenAsk>> ways;
  for (const auto& [way, count] : counts) {
    WhenAsk ask;
    std::tie(ask.species, ask.method) = way;
    ways.emplace_back(count, std::move(ask));
  }
  std::ranges::stable_sort(ways, std::ranges::greater(), &std::pair<int, WhenAsk>::first);
  std::vector<WhenAsk> asked;
  for (auto& [count, way] : ways) {
    if (asked.size() < most) asked.push_back(std::move(way));
  }
  return asked;
}

}  // namespace graftcast
