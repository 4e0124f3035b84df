// What is odd about the days of a daily log, though each value is possible.

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "note_book.hpp"
#include "text/tr.hpp"
#include "weather/quality_checks.hpp"

namespace graftcast {

namespace {

/// How suddenly a day's value may change, and for how many days it may stay the same.
struct DayRule {
  double DayReading::*value;
  const char* name;
  const char* unit;
  double greatest_step;  ///< 0: not checked.
  std::size_t stuck_days;
  double stuck_above;  ///< Values that may stay for long: these and below,
  double stuck_below;  ///< or these and above.
};

// Temperature: Durre, Menne, Gleason, Houston & Vose 2010 (J. Appl. Meteorol. Climatol. 49, 1615), spike and
// streak checks of daily extremes, recalled. The others: common practice, no published source.
constexpr auto day_rules = std::to_array<DayRule>(
    {{&DayReading::maximum_temperature_c, tr_later("daily maximum temperature"), "degC", 25, 20, -1e9, 1e9},
     {&DayReading::minimum_temperature_c, tr_later("daily minimum temperature"), "degC", 25, 20, -1e9, 1e9},
     {&DayReading::mean_humidity_pct, tr_later("daily mean humidity"), "%", 0, 10, -1e9, 98},
     {&DayReading::wind_speed_m_s, tr_later("daily mean wind speed"), "m/s", 0, 10, 0, 1e9},
     {&DayReading::shortwave_mj_m2, tr_later("daily radiation"), "MJ/m2", 0, 5, 0, 1e9},
     {&DayReading::precipitation_mm, tr_later("daily rain"), "mm", 0, 10, 0, 1e9},
     {&DayReading::pressure_kpa, tr_later("daily mean pressure"), "kPa", 5, 20, -1e9, 1e9}});

Instant end_of(LocalDay day, const Clock& clock) {
  return clock.begin_of(day + std::chrono::days(1));
}

bool follow(const DayReading& day, const DayReading& next) {
  return next.day - day.day == std::chrono::days(1);
}

void check_day_spikes(std::span<const DayReading> days, const DayRule& rule, const Clock& clock,
                      NoteBook& notes) {
  for (std::size_t k = 1; k + 1 < days.size(); ++k) {
    if (!follow(days[k - 1], days[k]) || !follow(days[k], days[k + 1])) continue;
    const double before = days[k - 1].*rule.value, here = days[k].*rule.value,
                 after = days[k + 1].*rule.value;
    const double up = here - before, down = here - after;
    // False for NaN, so that a missing day is no spike.
    const bool departs = up * down > 0 && std::min(std::abs(up), std::abs(down)) > rule.greatest_step;
    if (!departs) continue;
    if (notes.count(
            "spike",
            tr("{quantity}: a day departs from both its neighbours by more than {step:g} {unit}",
               "quantity"_a = translated(rule.name), "step"_a = rule.greatest_step, "unit"_a = rule.unit)))
      notes.example(fmt::format("{}: {:.1f}, {:.1f}, {:.1f}", day_text(days[k].day), before, here, after));
    notes.reaches(end_of(days[k].day, clock));
  }
}

/// End of the run of one value, day upon day, that begins at `k`.
std::size_t same_days_end(std::span<const DayReading> days, const DayRule& rule, std::size_t k) {
  constexpr double rounding = 1e-9;
  std::size_t end = k + 1;
  while (end < days.size() && follow(days[end - 1], days[end]) &&
         std::abs(days[end].*rule.value - days[k].*rule.value) < rounding)
    ++end;
  return end;
}

void check_stuck_days(std::span<const DayReading> days, const DayRule& rule, const Clock& clock,
                      NoteBook& notes) {
  for (std::size_t k = 0, end = 0; k < days.size(); k = end) {
    end = same_days_end(days, rule, k);
    const double value = days[k].*rule.value;
    const bool may_stay = std::isnan(value) || value <= rule.stuck_above || value >= rule.stuck_below;
    if (may_stay || end - k < rule.stuck_days) continue;
    if (notes.count("stuck-sensor",
                    tr("{quantity}: the same value for days on end", "quantity"_a = translated(rule.name)),
                    end - k))
      notes.example(trn("{day}: {value:g} {unit} for {days} day", "{day}: {value:g} {unit} for {days} days",
                        static_cast<long>(end - k), "day"_a = day_text(days[k].day), "value"_a = value,
                        "unit"_a = rule.unit, "days"_a = end - k));
    notes.reaches(end_of(days[end - 1].day, clock));
  }
}

}  // namespace

std::vector<QualityNote> check_quality(std::span<const DayReading> days, const std::string& source,
                                       const Clock& clock) {
  NoteBook notes(source);
  for (const DayRule& rule : day_rules) {
    if (rule.greatest_step > 0) check_day_spikes(days, rule, clock, notes);
    check_stuck_days(days, rule, clock, notes);
  }
  return notes.take();
}

}  // namespace graftcast
