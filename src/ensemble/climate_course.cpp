// Courses of weather drawn from a month's means and spreads.

#include <algorithm>
#include <array>
#include <cmath>

#include "ensemble/distributions.hpp"
#include "ensemble/monthly_climate.hpp"
#include "graftcast/air.hpp"

namespace graftcast {

namespace {

using Coupling = std::array<std::array<double, 3>, 3>;

// Richardson & Wright 1984 (WGEN, ARS-8), one pair of matrices for the whole of the United States; recalled,
// and seen as printed in later programs. Order: highest, lowest temperature, radiation.
constexpr Coupling serial{{{{0.567, 0.086, -0.002}}, {{0.253, 0.504, -0.050}}, {{-0.006, -0.039, 0.244}}}};
constexpr Coupling across{{{{0.781, 0, 0}}, {{0.328, 0.637, 0}}, {{0.238, -0.341, 0.873}}}};

constexpr std::size_t spin_up_days = 20;  // What a departure was then is forgotten (0.6^20).
constexpr double least_clearness = 0.05, least_range_k = 0.5;

/// Departures of one member's days.
class Departures {
 public:
  Departures(const ClimateCourseConstants& constants, std::uint64_t seed, std::uint64_t member)
      : constants_(constants), seed_(seed), member_(member) {}

  void start_from(const DayFigures& departures) {
    z_ = departures;
    dew_rest_ = rest(day_dew_point, constants_.dew_point_with_minimum);
    wind_rest_ = rest(day_ln_wind, constants_.wind_with_minimum);
  }

  void step() {
    ++day_;
    DayFigures error{};
    for (std::size_t k = 0; k < day_figures; ++k)
      error[k] = normal_quantile(random_uniform(seed_, Purpose::climate_course, member_, day_ * 8 + k));
    DayFigures next{};
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j) next[i] += serial[i][j] * z_[j] + across[i][j] * error[j];
    advance(dew_rest_, constants_.dew_point_persistence, error[day_dew_point]);
    advance(wind_rest_, constants_.wind_persistence, error[day_ln_wind]);
    next[day_dew_point] = joined(constants_.dew_point_with_minimum, next[day_minimum], dew_rest_);
    next[day_ln_wind] = joined(constants_.wind_with_minimum, next[day_minimum], wind_rest_);
    z_ = next;
  }

  const DayFigures& now() const { return z_; }

 private:
  static void advance(double& rest, double kept, double error) {
    rest = kept * rest + std::sqrt(1 - kept * kept) * error;
  }
  static double joined(double share, double with, double rest) {
    return share * with + std::sqrt(1 - share * share) * rest;
  }
  double rest(DayFigure figure, double share) const {
    return (z_[figure] - share * z_[day_minimum]) / std::sqrt(1 - share * share);
  }

  const ClimateCourseConstants& constants_;
  std::uint64_t seed_, member_;
  std::uint64_t day_ = 0;
  DayFigures z_{};
  double dew_rest_ = 0, wind_rest_ = 0;
};

std::size_t hour_of(const std::array<double, 24>& warmth, double level) {
  return static_cast<std::size_t>(std::ranges::find(warmth, level) - warmth.begin());
}

/// How much of the neighbouring day an hour has, so that one day runs into the next: a half at midnight,
/// nothing from the coldest to the warmest hour. Negative: of the day before.
double leaning(const MonthClimate& month, std::size_t hour) {
  const auto coldest = static_cast<double>(std::min<std::size_t>(hour_of(month.warmth, 0), 11));
  const auto warmest = static_cast<double>(std::clamp<std::size_t>(hour_of(month.warmth, 1), 12, 22));
  const double at = static_cast<double>(hour) + 0.5;
  if (at < coldest) return -0.5 * (coldest - at) / coldest;
  if (at > warmest + 1) return 0.5 * (at - warmest - 1) / (23 - warmest);
  return 0;
}

}  // namespace

DayFigures MonthlyClimate::figures(long day, const DayFigures& departures) const {
  const auto [mean, sd] = normal(day);
  DayFigures figures{};
  for (std::size_t k = 0; k < day_figures; ++k) figures[k] = mean[k] + sd[k] * departures[k];
  const double short_of = std::max(0.0, least_range_k - (figures[day_maximum] - figures[day_minimum]));
  figures[day_maximum] += short_of / 2;
  figures[day_minimum] -= short_of / 2;
  figures[day_clearness] = std::clamp(figures[day_clearness], least_clearness, 1.0);
  return figures;
}

std::vector<DayFigures> MonthlyClimate::drawn(long first_day, std::size_t days, std::uint64_t seed,
                                              std::uint64_t member) const {
  Departures departures(constants_, seed, member);
  const bool goes_on = last_day_ && (first_day == *last_day_ || first_day == *last_day_ + 1);
  if (goes_on) departures.start_from(last_departures_);
  for (std::size_t k = 0; !goes_on && k < spin_up_days; ++k) departures.step();
  std::vector<DayFigures> result;
  for (long day = first_day; day < first_day + static_cast<long>(days); ++day) {
    if (!goes_on || day > *last_day_) departures.step();
    result.push_back(figures(day, departures.now()));
  }
  return result;
}

WeatherArrays MonthlyClimate::hours_of(Hour begin, Hour end, const std::vector<DayFigures>& days) const {
  const auto count = static_cast<Eigen::Index>((end - begin).count());
  WeatherArrays course{Eigen::ArrayXXd(1, count), Eigen::ArrayXXd(1, count), Eigen::ArrayXXd(1, count),
                       Eigen::ArrayXXd(1, count)};
  const auto sun = sun_of_hours(location_, begin, static_cast<std::size_t>(count));
  const long first_day = solar_day(begin) - 1;  // `days` begin the day before and end the day after.
  for (Eigen::Index i = 0; i < count; ++i) {
    const Hour hour = begin + std::chrono::hours(i);
    const long day = solar_day(hour);
    const auto clock =
        static_cast<std::size_t>((hour + solar_offset_ - Hour(std::chrono::days(day))).count());
    const MonthClimate& month =
        of(std::chrono::year_month_day(std::chrono::sys_days(std::chrono::days(day))).month());
    const double lean = leaning(month, clock);
    const auto at = static_cast<std::size_t>(day - first_day);
    const DayFigures& own = days[at];
    const DayFigures& other = days[lean < 0 ? at - 1 : at + 1];
    const auto blended = [&](DayFigure figure) {
      return std::lerp(own[figure], other[figure], std::abs(lean));
    };
    const double low_c = blended(day_minimum);
    course.air_c(0, i) = low_c + month.warmth[clock] * (blended(day_maximum) - low_c);
    course.vapour_kpa(0, i) =
        raw::saturation_vapour_pressure_kpa(std::min(blended(day_dew_point), course.air_c(0, i)));
    course.wind_m_s(0, i) = month.wind[clock] * std::exp(blended(day_ln_wind));
    course.global_w_m2(0, i) = own[day_clearness] * sun[static_cast<std::size_t>(i)].clear_sky_w_m2;
  }
  return course;
}

WeatherArrays MonthlyClimate::expected(Hour begin, Hour end) const {
  std::vector<DayFigures> days;
  for (long day = solar_day(begin) - 1; day <= solar_day(end) + 1; ++day) days.push_back(figures(day, {}));
  return hours_of(begin, end, days);
}

WeatherArrays MonthlyClimate::course(Hour begin, Hour end, std::uint64_t seed, std::uint64_t member) const {
  const long first_day = solar_day(begin) - 1;
  const auto count = static_cast<std::size_t>(solar_day(end) + 2 - first_day);
  return hours_of(begin, end, drawn(first_day, count, seed, member));
}

}  // namespace graftcast
