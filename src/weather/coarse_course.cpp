#include "coarse_course.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/sun.hpp"

namespace graftcast {

namespace {

constexpr CourseOfDay unit_range{0, 1, 1, 0, 0};

long day_number(Instant at, std::chrono::seconds solar_offset) {
  return std::chrono::floor<std::chrono::days>(at + solar_offset).time_since_epoch().count();
}

double hours_from(Instant from, Instant to) {
  return static_cast<double>((to - from).count()) / 3600.0;
}

/// Sums of a weighted regression of temperature on time and on the day's curve, about their means.
struct Regression {
  double weight = 0, hours = 0, curve = 0, value = 0;
  double hours2 = 0, hours_curve = 0, curve2 = 0, hours_value = 0, curve_value = 0;

  void add(double w, double x, double s, double y) {
    weight += w;
    hours += w * x;
    curve += w * s;
    value += w * y;
    hours2 += w * x * x;
    hours_curve += w * x * s;
    curve2 += w * s * s;
    hours_value += w * x * y;
    curve_value += w * s * y;
  }
  /// Coefficient of the curve. The trend is held back a little, so that three readings do not make one.
  double range() const {
    constexpr double hold = 0.05;
    const double xx = hours2 - hours * hours / weight + hold;
    const double xs = hours_curve - hours * curve / weight;
    const double ss = curve2 - curve * curve / weight;
    const double xy = hours_value - hours * value / weight;
    const double sy = curve_value - curve * value / weight;
    const double determinant = xx * ss - xs * xs;
    return determinant > 1e-6 ? (xx * sy - xs * xy) / determinant : 0;
  }
};

/// What is added to the straight line: the day's own bend, or an arch where the day has none that way.
std::vector<double> bend_towards(const std::vector<double>& day_bend, double sign) {
  constexpr double least_bend = 0.05;
  const bool bends =
      std::any_of(day_bend.begin(), day_bend.end(), [&](double each) { return sign * each > least_bend; });
  if (bends) return day_bend;
  std::vector<double> arch(day_bend.size());
  for (std::size_t i = 0; i < arch.size(); ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(arch.size() - 1);
    arch[i] = sign * 4 * share * (1 - share);
  }
  return arch;
}

/// Farthest value in the direction of `sign` with `scale` times the bend added.
double farthest(const std::vector<double>& course, const std::vector<double>& bend, double scale,
                double sign) {
  double most = -1e300;
  for (std::size_t i = 0; i < course.size(); ++i) most = std::max(most, sign * (course[i] + scale * bend[i]));
  return sign * most;
}

/// Bends the course so that its farthest value is the extreme given; its ends stay. An extreme that an end
/// already reaches asks for nothing.
void reach(std::vector<double>& course, const std::vector<double>& day_bend, double extreme_c, double sign) {
  constexpr double noticeable_k = 0.05;
  constexpr double greatest_range_k = 80;
  if (std::isnan(extreme_c)) return;
  const double end_c = sign * std::max(sign * course.front(), sign * course.back());
  if (sign * extreme_c <= sign * end_c + noticeable_k) return;
  const std::vector<double> bend = bend_towards(day_bend, sign);
  double low = 0;
  double high = greatest_range_k;
  for (int step = 0; step < 40; ++step) {  // The farthest value grows with the scale: halve until it is met.
    const double middle = (low + high) / 2;
    const bool reached = sign * farthest(course, bend, middle, sign) >= sign * extreme_c;
    (reached ? high : low) = middle;
  }
  for (std::size_t i = 0; i < course.size(); ++i) course[i] += high * bend[i];
}

}  // namespace

CoarseCourse::CoarseCourse(std::vector<CoarseReading> readings, std::vector<StretchExtremes> extremes,
                           const Location& location)
    : readings_(std::move(readings)),
      extremes_(std::move(extremes)),
      solar_offset_(std::lround(location.longitude_deg * 240)) {
  if (readings_.empty()) return;
  first_day_ = day_number(readings_.front().at, solar_offset_);
  const long last_day = day_number(readings_.back().at, solar_offset_);
  for (long day = first_day_; day <= last_day; ++day) {
    const Instant noon = Instant(std::chrono::days(day)) + std::chrono::hours(12) - solar_offset_;
    days_.emplace_back(unit_range, sun_times(noon, location.latitude_deg, location.longitude_deg));
  }
}

double CoarseCourse::unit_curve(Instant at) const {
  return days_[static_cast<std::size_t>(day_number(at, solar_offset_) - first_day_)].temperature_c(at);
}

double CoarseCourse::fitted_range_c(std::size_t k) const {
  constexpr double window_h = 18;
  constexpr double half_weight_h = 9;
  constexpr std::size_t least_readings = 4;
  const Instant middle = readings_[k].at + (readings_[k + 1].at - readings_[k].at) / 2;
  Regression fit;
  std::size_t first = k;
  while (first > 0 && hours_from(readings_[first - 1].at, middle) <= window_h) --first;
  std::size_t used = 0;
  for (std::size_t i = first; i < readings_.size() && hours_from(middle, readings_[i].at) <= window_h;
       ++i, ++used) {
    const double away_h = hours_from(middle, readings_[i].at);
    const double weight = 1 / (1 + (away_h / half_weight_h) * (away_h / half_weight_h));
    fit.add(weight, away_h / 24, unit_curve(readings_[i].at), readings_[i].value_c);
  }
  return used < least_readings ? 0 : std::clamp(fit.range(), 0.0, 40.0);
}

const StretchExtremes* CoarseCourse::extremes_of(const Span& span) const {
  const auto found =
      std::lower_bound(extremes_.begin(), extremes_.end(), span.begin,
                       [](const StretchExtremes& each, Instant at) { return each.span.begin < at; });
  return found != extremes_.end() && found->span == span ? &*found : nullptr;
}

std::vector<double> CoarseCourse::between(std::size_t k) const {
  const CoarseReading& from = readings_[k];
  const CoarseReading& to = readings_[k + 1];
  const auto steps = std::max<long>(1, std::chrono::ceil<std::chrono::minutes>(to.at - from.at).count() / 30);
  const double range_c = fitted_range_c(k);
  const double curve_from = unit_curve(from.at);
  const double curve_to = unit_curve(to.at);
  std::vector<double> course;
  std::vector<double> bend;
  for (long step = 0; step <= steps; ++step) {
    const double share = static_cast<double>(step) / static_cast<double>(steps);
    const Instant at = step == steps ? to.at : from.at + (to.at - from.at) * step / steps;
    bend.push_back(unit_curve(at) - (curve_from + share * (curve_to - curve_from)));
    course.push_back(from.value_c + share * (to.value_c - from.value_c) + range_c * bend.back());
  }
  const StretchExtremes* const extremes = extremes_of({from.at, to.at});
  if (extremes == nullptr) return course;
  const double top = std::max(from.value_c, to.value_c);
  const double bottom = std::min(from.value_c, to.value_c);
  // One bend reaches one extreme: the one that lies farther beyond the readings.
  const bool downwards =
      std::isnan(extremes->maximum_c) || bottom - extremes->minimum_c > extremes->maximum_c - top;
  reach(course, bend, downwards ? extremes->minimum_c : extremes->maximum_c, downwards ? -1 : 1);
  for (double& value : course) {
    if (!std::isnan(extremes->maximum_c)) value = std::min(value, std::max(extremes->maximum_c, top));
    if (!std::isnan(extremes->minimum_c)) value = std::max(value, std::min(extremes->minimum_c, bottom));
  }
  return course;
}

}  // namespace graftcast
