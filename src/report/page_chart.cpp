#include "page_chart.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "page_markup.hpp"

namespace graftcast {

namespace {

constexpr double chart_top = 18;        // Above it stands the key.
constexpr double axis_height = 15;      // Of the days along the foot.
constexpr double tick_row_height = 22;  // A tick and its label.
constexpr double letter_width = 5.8;    // Of the chart's letters, about.
constexpr double label_gap = 5;

/// A coordinate: tenths of a unit, without what says nothing.
std::string at(double value) {
  const double tenths = std::round(value * 10) / 10 + 0.0;
  return fmt::format("{}", tenths);
}

/// Draws from point to point in whole tenths of a unit. A page has tens of thousands of points: each is told
/// by its step from the one before, without the zero before a decimal point.
class Pen {
 public:
  void go_to(double x, double y) {
    const long x_tenths = std::lround(10 * x), y_tenths = std::lround(10 * y);
    if (path_.empty()) {
      path_ = fmt::format("M{} {}l", at(x), at(y));
    } else {
      number(x_tenths - x_);
      number(y_tenths - y_);
    }
    x_ = x_tenths;
    y_ = y_tenths;
  }
  const std::string& path() const { return path_; }

 private:
  void number(long tenths) {
    if (path_.back() != 'l' && tenths >= 0) path_ += ' ';
    if (tenths < 0) path_ += '-';
    const long size = std::abs(tenths);
    if (size >= 10 || size == 0) path_ += std::to_string(size / 10);
    if (size % 10 != 0) path_ += fmt::format(".{}", size % 10);
  }

  std::string path_;
  long x_ = 0, y_ = 0;
};

double width_of(std::string_view words) {
  return static_cast<double>(words.size()) * letter_width;
}

}  // namespace

DayChart::DayChart(std::size_t days, std::size_t ahead, double low, double high, double height)
    : days_(std::max<std::size_t>(days, 1)),
      ahead_(std::min(ahead, days_)),
      low_(low),
      high_(high > low ? high : low + 1),
      top_(chart_top),
      bottom_(chart_top + height),
      end_(bottom_) {}

double DayChart::x(std::size_t day) const {
  return chart_left +
         (chart_right - chart_left) * (static_cast<double>(day) + 0.5) / static_cast<double>(days_);
}

double DayChart::y(double value) const {
  const double share = std::clamp((value - low_) / (high_ - low_), 0.0, 1.0);
  return bottom_ - share * (bottom_ - top_);
}

void DayChart::text(double x, double y, std::string_view words, std::string_view style) {
  drawn_ += fmt::format(R"(<text x="{}" y="{}" class="{}">{}</text>)", at(x), at(y), style, html_text(words));
}

void DayChart::shade_ahead() {
  if (ahead_ >= days_) return;
  const double from =
      chart_left + (chart_right - chart_left) * static_cast<double>(ahead_) / static_cast<double>(days_);
  drawn_ += fmt::format(R"(<path class="c" d="M{0} {1}H{2}V{3}H{0}Z"/><path class="n" d="M{0} {1}V{3}"/>)",
                        at(from), at(top_), at(chart_right), at(bottom_));
}

void DayChart::upright(std::size_t day) {
  if (day == 0 || day >= days_) return;
  drawn_ +=
      fmt::format(R"(<path class="l" d="M{} {}V{}"/>)", at((x(day - 1) + x(day)) / 2), at(top_), at(bottom_));
}

void DayChart::grid(double value, std::string_view label) {
  drawn_ += fmt::format(R"(<path class="g" d="M{} {}H{}"/>)", at(chart_left), at(y(value)), at(chart_right));
  text(chart_left - 4, y(value) + 4, label, "e");
}

void DayChart::level(double value, std::string_view words, bool under) {
  drawn_ += fmt::format(R"(<path class="l" d="M{} {}H{}"/>)", at(chart_left), at(y(value)), at(chart_right));
  text(chart_left + 3, y(value) + (under ? 12 : -3), words, "halo");
}

std::string DayChart::line(const Course& value, std::size_t from, std::size_t to) const {
  Pen pen;
  for (std::size_t day = from; day < to; ++day) pen.go_to(x(day), y(value(day)));
  return pen.path();
}

void DayChart::course(const Course& value, std::string_view style) {
  if (ahead_ > 0) drawn_ += fmt::format(R"(<path class="{}" d="{}"/>)", style, line(value, 0, ahead_));
  if (ahead_ < days_) {
    drawn_ +=
        fmt::format(R"(<path class="{} f" d="{}"/>)", style, line(value, ahead_ > 0 ? ahead_ - 1 : 0, days_));
  }
}

void DayChart::steps(const Course& value, std::string_view words) {
  std::string path = fmt::format("M{} {}", at(chart_left), at(y(value(0))));
  for (std::size_t day = 1; day < days_; ++day) {
    if (at(y(value(day))) != at(y(value(day - 1))))
      path += fmt::format("H{}V{}", at((x(day - 1) + x(day)) / 2), at(y(value(day))));
  }
  drawn_ += fmt::format(R"(<path class="l" d="{}H{}"/>)", path, at(chart_right));
  constexpr double letter_height = 11;
  const double height = y(value(0));
  text(chart_left + 3, height - 3 < top_ + letter_height ? height + letter_height + 1 : height - 3, words,
       "halo");
}

void DayChart::band(const Course& low, const Course& high, std::string_view style) {
  Pen pen;
  for (std::size_t day = 0; day < days_; ++day) pen.go_to(x(day), y(high(day)));
  for (std::size_t day = days_; day-- > 0;) pen.go_to(x(day), y(low(day)));
  drawn_ += fmt::format(R"(<path class="{}" d="{}Z"/>)", style, pen.path());
}

void DayChart::ticks(std::string_view name, const std::vector<bool>& marked,
                     std::span<const std::string> labels) {
  text(chart_left - 4, end_ + 12, name, "e s");
  double free_from = chart_left;
  for (const bool coming : {false, true}) {
    std::string path;
    for (std::size_t day = coming ? ahead_ : 0; day < (coming ? days_ : ahead_); ++day) {
      if (!marked[day]) continue;
      path += fmt::format("M{} {}v9", at(x(day)), at(end_ + 2));
      const double half = width_of(labels[day]) / 2;
      const double middle = std::clamp(x(day), chart_left + half, chart_right - half);
      if (middle - half < free_from) continue;
      text(middle, end_ + 21, labels[day], "m");
      free_from = middle + half + label_gap;
    }
    if (!path.empty()) drawn_ += fmt::format(R"(<path class="k{}" d="{}"/>)", coming ? " f" : "", path);
  }
  end_ += tick_row_height;
}

void DayChart::day_axis(std::span<const std::string> labels) {
  drawn_ += fmt::format("<path d=\"M{} {}H{}\"/>", at(chart_left), at(bottom_), at(chart_right));
  const double widest = width_of(*std::ranges::max_element(labels, {}, &std::string::size)) + 2 * label_gap;
  const auto room = static_cast<std::size_t>((chart_right - chart_left) / widest);
  const std::size_t step = (days_ + room - 1) / std::max<std::size_t>(room, 1);
  double free_from = 0;
  std::string path;
  for (std::size_t day = 0; day < days_; day += step) {
    const double half = width_of(labels[day]) / 2;
    const double middle = std::min(x(day), chart_right - half);
    if (middle - half < free_from) continue;
    path += fmt::format("M{} {}v3", at(x(day)), at(bottom_));
    text(middle, end_ + 13, labels[day], "m");
    free_from = middle + half + label_gap;
  }
  drawn_ += fmt::format("<path d=\"{}\"/>", path);
  end_ += axis_height;
}

double DayChart::key(double x, std::string_view style, std::string_view words) {
  drawn_ += fmt::format(R"(<path class="{}" d="M{} 8h18"/>)", style, at(x));
  text(x + 22, 12, words, "");
  return x + 22 + width_of(words) + 2 * label_gap;
}

std::string DayChart::svg(std::string_view label) const {
  return fmt::format("<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\" data-foot=\"{}\">{}</svg>\n",
                     at(chart_width), at(end_ + 3), html_sentence(label), at(bottom_), drawn_);
}

std::vector<double> round_values(double low, double high) {
  constexpr std::array steps{0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0};
  constexpr double most = 5;
  const auto* step = std::ranges::find_if(steps, [&](double s) { return (high - low) / s <= most; });
  if (step == steps.end()) step = std::prev(steps.end());
  std::vector<double> values;
  for (double k = std::ceil(low / *step); k * *step <= high; ++k) values.push_back(k * *step + 0.0);
  return values;
}

}  // namespace graftcast
