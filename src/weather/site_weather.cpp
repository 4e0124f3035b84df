#include "weather/site_weather.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "humidity.hpp"
#include "impossible.hpp"
#include "known_readings.hpp"
#include "logged_hours.hpp"
#include "merge.hpp"
#include "note_book.hpp"
#include "services/saved_forecasts.hpp"
#include "text/tr.hpp"
#include "weather/derive.hpp"
#include "weather/forecast_cache.hpp"
#include "weather/gaps.hpp"
#include "weather/quality_checks.hpp"
#include "weather_gaps.hpp"

namespace graftcast {

namespace {

/// Turns readings into hours, source by source.
class Assembly {
 public:
  Assembly(const Location& location, const Clock& clock, const Knowledge& knowledge)
      : location_(location), clock_(clock), knowledge_(knowledge) {}

  void add(Readings readings);
  SiteWeather finish();

 private:
  void add_hours(const Readings& readings, QuantityHours hours, NoteBook& notes);
  void check(const Readings& readings, const QuantityHours& hours);
  void check(const Readings& readings, const std::vector<DayReading>& days);
  void add_log_days(const Readings& readings, const std::vector<DayReading>& days);
  void add_credit(const Readings& readings);
  void keep_courses(Readings& readings);
  WeatherCourses courses_of(const QuantityHours& merged);
  void move_notes(std::vector<QualityNote> notes);
  void set_until(SiteWeather& result, const QuantityHours& merged) const;
  static void note_derived(SiteWeather& result, const QuantityHours& merged);
  HourlyWeather hourly_of(QuantityHours merged) const;

  const Location& location_;
  const Clock& clock_;
  const Knowledge& knowledge_;
  std::vector<SourceHours> sources_;
  std::map<LocalDay, DailyLogDay> log_days_;
  std::vector<QualityNote> notes_;
  std::vector<QualityNote> findings_;
  std::vector<std::string> credits_;
  std::vector<Readings> ensemble_;  ///< Courses of the newest ensemble forecast, the control run first.
};

void Assembly::move_notes(std::vector<QualityNote> notes) {
  notes_.insert(notes_.end(), std::make_move_iterator(notes.begin()), std::make_move_iterator(notes.end()));
}

void Assembly::add_credit(const Readings& readings) {
  if (readings.credit.empty() || readings.blocks.empty()) return;
  if (std::find(credits_.begin(), credits_.end(), readings.credit) == credits_.end())
    credits_.push_back(readings.credit);
}

void Assembly::add_log_days(const Readings& readings, const std::vector<DayReading>& days) {
  if (readings.is_forecast) return;
  for (const DayReading& day : days) {
    if (day.has_extremes()) log_days_.try_emplace(day.day, DailyLogDay{day, readings.source});
  }
}

/// A forecast has no sensors.
void Assembly::check(const Readings& readings, const QuantityHours& hours) {
  if (readings.is_forecast) return;
  for (QualityNote& finding : check_quality(hours, readings.source, location_, clock_))
    findings_.push_back(std::move(finding));
}

void Assembly::check(const Readings& readings, const std::vector<DayReading>& days) {
  if (readings.is_forecast) return;
  for (QualityNote& finding : check_quality(days, readings.source, clock_))
    findings_.push_back(std::move(finding));
}

void Assembly::add_hours(const Readings& readings, QuantityHours hours, NoteBook& notes) {
  if (hours.size() == 0) return;
  complete_humidity(hours, notes);
  set_aside_impossible(hours, notes);
  check(readings, hours);
  sources_.push_back({readings.source, readings.is_forecast, readings.made_at, std::move(hours)});
}

void Assembly::keep_courses(Readings& readings) {
  std::vector<Readings> members = std::exchange(readings.members, {});
  if (members.empty() || readings.blocks.empty()) return;
  if (!ensemble_.empty() && ensemble_.front().made_at >= readings.made_at) return;
  ensemble_ = std::move(members);
  ensemble_.insert(ensemble_.begin(), readings);
}

/// Each course by itself, made complete like the whole series.
WeatherCourses Assembly::courses_of(const QuantityHours& merged) {
  WeatherCourses result;
  if (ensemble_.empty()) return result;
  const auto found = std::ranges::find_if(sources_, [&](const SourceHours& source) {
    return source.name == ensemble_.front().source && source.made_at == ensemble_.front().made_at;
  });
  const auto& air = merged[Quantity::air_temperature];
  result.source = static_cast<std::uint16_t>(found - sources_.begin());
  bool in_use = false;
  for (std::size_t k = 0; k < merged.size(); ++k)
    in_use = in_use || (air.known(k) && air.source[k] == result.source);
  if (found == sources_.end() || !in_use) return result;
  for (Readings& course : ensemble_) {
    std::vector<Readings> alone;
    alone.push_back(std::move(course));
    result.courses.push_back(assemble(std::move(alone), location_, clock_, {knowledge_.as_of, true}).hourly);
  }
  return result;
}

void Assembly::add(Readings readings) {
  keep_known(readings, knowledge_);
  drop_invalid_years(readings);
  add_credit(readings);
  keep_courses(readings);
  NoteBook notes(readings.source);
  std::vector<DayReading> days = daily_readings(readings, clock_);
  set_aside_impossible(days, location_, notes);
  check(readings, days);
  add_log_days(readings, days);
  add_hours(readings, resample(readings, location_), notes);
  add_hours(readings, daily_to_hourly(days, location_, clock_), notes);
  move_notes(std::move(readings.notes));
  move_notes(notes.take());
}

void Assembly::set_until(SiteWeather& result, const QuantityHours& merged) const {
  const auto& air = merged[Quantity::air_temperature];
  for (std::size_t k = 0; k < merged.size(); ++k) {
    if (!air.known(k)) continue;
    auto& until = sources_[air.source[k]].is_forecast ? result.forecast_until : result.measured_until;
    until = merged.hour(k + 1);
  }
  if (result.measured_until && !knowledge_.hindsight) {
    result.measured_until = std::min(*result.measured_until, knowledge_.as_of);
  }
}

void Assembly::note_derived(SiteWeather& result, const QuantityHours& merged) {
  for (const Variable variable : result.assumed) {
    const auto& origin = merged.columns[static_cast<std::size_t>(variable)].origin;
    const auto count = std::count(origin.begin(), origin.end(), Origin::derived);
    result.notes.push_back({"",
                            "derived",
                            static_cast<std::size_t>(count),
                            tr("{variable} is not measured in these hours and was derived",
                               "variable"_a = variable_name(variable)),
                            {}});
  }
}

HourlyWeather Assembly::hourly_of(QuantityHours merged) const {
  HourlyWeather hourly;
  hourly.start = merged.start;
  for (const SourceHours& source : sources_) hourly.sources.push_back(source.name);
  hourly.forecast_lead_h.assign(merged.size(), 0);
  const auto& air = merged[Quantity::air_temperature];
  for (std::size_t k = 0; k < merged.size(); ++k) {
    const SourceHours& source = sources_[air.source[k]];
    if (!air.known(k) || !source.is_forecast || !source.made_at) continue;
    const std::chrono::duration<float, std::ratio<3600>> lead = merged.hour(k) - *source.made_at;
    hourly.forecast_lead_h[k] = std::max(lead.count(), 0.0F);
  }
  for (std::size_t v = 0; v < variable_count; ++v) hourly.columns.at(v) = std::move(merged.columns.at(v));
  return hourly;
}

SiteWeather Assembly::finish() {
  SiteWeather result;
  result.notes = std::move(notes_);
  result.findings = std::move(findings_);
  result.credits = std::move(credits_);
  for (auto& [day, log_day] : log_days_) result.daily_log.push_back(std::move(log_day));
  sort_by_trust(sources_);
  std::vector<SourceHoles> holes;
  for (SourceHours& source : sources_) {
    holes.push_back(holes_of(source.hours));
    fill_short_gaps(source.hours, location_);
  }
  QuantityHours merged = merge(sources_);
  NoteBook notes("");
  complete_humidity(merged, notes);
  fill_short_gaps(merged, location_);
  set_until(result, merged);
  result.assumed = derive_missing(merged, location_, clock_);
  result.gaps = find_gaps(sources_, holes, merged, knowledge_.as_of);
  note_derived(result, merged);
  result.courses = courses_of(merged);
  result.hourly = hourly_of(std::move(merged));
  return result;
}

}  // namespace

SiteWeather assemble(std::vector<Readings> sources, const Location& location, const Clock& clock,
                     const Knowledge& knowledge) {
  Assembly assembly(location, clock, knowledge);
  for (Readings& readings : sources) assembly.add(std::move(readings));
  return assembly.finish();
}

namespace {

/// Reads what a site has in two goes: logs first, then of the forecasts only what the logs leave open.
class SiteReading {
 public:
  SiteReading(const std::filesystem::path& site_folder, const Location& location, const Clock& clock,
              const WeatherSettings& settings, const Knowledge& knowledge)
      : site_folder_(site_folder),
        location_(location),
        clock_(clock),
        settings_(settings),
        knowledge_(knowledge),
        by_source_(settings.sources.size()) {}

  std::vector<Readings> all();

 private:
  void read(std::size_t source, const LoggedHours* logged);
  std::optional<LoggedHours> logged_hours() const;

  const std::filesystem::path& site_folder_;
  const Location& location_;
  const Clock& clock_;
  const WeatherSettings& settings_;
  const Knowledge& knowledge_;
  std::vector<std::vector<Readings>> by_source_;
};

void SiteReading::read(std::size_t source, const LoggedHours* logged) {
  const SourceSettings& settings = settings_.sources[source];
  if (settings.service.empty()) {
    by_source_[source].push_back(read_source(site_folder_, settings, location_, clock_));
  } else {
    by_source_[source] = needed_forecasts(site_folder_, settings, location_, clock_, knowledge_, logged);
  }
}

/// What the logs tell from the oldest kept forecast on; nothing where none is kept.
std::optional<LoggedHours> SiteReading::logged_hours() const {
  std::optional<Instant> oldest, newest;
  for (const SourceSettings& source : settings_.sources) {
    if (!gives_forecasts(source)) continue;
    const std::vector<PastForecast> kept = past_forecasts(site_folder_, source);
    if (kept.empty()) continue;
    oldest = std::min(oldest.value_or(kept.back().made_at), kept.back().made_at);
    newest = std::max(newest.value_or(kept.front().made_at), kept.front().made_at);
  }
  if (!oldest) return std::nullopt;
  LoggedHours logged(*oldest, static_cast<std::size_t>((*newest - *oldest) / std::chrono::hours(1)) + 2);
  for (const std::vector<Readings>& of_source : by_source_)
    for (const Readings& readings : of_source)
      if (!readings.is_forecast) logged.add(readings, knowledge_);
  return logged;
}

std::vector<Readings> SiteReading::all() {
  for (std::size_t k = 0; k < by_source_.size(); ++k)
    if (!gives_forecasts(settings_.sources[k])) read(k, nullptr);
  const std::optional<LoggedHours> logged = logged_hours();
  for (std::size_t k = 0; k < by_source_.size(); ++k)
    if (gives_forecasts(settings_.sources[k])) read(k, logged ? &*logged : nullptr);
  std::vector<Readings> all;
  for (std::vector<Readings>& of_source : by_source_)
    for (Readings& readings : of_source) all.push_back(std::move(readings));
  return all;
}

}  // namespace

SiteWeather assemble(const std::filesystem::path& site_folder, const Location& location, const Clock& clock,
                     const WeatherSettings& settings, const Knowledge& knowledge) {
  return assemble(SiteReading(site_folder, location, clock, settings, knowledge).all(), location, clock,
                  knowledge);
}

}  // namespace graftcast
