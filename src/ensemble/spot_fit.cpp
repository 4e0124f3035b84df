#include "ensemble/spot_fit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "spot_search.hpp"

namespace graftcast {

namespace {

/// The wind share by two anemometers: least squares through the origin.
FittedShare wind_share_of(const PairedHours& pairs) {
  const auto n = static_cast<Eigen::Index>(pairs.wind_open.size());
  const Eigen::Map<const Eigen::ArrayXd> open(pairs.wind_open.data(), n), spot(pairs.wind_spot.data(), n);
  const double squares = open.square().sum();
  FittedShare wind;
  if (squares <= 0) return wind;
  wind.value = std::clamp((open * spot).sum() / squares, 0.0, 1.0);
  const Eigen::ArrayXd left = spot - wind.value * open;
  std::vector<Eigen::Index> places(static_cast<std::size_t>(n));
  for (Eigen::Index i = 0; i < n; ++i) places[static_cast<std::size_t>(i)] = i;
  const double independent =
      effective_number(static_cast<double>(n), correlation_from_hour_to_hour(left, places));
  wind.standard_error =
      std::sqrt(left.square().mean() / squares * static_cast<double>(n) / std::max(1.0, independent));
  return wind;
}

/// Puts search, errors and what they tell together.
class SpotStudy {
 public:
  SpotStudy(const PairedHours& pairs, const Spot& spot, const SpotSensor& sensor, const Models& models)
      : pairs_(pairs),
        spot_(spot),
        constants_(models.spots),
        least_hours_(static_cast<std::size_t>(models.spots.least_hours)),
        search_(pairs, spot, sensor, models) {}

  SpotFit fitted() {
    count();
    const Unknowns3 given(spot_.sun_share, spot_.wind_share, 0);
    fit_.rmse_before_k = std::sqrt(search_.residuals(given).square().mean());
    fit_wind(given);
    put_errors();
    judge_sun();
    return fit_;
  }

 private:
  void count() {
    fit_.hours = pairs_.used.size();
    fit_.wind_hours = pairs_.wind_open.size();
    for (const Eigen::Index hour : pairs_.used) {
      const double light = pairs_.ambient.global_w_m2(0, hour);
      fit_.sunny_hours += light >= constants_.sunny_w_m2 ? 1 : 0;
      fit_.dark_hours += light <= 0 ? 1 : 0;
    }
    fit_.light_is_measured = 2 * pairs_.light_measured >= pairs_.used.size();
  }

  bool has_sun() const { return fit_.sunny_hours >= least_hours_; }

  void fit_wind(const Unknowns3& given) {
    if (fit_.wind_hours >= least_hours_) {
      fit_.wind = wind_share_of(pairs_);
      if (!(fit_.wind.standard_error <= constants_.told_wind_se))
        fit_.wind.doubt = ShareDoubt::anemometers_disagree;
    } else {
      fit_wind_by_warmth(given);
    }
    if (!fit_.wind.is_told()) {
      hold_wind();
    } else if (fit_.wind_hours >= least_hours_) {
      search_.search({given[sun_at], fit_.wind.value, 0}, {true, false, true});
    }
  }

  /// From three starts, for the balance bends where the air is nearly still.
  void fit_wind_by_warmth(const Unknowns3& given) {
    Unknowns3 best = given;
    double least = std::numeric_limits<double>::infinity();
    for (const double wind : {given[wind_at], 0.25, 0.75}) {
      search_.search({given[sun_at], wind, 0}, {true, true, true});
      if (search_.square_sum() >= least) continue;
      best = search_.found();
      least = search_.square_sum();
    }
    search_.search(best, {true, true, true});
    put_correlation();
    const Eigen::Matrix3d covariance = search_.covariance(fit_.effective_hours);
    fit_.wind.value = search_.found()[wind_at];
    fit_.wind.standard_error = widened(wind_at, error_of(covariance, wind_at), true);
    const double scale = std::sqrt(covariance(sun_at, sun_at) * covariance(wind_at, wind_at));
    fit_.correlation = scale > 0 ? covariance(sun_at, wind_at) / scale : 0;
    fit_.wind.doubt = doubt_of_wind();
  }

  std::optional<ShareDoubt> doubt_of_wind() const {
    if (2 * pairs_.wind_measured < pairs_.used.size()) return ShareDoubt::no_wind_measured;
    if (!has_sun()) return ShareDoubt::no_sun;
    if (std::isnan(fit_.wind.standard_error)) return ShareDoubt::end_of_range;
    if (fit_.wind.standard_error > constants_.told_wind_se) return ShareDoubt::little_sun_or_even_wind;
    return std::nullopt;
  }

  void hold_wind() {
    fit_.wind.value = spot_.wind_share;
    fit_.wind.standard_error = std::numeric_limits<double>::quiet_NaN();
    fit_.correlation = 0;
    search_.search({spot_.sun_share, spot_.wind_share, 0}, {true, false, true});
  }

  void put_correlation() {
    fit_.autocorrelation = correlation_from_hour_to_hour(search_.left(), pairs_.used);
    fit_.effective_hours = effective_number(static_cast<double>(fit_.hours), fit_.autocorrelation);
  }

  static double error_of(const Eigen::Matrix3d& covariance, Eigen::Index which) {
    const double variance = covariance(which, which);
    return variance > 0 ? std::sqrt(variance) : std::numeric_limits<double>::quiet_NaN();
  }

  /// The Jacobian's error, or more where the squares rise less than it says two errors away: the balance
  /// bends, most of all where the air is nearly still.
  double widened(Eigen::Index which, double error, bool is_wind_free) const {
    if (std::isnan(error)) return error;
    const double unit = search_.square_sum() / std::max(1.0, fit_.effective_hours);
    double widest = error;
    for (const double side : {-2.0, 2.0}) {
      Unknowns3 away = search_.found();
      away[which] = std::clamp(away[which] + side * error, 0.0, 1.0);
      const double distance = std::abs(away[which] - search_.found()[which]);
      SpotSearch beside = search_;
      beside.search(away, {which != sun_at, which != wind_at && is_wind_free, true});
      const double rise = beside.square_sum() - search_.square_sum();
      if (distance > error && rise > 0) widest = std::max(widest, distance / std::sqrt(rise / unit));
    }
    return widest;
  }

  void put_errors() {
    put_correlation();
    const Eigen::Matrix3d covariance = search_.covariance(fit_.effective_hours);
    fit_.sun.value = search_.found()[sun_at];
    fit_.sensor_offset_k = search_.found()[offset_at];
    fit_.rmse_after_k = std::sqrt(search_.left().square().mean());
    const bool is_wind_free = fit_.wind.is_told() && fit_.wind_hours < least_hours_;
    fit_.sun.standard_error = widened(sun_at, error_of(covariance, sun_at), is_wind_free);
    if (is_wind_free || std::isnan(fit_.sun.standard_error)) return;
    const double wind_error = fit_.wind.is_told() ? fit_.wind.standard_error : constants_.guessed_wind_sd;
    fit_.sun.standard_error = std::hypot(fit_.sun.standard_error, search_.sun_by_wind() * wind_error);
  }

  void judge_sun() {
    fit_.least_sunny_hours = least_hours_;
    if (!has_sun()) {
      fit_.sun.doubt = ShareDoubt::few_sunny_hours;
    } else if (fit_.sun.standard_error > constants_.told_sun_se) {
      fit_.sun.doubt = ShareDoubt::wide_error;
    }
  }

  const PairedHours& pairs_;
  const Spot& spot_;
  const SpotFitConstants& constants_;
  const std::size_t least_hours_;
  SpotSearch search_;
  SpotFit fit_;
};

}  // namespace

Eigen::ArrayXd sensor_temperatures_c(const Ambient& ambient, const Spot& spot, const SpotSensor& sensor,
                                     const Models& models) {
  Exposure exposure;
  exposure.spot = spot;
  exposure.diameter_m = sensor.diameter_m;
  exposure.absorptance = sensor.absorptance;
  return scion_climate(ambient, exposure, models).tissue_c.row(0).cast<double>().transpose();
}

SpotFit fit_spot(const HourlyWeather& open, const HourlyWeather& at_spot, const Location& location,
                 const Spot& spot, const SpotSensor& sensor, const Models& models) {
  if (spot.climate) {
    throw RangeError("the spot has a climate of its own, which no sun or wind reaches",
                     "learn the shares of a spot in the open");
  }
  const PairedHours pairs = paired_hours(open, at_spot, location, models);
  const auto needed = static_cast<std::size_t>(models.spots.least_hours);
  if (pairs.used.size() < needed) {
    throw RangeError(
        fmt::format("the log and the site's weather share {} measured hours", pairs.used.size()),
        fmt::format(
            "at least {} hours in which the site's own log has temperature, humidity, wind and radiation",
            needed));
  }
  return SpotStudy(pairs, spot, sensor, models).fitted();
}

}  // namespace graftcast
