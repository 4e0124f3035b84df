#pragma once
// The climate of a site as its own log tells it: means and spreads by month, and courses of weather drawn
// from them for days that neither a forecast nor past years tell of.

#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "parameters/models.hpp"
#include "plant/ambient.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

/// What a day is told by, in this order: highest and lowest temperature [degC], radiation over that of a
/// clear sky, dew point of the mean vapour pressure [degC], logarithm of the mean wind at 2 m [m/s].
inline constexpr std::size_t day_figures = 5;
using DayFigures = std::array<double, day_figures>;
enum DayFigure : std::size_t { day_maximum, day_minimum, day_clearness, day_dew_point, day_ln_wind };

/// One month of the year.
struct MonthClimate {
  std::size_t days = 0;      ///< Days of the log that it rests on; 0: not known.
  bool is_borrowed = false;  ///< Too few of its own: days of the months beside it are among them.
  DayFigures mean{}, sd{};
  double rain_mm_per_day = unknown;
  std::array<double, 24> warmth{};  ///< By solar hour: 0 at the coldest, 1 at the warmest hour.
  std::array<double, 24> wind{};    ///< By solar hour: over the mean of the day.
};

/// Means and spreads of the days of a log, and courses drawn from them.
///
/// The highest, the lowest temperature and the radiation of a day depart from their means as a first-order
/// autoregressive vector z(t) = A z(t-1) + B e(t) (Richardson 1981, Water Resour. Res. 17, 182), with the
/// matrices A and B of Richardson & Wright 1984 (ARS-8, US Dept. of Agriculture). Dew point and wind depart
/// with the lowest temperature, and the rest of them persists by the numbers of models/union.json. Means and
/// spreads run on straight lines between the middles of months. Rain is the month's mean, evenly: members
/// share it.
class MonthlyClimate {
 public:
  /// From the whole days of `known` that end by `until`; forecasts do not count.
  MonthlyClimate(const HourlyWeather& known, Hour until, const Location& location,
                 const ClimateCourseConstants& constants);

  /// Whether the month of `hour` has days enough, its own or its neighbours'.
  bool knows(Hour hour) const;
  const MonthClimate& of(std::chrono::month month) const { return months_[unsigned{month} - 1]; }
  /// Mean rain [mm] in the hour; NaN where the log has none.
  double rain_mm(Hour hour) const;

  /// The means themselves over [begin, end), one course; not to be used where `knows` is false.
  WeatherArrays expected(Hour begin, Hour end) const;
  /// A course of member `member`. It goes on from the departures of the log's last day where [begin, end)
  /// follows that. Equal arguments give equal courses.
  WeatherArrays course(Hour begin, Hour end, std::uint64_t seed, std::uint64_t member) const;

 private:
  long solar_day(Hour hour) const;
  DayFigures departures_of(long day, const DayFigures& figures) const;
  /// Means and spreads of a solar day.
  std::pair<DayFigures, DayFigures> normal(long day) const;
  DayFigures figures(long day, const DayFigures& departures) const;
  std::vector<DayFigures> drawn(long first_day, std::size_t days, std::uint64_t seed,
                                std::uint64_t member) const;
  WeatherArrays hours_of(Hour begin, Hour end, const std::vector<DayFigures>& days) const;

  Location location_;
  ClimateCourseConstants constants_;
  std::chrono::hours solar_offset_;
  std::array<MonthClimate, 12> months_;
  std::optional<long> last_day_;  ///< The log's last whole day.
  DayFigures last_departures_{};
};

}  // namespace graftcast
