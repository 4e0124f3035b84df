#pragma once
// Parts of an SVG chart over days: axes, courses, bands, levels, ticks (private to the layer).
//
// All charts of a graft are 360 units wide, the width of a phone, and share the axis of days, so that they
// stand under each other. Courses are solid up to now and dashed from there; what they are is told by their
// width and their words, the colour only repeats it.

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

inline constexpr double chart_width = 360, chart_left = 34, chart_right = 356;

/// A value a day, by its index.
using Course = std::function<double(std::size_t)>;

class DayChart {
 public:
  /// Of `days` columns of which those from `ahead` on lie ahead; values from `low` to `high` fill `height`
  /// units.
  DayChart(std::size_t days, std::size_t ahead, double low, double high, double height);

  double x(std::size_t day) const;  ///< Middle of a column.
  double y(double value) const;     ///< Held within the chart.
  double foot() const { return bottom_; }

  void shade_ahead();  ///< First: the ground behind the days ahead, with the word `now` at its edge.
  /// A dotted upright before column `day`: where the forecast ends.
  void upright(std::size_t day);
  /// A line across at `value` with `label` at the axis.
  void grid(double value, std::string_view label);
  /// The same dotted, with words on it or `under` it.
  void level(double value, std::string_view words, bool under);
  void course(const Course& value, std::string_view style);
  /// A dotted course of steps, such as a limit that moves with the stage, with words at its beginning.
  void steps(const Course& value, std::string_view words);
  void band(const Course& low, const Course& high, std::string_view style);
  /// A row under the chart with a tick for each of the days marked; `labels` has a word for each day.
  void ticks(std::string_view name, const std::vector<bool>& marked, std::span<const std::string> labels);
  /// Days along the foot, as many as there is room for.
  void day_axis(std::span<const std::string> labels);
  /// A sample of a line with what it is, at `x`; gives where the next may stand.
  double key(double x, std::string_view style, std::string_view words);

  /// The whole element; `label` says in words what it shows.
  std::string svg(std::string_view label) const;

 private:
  std::string line(const Course& value, std::size_t from, std::size_t to) const;
  void text(double x, double y, std::string_view words, std::string_view style);

  std::size_t days_, ahead_;
  double low_, high_, top_, bottom_, end_;
  std::string drawn_;
};

/// Three to six round values within `low` to `high`.
std::vector<double> round_values(double low, double high);

}  // namespace graftcast
