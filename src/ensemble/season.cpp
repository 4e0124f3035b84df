#include "ensemble/season.hpp"
#include "graftcast/error.hpp"
#include "text/tr.hpp"

#include <algorithm>
#include <utility>

namespace graftcast {

namespace {

constexpr std::size_t most_climate_bytes = 32'000'000;  // of those near, and of those far ahead

Hour floor_hour(Instant when) {
  return std::chrono::floor<std::chrono::hours>(when);
}

Outlook outlook_of(const Site& site, const Models& models, const HourlyWeather& weather, Instant earliest,
                   const SeasonSettings& settings, const WeatherCourses& courses) {
  const Hour now = floor_hour(settings.as_of);
  const Hour begin = std::min(floor_hour(earliest), now);
  const Hour end = now + std::chrono::hours(24 * settings.outlook_days);
  if (!settings.monthly_climate || weather.size() == 0)
    return complete_weather(weather, begin, now, end, courses);
  const MonthlyClimate climate(weather, now, site.location, models.monthly_climate);
  Outlook outlook = complete_weather(weather, begin, now, end, courses, &climate);
  if (settings.weather_spread) add_climate_courses(outlook, climate, settings.members, settings.seed);
  return outlook;
}

Ambient past_of(const Site& site, const Models& models, const Outlook& outlook) {
  return ambient_of(site.location, outlook.weather, 0, one_course(outlook.weather, 0, outlook.now),
                    models.climate);
}

Ambient ahead_of(const Site& site, const Models& models, const Outlook& outlook,
                 const MemberQuantiles& quantiles, const SeasonSettings& settings) {
  const auto sun =
      sun_of_hours(site.location, outlook.weather.hour(outlook.now), outlook.weather.size() - outlook.now);
  const int members = settings.weather_spread ? quantiles.members() : 0;
  const ForecastErrors errors = with_own_errors(ForecastErrors{models.forecast}, settings.own_errors);
  return ambient_of(site.location, outlook.weather, outlook.now,
                    weather_of_members(outlook, sun, errors, members, settings.seed), models.climate);
}

MemberQuantiles quantiles_of(const Models& models, const SeasonSettings& settings) {
  MemberQuantiles quantiles(settings.seed, settings.members);
  quantiles.set_match_shapes(models);
  return quantiles;
}

std::vector<double> daylight_of(const Ambient& past, const Ambient& ahead) {
  std::vector<double> daylight;
  for (const auto* ambient : {&past, &ahead}) {
    for (const SunHour& sun : ambient->sun) daylight.push_back(sun.daylight ? 1.0 : 0.0);
  }
  return daylight;
}

std::vector<double> et0_of(const Ambient& past, const Ambient& ahead) {
  std::vector<double> et0;
  for (const auto* ambient : {&past, &ahead}) {
    for (Eigen::Index hour = 0; hour < ambient->et0_mm.cols(); ++hour)
      et0.push_back(ambient->et0_mm.col(hour).mean());
  }
  return et0;
}

}  // namespace

std::vector<DaySpan> local_days(const Clock& clock, Hour start, std::size_t hours) {
  std::vector<DaySpan> days;
  for (std::size_t i = 0; i < hours; ++i) {
    const LocalDay day = clock.day_of(start + std::chrono::hours(static_cast<long>(i)));
    if (days.empty() || days.back().day != day) days.push_back({day, i, i});
    days.back().end = i + 1;
  }
  return days;
}

SiteClimates::SiteClimates(const Ambient& ambient, std::size_t from, std::size_t to, const Models& models,
                           std::size_t most_bytes)
    : ambient_(ambient), from_(from), to_(to), models_(models), most_bytes_(most_bytes) {}

std::shared_ptr<const ScionClimate> SiteClimates::of(const Exposure& exposure) {
  std::call_once(terms_once_, [&] { terms_ = open_air_terms(ambient_, from_, to_); });
  const std::string key = exposure.key();
  const std::shared_ptr<Slot> slot = slot_of(key);
  std::call_once(slot->once, [&] {
    slot->climate = scion_climate(ambient_, terms_, exposure, models_);
    count_and_let_go(key, slot);
  });
  return {slot, &slot->climate};
}

std::shared_ptr<SiteClimates::Slot> SiteClimates::slot_of(const std::string& key) {
  const std::scoped_lock lock(mutex_);
  const auto [place, is_new] = held_.try_emplace(key);
  Held& held = place->second;
  if (is_new) {
    held.slot = std::make_shared<Slot>();
    held.turn = turns_.insert(turns_.end(), key);
  } else {
    turns_.splice(turns_.end(), turns_, held.turn);
  }
  return held.slot;
}

void SiteClimates::count_and_let_go(const std::string& key, const std::shared_ptr<Slot>& slot) {
  const std::scoped_lock lock(mutex_);
  const auto own = held_.find(key);
  if (own == held_.end() || own->second.slot != slot) return;  // Let go while it was worked out.
  own->second.bytes = slot->climate.bytes();
  bytes_ += own->second.bytes;
  for (auto turn = turns_.begin(); bytes_ > most_bytes_ && turn != turns_.end();) {
    const auto candidate = held_.find(*turn);
    if (candidate->second.slot.use_count() > 1 || candidate->second.bytes == 0) {
      ++turn;
      continue;
    }
    bytes_ -= candidate->second.bytes;
    held_.erase(candidate);
    turn = turns_.erase(turn);
  }
}

Season::Season(const Site& site_, const Clock& clock_, const Models& models_, const HourlyWeather& weather,
               Instant earliest, const SeasonSettings& settings_, const WeatherCourses& courses)
    : Season(site_, clock_, models_, outlook_of(site_, models_, weather, earliest, settings_, courses),
             settings_) {}

Season::Season(const Site& site_, const Clock& clock_, const Models& models_, Outlook outlook_,
               const SeasonSettings& settings_)
    : site(site_),
      clock(clock_),
      models(models_),
      settings(settings_),
      outlook(std::move(outlook_)),
      quantiles(quantiles_of(models_, settings_)),
      past(past_of(site_, models_, outlook)),
      ahead(ahead_of(site_, models_, outlook, quantiles, settings_)),
      constants(union_constants(models_)),
      days(local_days(clock_, outlook.weather.start, outlook.weather.size())),
      daylight(daylight_of(past, ahead)),
      et0_mm(et0_of(past, ahead)),
      past_climates_(std::make_unique<SiteClimates>(past, 0, past.hours(), models_)),
      near_climates_(
          std::make_unique<SiteClimates>(ahead, 0, horizon() - now(), models_, most_climate_bytes)),
      far_climates_(std::make_unique<SiteClimates>(ahead, horizon() - now(), ahead.hours(), models_,
                                                   most_climate_bytes)) {}

std::size_t Season::horizon() const {
  return std::min(hours(), now() + static_cast<std::size_t>(24 * settings.horizon_days));
}

void Season::move_within_hour(Instant as_of) {
  if (floor_hour(as_of) != hour(now()))
    throw RangeError(tr("the moment asked for lies in another hour than the season's"));
  settings.as_of = as_of;
}

std::size_t Season::index_of(Instant when) const {
  const auto hour = std::chrono::ceil<std::chrono::hours>(when);
  const long at = (hour - outlook.weather.start).count();
  return static_cast<std::size_t>(std::clamp(at, 0L, static_cast<long>(hours())));
}

}  // namespace graftcast
