#include "ensemble/season_courses.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "graftcast/air.hpp"

namespace graftcast {

namespace {

constexpr std::array of_a_course{Variable::air_temperature, Variable::relative_humidity, Variable::wind_speed,
                                 Variable::shortwave};
constexpr int most_years = 40;

/// The hours of a log that were measured by then.
class MeasuredHours {
 public:
  MeasuredHours(const HourlyWeather& known, Hour until) : known_(known), until_(until) {}

  const HourlyWeather& series() const { return known_; }
  long index(Hour hour) const {
    const long at = (hour - known_.start).count();
    if (at < 0 || at >= static_cast<long>(known_.size()) || hour >= until_) return -1;
    const auto i = static_cast<std::size_t>(at);
    const bool whole = std::ranges::all_of(of_a_course, [&](Variable v) {
      return known_[v].known(i) && known_[v].origin[i] != Origin::forecast;
    });
    return whole ? at : -1;
  }

 private:
  const HourlyWeather& known_;
  Hour until_;
};

std::vector<long> seasons_known(const MeasuredHours& measured, Hour begin, double least_share) {
  std::vector<long> offsets;
  const auto day = std::chrono::floor<std::chrono::days>(begin);
  const std::chrono::year_month_day date{day};
  for (int years = 0; years <= most_years; ++years) {
    const std::chrono::year_month_day past = date - std::chrono::years(years);
    if (!past.ok()) continue;
    const long offset = (std::chrono::sys_days{past} - std::chrono::sys_days{day}).count() * 24;
    constexpr long hours_a_year = 8760;
    long known = 0;
    for (long i = 0; i < hours_a_year; ++i)
      known += measured.index(begin + std::chrono::hours(offset + i)) >= 0 ? 1 : 0;
    if (static_cast<double>(known) >= least_share * hours_a_year) offsets.push_back(offset);
  }
  return offsets;
}

WeatherArrays empty_course(Eigen::Index hours) {
  return {Eigen::ArrayXXd(1, hours), Eigen::ArrayXXd(1, hours), Eigen::ArrayXXd(1, hours),
          Eigen::ArrayXXd(1, hours)};
}

void copy_hour_of(const WeatherArrays& from, Eigen::Index at, WeatherArrays& to, Eigen::Index place) {
  to.air_c(0, place) = from.air_c(0, at);
  to.vapour_kpa(0, place) = from.vapour_kpa(0, at);
  to.wind_m_s(0, place) = from.wind_m_s(0, at);
  to.global_w_m2(0, place) = from.global_w_m2(0, at);
}

void copy_measured(const HourlyWeather& from, std::size_t at, WeatherArrays& to, Eigen::Index place) {
  to.air_c(0, place) = from[Variable::air_temperature].value[at];
  to.vapour_kpa(0, place) = raw::saturation_vapour_pressure_kpa(to.air_c(0, place)) *
                            from[Variable::relative_humidity].value[at] / 100.0;
  to.wind_m_s(0, place) = from[Variable::wind_speed].value[at];
  to.global_w_m2(0, place) = from[Variable::shortwave].value[at];
}

/// Builds the courses hour by hour.
class SeasonOfCourses {
 public:
  SeasonOfCourses(const MeasuredHours& measured, const MonthlyClimate& climate, Hour begin, Hour end,
                  const SeasonCourseSettings& settings)
      : measured_(measured), climate_(climate), settings_(settings), hours_((end - begin).count()) {
    put_empty(begin);
    result_.offsets_h = seasons_known(measured, begin, settings.least_share);
    const std::size_t courses = result_.offsets_h.empty() ? static_cast<std::size_t>(settings.drawn_courses)
                                                          : result_.offsets_h.size();
    for (std::size_t k = 0; k < courses; ++k) result_.courses.push_back(empty_course(hours_));
  }

  SeasonCourses built() {
    for (Eigen::Index i = 0; i < hours_; ++i) put_hour(i);
    if (std::ranges::find(result_.stand_in, StandIn::monthly_climate) != result_.stand_in.end()) draw();
    for (Eigen::Index i = 0; i < hours_; ++i) put_expected(static_cast<std::size_t>(i));
    return std::move(result_);
  }

 private:
  Hour hour_at(Eigen::Index i) const { return result_.begin() + std::chrono::hours(i); }

  void put_empty(Hour begin) {
    const auto hours = static_cast<std::size_t>(hours_);
    HourlyWeather& expected = result_.expected;
    expected.start = begin;
    expected.sources = measured_.series().sources;
    for (auto& column : expected.columns) {
      column.value.assign(hours, unknown);
      column.origin.assign(hours, Origin::missing);
      column.source.assign(hours, 0);
    }
    expected.forecast_lead_h.assign(hours, 0.0F);
    result_.stand_in.assign(hours, StandIn::none);
  }

  /// Index of the hour in the season that course `k` takes it from; -1 where none knows it.
  long source_of(std::size_t k, Eigen::Index i) const {
    const auto& offsets = result_.offsets_h;
    for (std::size_t n = 0; n < offsets.size(); ++n) {
      const long offset = offsets[(k + n) % offsets.size()];
      const long at = measured_.index(hour_at(i) + std::chrono::hours(offset));
      if (at >= 0) return at;
    }
    return -1;
  }

  void put_hour(Eigen::Index i) {
    auto& stand_in = result_.stand_in[static_cast<std::size_t>(i)];
    for (std::size_t k = 0; k < result_.offsets_h.size(); ++k) {
      const long at = source_of(k, i);
      if (at < 0) break;
      copy_measured(measured_.series(), static_cast<std::size_t>(at), result_.courses[k], i);
      stand_in = StandIn::past_years;
    }
    if (stand_in == StandIn::none && climate_.knows(hour_at(i))) {
      stand_in = StandIn::monthly_climate;
      note_borrowed_month(hour_at(i));
    }
  }

  void note_borrowed_month(Hour hour) {
    const std::chrono::month month =
        std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(hour)).month();
    auto& months = result_.borrowed_months;
    if (climate_.of(month).is_borrowed && std::ranges::find(months, month) == months.end())
      months.push_back(month);
  }

  void draw() {
    for (std::size_t k = 0; k < result_.courses.size(); ++k) {
      const WeatherArrays drawn = climate_.course(result_.begin(), result_.end(), settings_.seed, k);
      for (Eigen::Index i = 0; i < hours_; ++i) {
        if (result_.stand_in[static_cast<std::size_t>(i)] == StandIn::monthly_climate)
          copy_hour_of(drawn, i, result_.courses[k], i);
      }
    }
  }

  void put_expected(std::size_t i) {
    if (result_.stand_in[i] == StandIn::none) return;
    double air_c = 0, vapour = 0, wind = 0, light = 0;
    const double share = 1.0 / static_cast<double>(result_.courses.size());
    for (const WeatherArrays& course : result_.courses) {
      const auto at = static_cast<Eigen::Index>(i);
      air_c += share * course.air_c(0, at);
      vapour += share * course.vapour_kpa(0, at);
      wind += share * course.wind_m_s(0, at);
      light += share * course.global_w_m2(0, at);
    }
    put(Variable::air_temperature, i, air_c);
    put(Variable::relative_humidity, i,
        std::min(100.0, 100 * vapour / raw::saturation_vapour_pressure_kpa(air_c)));
    put(Variable::wind_speed, i, wind);
    put(Variable::shortwave, i, light);
    put(Variable::precipitation, i, mean_rain_mm(i));
  }

  void put(Variable variable, std::size_t i, double value) {
    if (std::isnan(value)) return;
    result_.expected[variable].value[i] = value;
    result_.expected[variable].origin[i] = Origin::filled;
  }

  double mean_rain_mm(std::size_t i) const {
    const Hour hour = hour_at(static_cast<Eigen::Index>(i));
    const auto& rain = measured_.series()[Variable::precipitation];
    double sum = 0, count = 0;
    for (const long offset : result_.offsets_h) {
      const long at = measured_.index(hour + std::chrono::hours(offset));
      if (at < 0 || !rain.known(static_cast<std::size_t>(at))) continue;
      sum += rain.value[static_cast<std::size_t>(at)];
      count += 1;
    }
    return count > 0 ? sum / count : climate_.rain_mm(hour);
  }

  const MeasuredHours& measured_;
  const MonthlyClimate& climate_;
  const SeasonCourseSettings& settings_;
  Eigen::Index hours_;
  SeasonCourses result_;
};

}  // namespace

bool SeasonCourses::knows(Hour from, Hour to) const {
  if (from < begin() || to > end()) return false;
  const auto first = stand_in.begin() + (from - begin()).count();
  return std::find(first, stand_in.begin() + (to - begin()).count(), StandIn::none) ==
         stand_in.begin() + (to - begin()).count();
}

SeasonCourses season_courses(const HourlyWeather& known, const MonthlyClimate& climate, Hour begin, Hour end,
                             const SeasonCourseSettings& settings) {
  const MeasuredHours measured(known, settings.until);
  return SeasonOfCourses(measured, climate, begin, end, settings).built();
}

Outlook outlook_of(const SeasonCourses& courses, Hour from, Hour to) {
  const auto first = (from - courses.begin()).count();
  const auto hours = (to - from).count();
  const auto cut = [&](auto& values) {
    values.erase(values.begin() + first + hours, values.end());
    values.erase(values.begin(), values.begin() + first);
  };
  Outlook outlook;
  outlook.weather = courses.expected;
  outlook.weather.start = from;
  for (auto& column : outlook.weather.columns) {
    cut(column.value);
    cut(column.origin);
    cut(column.source);
  }
  cut(outlook.weather.forecast_lead_h);
  outlook.stand_in = courses.stand_in;
  cut(outlook.stand_in);
  outlook.lead_days.assign(static_cast<std::size_t>(hours), 0.0);
  for (const WeatherArrays& course : courses.courses) {
    outlook.years_ahead.push_back(
        {course.air_c.middleCols(first, hours), course.vapour_kpa.middleCols(first, hours),
         course.wind_m_s.middleCols(first, hours), course.global_w_m2.middleCols(first, hours)});
  }
  return outlook;
}

}  // namespace graftcast
