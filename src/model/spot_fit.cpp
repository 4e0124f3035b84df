#include "graftcast/spot_fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <fmt/format.h>
#include <Eigen/Dense>

#include "graftcast/error.hpp"
#include "graftcast/outlook.hpp"

namespace graftcast {

namespace {

constexpr Eigen::Index sun_at = 0, wind_at = 1, offset_at = 2, unknowns = 3;
constexpr double share_step = 0.01;      // Of the differences that stand for the derivatives.
constexpr double share_accuracy = 1e-5;  // Below which a step ends the search.
constexpr int most_steps = 60;

using Unknowns3 = Eigen::Vector3d;

/// The hours that both logs know, and the open air around them.
struct PairedHours {
  Ambient ambient;
  std::vector<Eigen::Index> used;  ///< Hours of the ambient.
  Eigen::ArrayXd seen_c;           ///< Of the thermometer, one a used hour.
  std::vector<double> wind_open, wind_spot;
  std::size_t light_measured = 0, wind_measured = 0;
};

bool is_measured(const HourlyWeather& weather, Variable variable, std::size_t at) {
  return weather[variable].origin[at] == Origin::measured;
}

/// Good enough to compare with: not stood in for, nor made of a daily log.
bool is_of_the_hour(const HourlyWeather& weather, Variable variable, std::size_t at) {
  const Origin origin = weather[variable].origin[at];
  return origin == Origin::measured || origin == Origin::derived;
}

PairedHours paired(const HourlyWeather& open, const HourlyWeather& at_spot, const Location& location,
                   const Models& models) {
  PairedHours pairs;
  const Hour from = std::max(open.start, at_spot.start), to = std::min(open.end(), at_spot.end());
  if (from >= to) return pairs;
  const Outlook whole = complete_weather(open, from, to, to);
  pairs.ambient = ambient_of(location, whole.weather, 0, weather_lane(whole.weather, 0, whole.weather.size()),
                             sky_constants(models));
  std::vector<double> seen;
  for (Hour hour = from; hour < to; hour += std::chrono::hours(1)) {
    const auto a = static_cast<std::size_t>((hour - open.start).count());
    const auto b = static_cast<std::size_t>((hour - at_spot.start).count());
    const bool known = is_measured(open, Variable::air_temperature, a) &&
                       is_of_the_hour(open, Variable::relative_humidity, a) &&
                       is_of_the_hour(open, Variable::wind_speed, a) &&
                       is_of_the_hour(open, Variable::shortwave, a) &&
                       is_measured(at_spot, Variable::air_temperature, b);
    if (!known) continue;
    pairs.used.push_back((hour - from).count());
    seen.push_back(at_spot[Variable::air_temperature].value[b]);
    pairs.light_measured += is_measured(open, Variable::shortwave, a) ? 1 : 0;
    pairs.wind_measured += is_measured(open, Variable::wind_speed, a) ? 1 : 0;
    if (!is_measured(open, Variable::wind_speed, a) || !is_measured(at_spot, Variable::wind_speed, b))
      continue;
    pairs.wind_open.push_back(open[Variable::wind_speed].value[a]);
    pairs.wind_spot.push_back(at_spot[Variable::wind_speed].value[b]);
  }
  pairs.seen_c = Eigen::Map<const Eigen::ArrayXd>(seen.data(), static_cast<Eigen::Index>(seen.size()));
  return pairs;
}

/// Correlation of neighbours: of values whose places follow each other.
double correlation_from_hour_to_hour(const Eigen::ArrayXd& values, const std::vector<Eigen::Index>& places) {
  double together = 0, alone = 0;
  const double mean = values.mean();
  for (Eigen::Index i = 1; i < values.size(); ++i) {
    if (places[static_cast<std::size_t>(i)] != places[static_cast<std::size_t>(i) - 1] + 1) continue;
    together += (values[i] - mean) * (values[i - 1] - mean);
    alone += 0.5 * (std::pow(values[i] - mean, 2) + std::pow(values[i - 1] - mean, 2));
  }
  return alone > 0 ? std::clamp(together / alone, 0.0, 0.99) : 0.0;
}

double effective_number(double count, double correlation) {
  return count * (1 - correlation) / (1 + correlation);
}

/// The search for the shares.
class SpotSearch {
 public:
  SpotSearch(const PairedHours& pairs, const Spot& spot, const SpotSensor& sensor, const Models& models)
      : pairs_(pairs), spot_(spot), sensor_(sensor), models_(models) {}

  /// Least squares from `start` over those that are free.
  void search(const Unknowns3& start, const std::array<bool, unknowns>& free) {
    free_ = free;
    at_ = start;
    Eigen::ArrayXd left = residuals(at_);
    double damping = 1e-3;
    for (int step = 0; step < most_steps && damping < 1e9; ++step) {
      const Eigen::MatrixXd slopes = jacobian(at_);
      const Unknowns3 next = stepped(slopes, left, damping);
      const Eigen::ArrayXd next_left = residuals(next);
      const bool is_better = next_left.square().sum() <= left.square().sum();
      const double length = (next - at_).norm();
      damping *= is_better ? 0.2 : 5;
      if (!is_better) continue;
      at_ = next;
      left = next_left;
      if (length < share_accuracy) break;
    }
    left_ = left;
  }

  const Unknowns3& found() const { return at_; }
  const Eigen::ArrayXd& left() const { return left_; }
  double square_sum() const { return left_.square().sum(); }

  Eigen::ArrayXd residuals(const Unknowns3& at) const { return pairs_.seen_c - predicted(at); }

  /// Of those that are free and within their limits; others have rows and columns of zero.
  Eigen::Matrix3d covariance(double independent_hours) const {
    const Eigen::MatrixXd slopes = jacobian(at_);
    const std::vector<Eigen::Index> open = free_within(slopes, left_);
    const auto k = static_cast<Eigen::Index>(open.size());
    Eigen::MatrixXd part(slopes.rows(), k);
    for (Eigen::Index j = 0; j < k; ++j) part.col(j) = slopes.col(open[static_cast<std::size_t>(j)]);
    const double n = static_cast<double>(slopes.rows());
    const double variance = square_sum() / std::max(1.0, n - static_cast<double>(k));
    const Eigen::MatrixXd inverse =
        (part.transpose() * part).completeOrthogonalDecomposition().pseudoInverse() * variance * n /
        std::max(1.0, independent_hours);
    Eigen::Matrix3d covariance = Eigen::Matrix3d::Zero();
    for (Eigen::Index i = 0; i < k; ++i)
      for (Eigen::Index j = 0; j < k; ++j)
        covariance(open[static_cast<std::size_t>(i)], open[static_cast<std::size_t>(j)]) = inverse(i, j);
    return covariance;
  }

  /// How the sun share would answer to another wind share: d sun / d wind.
  double sun_by_wind() const {
    const Eigen::MatrixXd slopes = jacobian(at_, true);
    Eigen::MatrixXd part(slopes.rows(), 2);
    part.col(0) = slopes.col(sun_at);
    part.col(1) = slopes.col(offset_at);
    return -part.colPivHouseholderQr().solve(slopes.col(wind_at))[0];
  }

 private:
  Eigen::ArrayXd predicted(const Unknowns3& at) const {
    Spot spot = spot_;
    spot.sun_share = at[sun_at];
    spot.wind_share = at[wind_at];
    const Eigen::ArrayXd all = sensor_temperatures_c(pairs_.ambient, spot, sensor_, models_);
    Eigen::ArrayXd used(static_cast<Eigen::Index>(pairs_.used.size()));
    for (Eigen::Index i = 0; i < used.size(); ++i) used[i] = all[pairs_.used[static_cast<std::size_t>(i)]];
    return used + at[offset_at];
  }

  Eigen::MatrixXd jacobian(const Unknowns3& at, bool of_all = false) const {
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(pairs_.seen_c.size(), unknowns);
    slopes.col(offset_at).setOnes();
    for (const Eigen::Index j : {sun_at, wind_at}) {
      if (!free_[static_cast<std::size_t>(j)] && !of_all) continue;
      Unknowns3 low = at, high = at;
      low[j] = std::max(0.0, at[j] - share_step);
      high[j] = std::min(1.0, at[j] + share_step);
      slopes.col(j) = ((predicted(high) - predicted(low)) / (high[j] - low[j])).matrix();
    }
    return slopes;
  }

  /// Those that may move: not held, and not pressed against a limit.
  std::vector<Eigen::Index> free_within(const Eigen::MatrixXd& slopes, const Eigen::ArrayXd& left) const {
    std::vector<Eigen::Index> open;
    for (Eigen::Index j = 0; j < unknowns; ++j) {
      if (!free_[static_cast<std::size_t>(j)]) continue;
      const double pull = slopes.col(j).dot(left.matrix());
      const bool is_pressed = j != offset_at && ((at_[j] <= 0 && pull <= 0) || (at_[j] >= 1 && pull >= 0));
      if (!is_pressed) open.push_back(j);
    }
    return open;
  }

  Unknowns3 stepped(const Eigen::MatrixXd& slopes, const Eigen::ArrayXd& left, double damping) const {
    Unknowns3 next = at_;
    const std::vector<Eigen::Index> open = free_within(slopes, left);
    const auto k = static_cast<Eigen::Index>(open.size());
    Eigen::MatrixXd part(slopes.rows(), k);
    for (Eigen::Index j = 0; j < k; ++j) part.col(j) = slopes.col(open[static_cast<std::size_t>(j)]);
    Eigen::MatrixXd normal = part.transpose() * part;
    normal.diagonal() += damping * (normal.diagonal().array() + 1e-9).matrix();
    const Eigen::VectorXd move = normal.ldlt().solve(part.transpose() * left.matrix());
    for (Eigen::Index j = 0; j < k; ++j) {
      const Eigen::Index which = open[static_cast<std::size_t>(j)];
      next[which] += move[j];
      if (which != offset_at) next[which] = std::clamp(next[which], 0.0, 1.0);
    }
    return next;
  }

  const PairedHours& pairs_;
  const Spot& spot_;
  const SpotSensor& sensor_;
  const Models& models_;
  std::array<bool, unknowns> free_{true, true, true};
  Unknowns3 at_ = Unknowns3::Zero();
  Eigen::ArrayXd left_;
};

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
        constants_(spot_fit_constants(models)),
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

  bool has_sun() const { return fit_.sunny_hours >= constants_.least_hours; }

  void fit_wind(const Unknowns3& given) {
    if (fit_.wind_hours >= constants_.least_hours) {
      fit_.wind = wind_share_of(pairs_);
      fit_.wind.is_told = fit_.wind.standard_error <= constants_.told_wind_se;
      if (!fit_.wind.is_told) fit_.wind.why_not = "the two anemometers do not agree well enough";
    } else {
      fit_wind_by_warmth(given);
    }
    if (!fit_.wind.is_told)
      hold_wind();
    else if (fit_.wind_hours >= constants_.least_hours)
      search_.search({given[sun_at], fit_.wind.value, 0}, {true, false, true});
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
    fit_.wind.standard_error = error_of(covariance, wind_at);
    const double scale = std::sqrt(covariance(sun_at, sun_at) * covariance(wind_at, wind_at));
    fit_.correlation = scale > 0 ? covariance(sun_at, wind_at) / scale : 0;
    fit_.wind.why_not = why_no_wind();
    fit_.wind.is_told = fit_.wind.why_not.empty();
  }

  std::string why_no_wind() const {
    if (2 * pairs_.wind_measured < pairs_.used.size()) return "the site's weather has no wind of its own";
    if (!has_sun()) return "without sun the thermometer stays near the air, whatever the wind";
    if (std::isnan(fit_.wind.standard_error)) return "the best wind share lies at the end of its range";
    if (fit_.wind.standard_error > constants_.told_wind_se)
      return "too little sun falls on the thermometer, or the wind varies too little";
    return {};
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

  void put_errors() {
    put_correlation();
    const Eigen::Matrix3d covariance = search_.covariance(fit_.effective_hours);
    fit_.sun.value = search_.found()[sun_at];
    fit_.sensor_offset_k = search_.found()[offset_at];
    fit_.rmse_after_k = std::sqrt(search_.left().square().mean());
    fit_.sun.standard_error = error_of(covariance, sun_at);
    const bool is_wind_free = fit_.wind.is_told && fit_.wind_hours < constants_.least_hours;
    if (is_wind_free || std::isnan(fit_.sun.standard_error)) return;
    const double wind_error = fit_.wind.is_told ? fit_.wind.standard_error : constants_.told_wind_se;
    fit_.sun.standard_error = std::hypot(fit_.sun.standard_error, search_.sun_by_wind() * wind_error);
  }

  void judge_sun() {
    std::string& why = fit_.sun.why_not;
    if (!has_sun())
      why = fmt::format("only {} hours have sun in the open, {} are needed", fit_.sunny_hours,
                        constants_.least_hours);
    else if (fit_.sun.standard_error > constants_.told_sun_se)
      why = "its error is too large: a longer log, or a blacker thermometer, would tell";
    fit_.sun.is_told = why.empty();
  }

  const PairedHours& pairs_;
  const Spot& spot_;
  SpotFitConstants constants_;
  SpotSearch search_;
  SpotFit fit_;
};

}  // namespace

SpotFitConstants spot_fit_constants(const Models& models) {
  const Entry& c = models.shared.at("spots");
  return {c.value("black_absorptance"), c.value("sensor_diameter_mm") * 1e-3,
          c.value("sunny_w_m2"),        static_cast<std::size_t>(c.value("least_hours")),
          c.value("told_sun_se"),       c.value("told_wind_se")};
}

Eigen::ArrayXd sensor_temperatures_c(const Ambient& ambient, const Spot& spot, const SpotSensor& sensor,
                                     const Models& models) {
  Exposure exposure;
  exposure.spot = spot;
  exposure.diameter_m = sensor.diameter_m;
  exposure.absorptance = sensor.absorptance;
  return scion_climate(ambient, exposure, climate_constants(models), rate_constants(models))
      .tissue_c.row(0)
      .transpose();
}

SpotFit fit_spot(const HourlyWeather& open, const HourlyWeather& at_spot, const Location& location,
                 const Spot& spot, const SpotSensor& sensor, const Models& models) {
  if (spot.climate)
    throw RangeError("the spot has a climate of its own, which no sun or wind reaches",
                     "learn the shares of a spot in the open");
  const PairedHours pairs = paired(open, at_spot, location, models);
  const std::size_t needed = spot_fit_constants(models).least_hours;
  if (pairs.used.size() < needed)
    throw RangeError(
        fmt::format("the log and the site's weather share {} measured hours", pairs.used.size()),
        fmt::format(
            "at least {} hours in which the site's own log has temperature, humidity, wind and radiation",
            needed));
  return SpotStudy(pairs, spot, sensor, models).fitted();
}

}  // namespace graftcast
