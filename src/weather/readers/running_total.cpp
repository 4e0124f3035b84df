#include "readers/running_total.hpp"

#include <cmath>
#include <optional>

#include "plausibility.hpp"
#include "text/tr.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

namespace {

class Rises {
 public:
  Rises(const TimeLine& line, const std::string& header, NoteBook& notes)
      : line_(line), header_(header), notes_(notes) {}

  double of(std::size_t row, double reading);

 private:
  bool follows(std::size_t row) const;
  void note(std::size_t row, const char* kind, std::string_view what, double reading);

  const TimeLine& line_;
  const std::string& header_;
  NoteBook& notes_;
  std::optional<std::size_t> last_row_;
  double last_ = 0;
};

/// Whether the reading before was that of the interval before.
bool Rises::follows(std::size_t row) const {
  return last_row_ && *last_row_ + 1 == row &&
         line_.interval[row].end - line_.interval[*last_row_].end <= line_.step;
}

void Rises::note(std::size_t row, const char* kind, std::string_view what, double reading) {
  if (notes_.count(kind, tr("column \"{header}\": {what}", "header"_a = header_, "what"_a = what)))
    notes_.example(tr("{time}: {reading:g} after {last:g} mm", "time"_a = utc_text(line_.interval[row].end),
                      "reading"_a = reading, "last"_a = last_));
}

double Rises::of(std::size_t row, double reading) {
  constexpr double set_back = 0.5;
  constexpr double rounding_mm = 1e-9;
  if (std::isnan(reading)) return unknown;
  double rise = unknown;
  if (!last_row_) {
    rise = unknown;
  } else if (reading < set_back * last_) {
    note(row, "total-set-back",
         tr("the running total was set back; what it shows since was taken to have fallen since"), reading);
    rise = follows(row) ? reading : unknown;
  } else if (reading < last_ - rounding_mm) {
    note(row, "total-falls", tr("the running total falls without being set back; what fell is not known"),
         reading);
  } else if (follows(row)) {
    rise = std::max(0.0, reading - last_);
  } else if (reading > last_ + rounding_mm) {
    note(row, "total-over-gap",
         tr("rain fell while rows are missing; when is not known, and it was left out"), reading);
  }
  last_row_ = row;
  last_ = reading;
  return rise;
}

}  // namespace

void turn_into_rises(Channel& counter, const TimeLine& line, const std::string& header, NoteBook& notes) {
  const Limits limits = physical_limits(counter.quantity, counter.kind, line.step >= std::chrono::hours(20));
  Rises rises(line, header, notes);
  for (std::size_t row = 0; row < counter.value.size(); ++row) {
    double& value = counter.value[row];
    value = rises.of(row, value);
    if (std::isnan(value) || limits.hold(value)) continue;
    if (notes.count("beyond-limits",
                    tr("column \"{header}\": rises set aside, since no more than {greatest:g} mm can fall",
                       "header"_a = header, "greatest"_a = limits.greatest)))
      notes.example(fmt::format("{}: {:g} mm", utc_text(line.interval[row].end), value));
    value = unknown;
  }
  notes.count("running-total", tr("column \"{header}\" is a running total; what fell is what it rose by",
                                  "header"_a = header));
}

}  // namespace graftcast
