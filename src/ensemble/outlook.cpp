#include "ensemble/outlook.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "graftcast/air.hpp"
#include "graftcast/error.hpp"

namespace graftcast {

namespace {

constexpr std::array needed{Variable::air_temperature, Variable::relative_humidity, Variable::wind_speed,
                            Variable::shortwave};

/// Reads the known series by hour, whether or not the hour lies inside it.
class KnownHours {
 public:
  explicit KnownHours(const HourlyWeather& known) : known_(known) {}

  /// Index of `hour` where everything needed is known there, else -1.
  long index(Hour hour) const {
    const long at = (hour - known_.start).count();
    if (at < 0 || at >= static_cast<long>(known_.size())) return -1;
    const auto i = static_cast<std::size_t>(at);
    const bool whole =
        std::all_of(needed.begin(), needed.end(), [&](Variable v) { return known_[v].known(i); });
    return whole ? at : -1;
  }

  long last_known_before(Hour hour) const {
    for (long at = std::min((hour - known_.start).count(), static_cast<long>(known_.size())) - 1; at >= 0;
         --at) {
      if (index(known_.start + std::chrono::hours(at)) >= 0) return at;
    }
    return -1;
  }

 private:
  const HourlyWeather& known_;
};

/// The same hour of the nearest day on either side, up to a year away.
long neighbouring_day(const KnownHours& known, Hour hour) {
  for (int days = 1; days <= 366; ++days) {
    for (const int sign : {-1, 1}) {
      const long at = known.index(hour + std::chrono::hours(24 * days * sign));
      if (at >= 0) return at;
    }
  }
  return -1;
}

/// The last known week again: the same hour, whole weeks back from the last hour known (whole days where the
/// record is shorter).
long last_week(const KnownHours& known, Hour hour, Hour last_known) {
  for (const int period_h : {168, 24}) {
    const long back = ((hour - last_known).count() + period_h - 1) / period_h * period_h;
    const long at = known.index(hour - std::chrono::hours(back));
    if (at >= 0) return at;
  }
  return neighbouring_day(known, hour);
}

/// Offsets to the same calendar hour of earlier years for which the whole stretch [from, to) is known.
std::vector<long> year_offsets(const KnownHours& known, Hour from, Hour to) {
  std::vector<long> offsets;
  const auto day = std::chrono::floor<std::chrono::days>(from);
  const std::chrono::year_month_day date{day};
  for (int years = 1; years <= 40; ++years) {
    std::chrono::year_month_day past = date - std::chrono::years(years);
    if (!past.ok())
      past = std::chrono::year_month_day_last{past.year(), std::chrono::month_day_last{past.month()}};
    const long offset = (std::chrono::sys_days{past} - std::chrono::sys_days{day}).count() * 24;
    bool whole = true;
    for (Hour hour = from; whole && hour < to; hour += std::chrono::hours(1)) {
      whole = known.index(hour + std::chrono::hours(offset)) >= 0;
    }
    if (whole) offsets.push_back(offset);
  }
  return offsets;
}

void copy_hour(const HourlyWeather& from, std::size_t at, HourlyWeather& to, std::size_t index,
               bool mark_filled) {
  for (std::size_t v = 0; v < variable_count; ++v) {
    const auto& source = from.columns[v];
    auto& target = to.columns[v];
    if (mark_filled && target.known(index)) continue;
    target.value[index] = source.value[at];
    target.source[index] = source.source[at];
    target.origin[index] = mark_filled && source.known(at) ? Origin::filled : source.origin[at];
  }
}

HourlyWeather empty_series(const HourlyWeather& like, Hour begin, Hour end) {
  HourlyWeather series;
  series.start = begin;
  series.sources = like.sources;
  const auto hours = static_cast<std::size_t>((end - begin).count());
  for (auto& column : series.columns) {
    column.value.assign(hours, unknown);
    column.origin.assign(hours, Origin::missing);
    column.source.assign(hours, 0);
  }
  series.forecast_lead_h.assign(hours, 0.0F);
  return series;
}

void note_gap(Outlook& outlook, Hour hour, StandIn stand_in) {
  if (!outlook.gaps.empty() && outlook.gaps.back().to == hour && outlook.gaps.back().filled_by == stand_in) {
    outlook.gaps.back().to = hour + std::chrono::hours(1);
  } else {
    outlook.gaps.push_back({hour, hour + std::chrono::hours(1), stand_in});
  }
}

/// Where each hour that is not known is taken from.
class Completion {
 public:
  Completion(const HourlyWeather& known, const KnownHours& hours, const std::vector<long>& year_offsets_h,
             Hour now, Hour first_unknown, Hour last_known)
      : known_(known),
        hours_(hours),
        year_offsets_h_(year_offsets_h),
        now_(now),
        first_unknown_(first_unknown),
        last_known_(last_known) {}

  /// Index of `hour` in the known series, known in part or not; -1 outside.
  long inside(Hour hour) const {
    const long at = (hour - known_.start).count();
    return at >= 0 && at < static_cast<long>(known_.size()) ? at : -1;
  }

  /// Days ahead of the making of the forecast, or of now (of the last hour known where that lies before now):
  /// what stands in beyond a forecast is no surer than the forecast was.
  double lead_days(Hour hour) const {
    if (hour < now_) return 0;
    const bool known = hours_.index(hour) >= 0;
    const float made_h = known ? known_.forecast_lead_h[static_cast<std::size_t>(inside(hour))] : 0;
    if (made_h > 0) return static_cast<double>(made_h) / 24.0;
    const Hour last_measured = std::min(known ? now_ : last_known_, now_ - std::chrono::hours(1));
    return static_cast<double>((hour - last_measured).count()) / 24.0;
  }

  struct From {
    StandIn stand_in;
    long index;
  };
  From stand_in(Hour hour) const {
    const long nearest = (last_known_ - known_.start).count();
    const auto or_nearest = [&](long at) { return at >= 0 ? at : nearest; };
    if (hour < first_unknown_)
      return {StandIn::neighbouring_days, or_nearest(neighbouring_day(hours_, hour))};
    if (year_offsets_h_.empty())
      return {StandIn::last_week, or_nearest(last_week(hours_, hour, last_known_))};
    return {StandIn::past_years, hours_.index(hour + std::chrono::hours(year_offsets_h_.front()))};
  }

 private:
  const HourlyWeather& known_;
  const KnownHours& hours_;
  const std::vector<long>& year_offsets_h_;
  Hour now_, first_unknown_, last_known_;
};

/// The hours ahead as the year `offset_h` away had them; hours that are known stay as they are.
WeatherArrays year_ahead(const HourlyWeather& known, HourlyWeather complete, std::size_t now,
                         Hour first_unknown, long offset_h) {
  for (std::size_t i = now; i < complete.size(); ++i) {
    const Hour hour = complete.hour(i);
    if (hour < first_unknown) continue;
    const auto from = static_cast<std::size_t>((hour - known.start).count() + offset_h);
    for (const Variable v : needed) complete[v].value[i] = known[v].value[from];
  }
  return one_course(complete, now, complete.size());
}

/// Puts the means of `climate` into the hour where nothing is known of it.
void put_climate(const MonthlyClimate& climate, HourlyWeather& weather, std::size_t index) {
  const Hour hour = weather.hour(index);
  const WeatherArrays means = climate.expected(hour, hour + std::chrono::hours(1));
  const auto put = [&](Variable variable, double value) {
    if (weather[variable].known(index) || std::isnan(value)) return;
    weather[variable].value[index] = value;
    weather[variable].origin[index] = Origin::filled;
  };
  const double air_c = means.air_c(0, 0);
  put(Variable::air_temperature, air_c);
  put(Variable::relative_humidity,
      std::min(100.0, 100 * means.vapour_kpa(0, 0) / raw::saturation_vapour_pressure_kpa(air_c)));
  put(Variable::wind_speed, means.wind_m_s(0, 0));
  put(Variable::shortwave, means.global_w_m2(0, 0));
  put(Variable::precipitation, climate.rain_mm(hour));
}

void note_borrowed(Outlook& outlook, const MonthlyClimate& climate, Hour hour) {
  const std::chrono::month month =
      std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(hour)).month();
  if (climate.of(month).is_borrowed &&
      std::ranges::find(outlook.borrowed_months, month) == outlook.borrowed_months.end())
    outlook.borrowed_months.push_back(month);
}

bool knows_all(const HourlyWeather& course, Hour hour) {
  return KnownHours(course).index(hour) >= 0;
}

/// Hours ahead that are of the courses' forecast and that every course knows.
std::vector<bool> hours_of_courses(const HourlyWeather& known, const Outlook& outlook,
                                   const WeatherCourses& courses) {
  const auto& air = known[Variable::air_temperature];
  std::vector<bool> theirs(outlook.weather.size());
  for (std::size_t i = outlook.now; i < theirs.size(); ++i) {
    const Hour hour = outlook.weather.hour(i);
    const long at = KnownHours(known).index(hour);
    if (at < 0 || air.source[static_cast<std::size_t>(at)] != courses.source) continue;
    theirs[i] = std::ranges::all_of(courses.courses,
                                    [&](const HourlyWeather& course) { return knows_all(course, hour); });
  }
  return theirs;
}

WeatherArrays course_ahead(const HourlyWeather& course, HourlyWeather complete,
                           const std::vector<bool>& theirs, std::size_t now) {
  for (std::size_t i = now; i < complete.size(); ++i) {
    if (!theirs[i]) continue;
    const auto from = static_cast<std::size_t>((complete.hour(i) - course.start).count());
    for (const Variable v : needed) complete[v].value[i] = course[v].value[from];
  }
  return one_course(complete, now, complete.size());
}

void add_courses(const HourlyWeather& known, const WeatherCourses& courses, Outlook& outlook) {
  if (courses.courses.empty()) return;
  std::vector<bool> theirs = hours_of_courses(known, outlook, courses);
  if (std::ranges::find(theirs, true) == theirs.end()) return;
  for (const HourlyWeather& course : courses.courses)
    outlook.courses_ahead.push_back(course_ahead(course, outlook.weather, theirs, outlook.now));
  outlook.from_courses = std::move(theirs);
}

}  // namespace

std::string_view stand_in_name(StandIn stand_in) {
  constexpr std::array<std::string_view, 5> names{"none", "neighbouring-days", "past-years",
                                                  "monthly-climate", "last-week"};
  return names[static_cast<std::size_t>(stand_in)];
}

Outlook complete_weather(const HourlyWeather& known, Hour begin, Hour now, Hour end,
                         const WeatherCourses& courses, const MonthlyClimate* climate) {
  const KnownHours hours(known);
  const long last = hours.last_known_before(end);
  if (last < 0) {
    throw RangeError("no hour with temperature, humidity, wind and radiation is known",
                     "a weather source that covers the days since grafting");
  }
  Outlook outlook;
  outlook.weather = empty_series(known, begin, end);
  outlook.now = static_cast<std::size_t>((now - begin).count());
  outlook.lead_days.assign(outlook.weather.size(), 0.0);
  outlook.stand_in.assign(outlook.weather.size(), StandIn::none);
  const Hour last_known = known.start + std::chrono::hours(last);
  const Hour first_unknown = std::max(now, last_known + std::chrono::hours(1));
  if (first_unknown < end) outlook.year_offsets_h = year_offsets(hours, first_unknown, end);

  const Completion completion(known, hours, outlook.year_offsets_h, now, first_unknown, last_known);
  for (std::size_t i = 0; i < outlook.weather.size(); ++i) {
    const Hour hour = outlook.weather.hour(i);
    outlook.lead_days[i] = completion.lead_days(hour);
    if (const long at = completion.inside(hour); at >= 0) {
      // What is known of the hour (rain, say) stays even where the rest is stood in for.
      copy_hour(known, static_cast<std::size_t>(at), outlook.weather, i, false);
    }
    if (hours.index(hour) >= 0) continue;
    if (climate != nullptr && hour >= first_unknown && outlook.year_offsets_h.empty() &&
        climate->knows(hour)) {
      put_climate(*climate, outlook.weather, i);
      outlook.stand_in[i] = StandIn::monthly_climate;
      note_gap(outlook, hour, StandIn::monthly_climate);
      note_borrowed(outlook, *climate, hour);
      continue;
    }
    const auto [stand_in, from] = completion.stand_in(hour);
    copy_hour(known, static_cast<std::size_t>(from), outlook.weather, i, true);
    outlook.stand_in[i] = stand_in;
    note_gap(outlook, hour, stand_in);
  }
  for (const long offset : outlook.year_offsets_h) {
    outlook.years_ahead.push_back(year_ahead(known, outlook.weather, outlook.now, first_unknown, offset));
  }
  add_courses(known, courses, outlook);
  return outlook;
}

}  // namespace graftcast
