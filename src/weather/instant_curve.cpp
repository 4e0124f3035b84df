#include "instant_curve.hpp"

#include <algorithm>
#include <cmath>

namespace graftcast {

namespace {

struct Knot {
  Instant at;
  double value;
  double slope_per_s = 0;
};

std::vector<Knot> known_knots(const std::vector<Span>& spans, const Channel& channel) {
  std::vector<Knot> knots;
  knots.reserve(spans.size());
  for (std::size_t k = 0; k < spans.size(); ++k) {
    if (!std::isnan(channel.value[k])) knots.push_back({spans[k].begin, channel.value[k]});
  }
  return knots;
}

double length_s(const Knot& from, const Knot& to) {
  return static_cast<double>((to.at - from.at).count());
}
double chord(const Knot& from, const Knot& to) {
  return (to.value - from.value) / length_s(from, to);
}

/// Slopes of the monotone cubic: weighted harmonic mean of the two chords, 0 at a turning point (Fritsch &
/// Butland 1984, SIAM J. Sci. Stat. Comput. 5, 300, for the scheme of Fritsch & Carlson 1980).
void set_slopes(std::vector<Knot>& knots) {
  for (std::size_t k = 1; k + 1 < knots.size(); ++k) {
    const double before = chord(knots[k - 1], knots[k]);
    const double after = chord(knots[k], knots[k + 1]);
    if (before * after <= 0) continue;
    const double h0 = length_s(knots[k - 1], knots[k]);
    const double h1 = length_s(knots[k], knots[k + 1]);
    knots[k].slope_per_s = 3 * (h0 + h1) / ((2 * h1 + h0) / before + (h1 + 2 * h0) / after);
  }
}

double hermite(const Knot& from, const Knot& to, Instant at) {
  const double h = length_s(from, to);
  const double x = static_cast<double>((at - from.at).count()) / h;
  const double y = 1 - x;
  return from.value * (1 + 2 * x) * y * y + to.value * x * x * (3 - 2 * x) +
         h * x * y * (from.slope_per_s * y - to.slope_per_s * x);
}

double straight(const Knot& from, const Knot& to, Instant at) {
  return from.value + chord(from, to) * static_cast<double>((at - from.at).count());
}

/// Hours between two knots without one in them are known by the curve alone.
void mark_between(HourSums& sums, std::size_t hour, const Span& part, Instant from, Instant to) {
  const bool holds_end = part.end == to && std::chrono::floor<std::chrono::hours>(to) != to;
  if (part.begin != from && !holds_end) sums.mark_spread(hour);
}

/// Value at `at` of a course in equal steps from `from` to `to`.
double along(const std::vector<double>& course, Instant from, Instant to, Instant at) {
  const double step = static_cast<double>((at - from).count()) / static_cast<double>((to - from).count()) *
                      static_cast<double>(course.size() - 1);
  const auto before = std::min(static_cast<std::size_t>(step), course.size() - 2);
  const double share = step - static_cast<double>(before);
  return course[before] + share * (course[before + 1] - course[before]);
}

void add_course(HourSums& sums, const std::vector<double>& course, Instant from, Instant to) {
  sums.each_hour({from, to}, [&](std::size_t hour, const Span& part) {
    const Instant middle = part.begin + (part.end - part.begin) / 2;
    sums.add(hour, part,
             (along(course, from, to, part.begin) + 4 * along(course, from, to, middle) +
              along(course, from, to, part.end)) /
                 6);
    mark_between(sums, hour, part, from, to);
  });
}

void add_piece(HourSums& sums, const Knot& from, const Knot& to) {
  const bool far = to.at - from.at > std::chrono::hours(1);
  const auto value = [&](Instant at) { return far ? hermite(from, to, at) : straight(from, to, at); };
  sums.each_hour({from.at, to.at}, [&](std::size_t hour, const Span& part) {
    const Instant middle = part.begin + (part.end - part.begin) / 2;
    // Simpson's rule: exact for a cubic.
    sums.add(hour, part, (value(part.begin) + 4 * value(middle) + value(part.end)) / 6);
    if (far) mark_between(sums, hour, part, from.at, to.at);
  });
}

}  // namespace

std::chrono::seconds usual_distance(const std::vector<Span>& spans) {
  std::vector<std::chrono::seconds> distances;
  for (std::size_t k = 1; k < spans.size(); ++k) distances.push_back(spans[k].begin - spans[k - 1].begin);
  if (distances.empty()) return std::chrono::hours(1);
  const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(distances.size() / 2);
  std::nth_element(distances.begin(), middle, distances.end());
  return *middle;
}

namespace {

/// Calls `join(k)` for each knot that is joined to the next; the others are held for an hour at most.
template <class Join>
void join_knots(HourSums& sums, const std::vector<Span>& spans, const std::vector<Knot>& knots, Join join) {
  const std::chrono::seconds usual = usual_distance(spans);
  const std::chrono::seconds farthest = std::clamp(usual, std::chrono::seconds(std::chrono::minutes(90)),
                                                   std::chrono::seconds(std::chrono::hours(12)));
  const std::chrono::seconds tail = std::min(usual, std::chrono::seconds(std::chrono::hours(1)));
  for (std::size_t k = 0; k < knots.size(); ++k) {
    if (k + 1 < knots.size() && knots[k + 1].at - knots[k].at <= farthest) {
      join(k);
    } else {
      const Knot held{knots[k].at + tail, knots[k].value};
      add_piece(sums, {knots[k].at, knots[k].value}, held);
    }
  }
}

}  // namespace

void add_instants(HourSums& sums, const std::vector<Span>& spans, const Channel& channel) {
  std::vector<Knot> knots = known_knots(spans, channel);
  set_slopes(knots);
  join_knots(sums, spans, knots, [&](std::size_t k) { add_piece(sums, knots[k], knots[k + 1]); });
}

bool is_coarse(const std::vector<Span>& spans) {
  return usual_distance(spans) > std::chrono::hours(3);
}

void add_coarse_temperatures(HourSums& sums, const std::vector<Span>& spans, const Channel& channel,
                             std::vector<StretchExtremes> extremes, const Location& location) {
  const std::vector<Knot> knots = known_knots(spans, channel);
  std::vector<CoarseReading> readings;
  for (const Knot& knot : knots) readings.push_back({knot.at, knot.value});
  const CoarseCourse course(std::move(readings), std::move(extremes), location);
  join_knots(sums, spans, knots,
             [&](std::size_t k) { add_course(sums, course.between(k), knots[k].at, knots[k + 1].at); });
}

}  // namespace graftcast
