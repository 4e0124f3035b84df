#include "weather/quality_checks.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "local_hours.hpp"
#include "note_book.hpp"
#include "sun_lag.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Column = HourlyWeather::Column;

bool is_measured(const Column& column, std::size_t k) {
  return column.origin[k] == Origin::measured;
}

constexpr auto all_checks = std::to_array<QualityCheck>({
    {"beyond-limits", tr_later("values that cannot be"), true},
    {"minimum-above-maximum", tr_later("a day's extremes the wrong way round"), true},
    {"too-moist", tr_later("air too warm and too moist at once"), true},
    {"too-bright", tr_later("more radiation than the sun gives"), true},
    {"dew-above-air", tr_later("dew point above the air"), true},
    {"failed-check", tr_later("values that the archive itself doubts"), true},
    {"absent-hour", tr_later("times that the clock skips"), true},
    {"repeated-time", tr_later("a second row for one time"), true},
    {"out-of-order", tr_later("rows out of order"), false},
    {"overshoot", tr_later("slightly beyond a limit, taken as the limit"), false},
    {"spike", tr_later("an hour or a day unlike both its neighbours"), false},
    {"stuck-sensor", tr_later("the same value for hours or days on end"), false},
    {"night-sunshine", tr_later("radiation while the sun is down"), false},
    {"no-radiation-day", tr_later("a whole day without radiation"), false},
    {"radiation-late", tr_later("radiation behind the sun"), false},
    {"radiation-early", tr_later("radiation ahead of the sun"), false},
});

/// How suddenly a quantity may change, and how long it may stay the same.
struct Rule {
  Quantity quantity;
  const char* name;
  const char* unit;
  double greatest_step;  ///< 0: not checked.
  std::size_t stuck_h;
  double stuck_above;  ///< Values that may stay for long: these and below,
  double stuck_below;  ///< or these and above.
};

constexpr std::array<Rule, 5> rules = {
    {{Quantity::air_temperature, tr_later("air temperature"), "degC", 8, 24, -1e9, 1e9},
     {Quantity::relative_humidity, tr_later("relative humidity"), "%", 0, 24, -1e9, 98},
     {Quantity::wind_speed, tr_later("wind speed"), "m/s", 0, 24, 0, 1e9},
     {Quantity::shortwave, tr_later("shortwave"), "W/m2", 0, 5, 0, 1e9},
     {Quantity::pressure, tr_later("pressure"), "kPa", 1.5, 48, -1e9, 1e9}}};

void check_spikes(const QuantityHours& hours, const Rule& rule, NoteBook& notes) {
  const Column& column = hours[rule.quantity];
  for (std::size_t k = 1; k + 1 < hours.size(); ++k) {
    if (!is_measured(column, k - 1) || !is_measured(column, k) || !is_measured(column, k + 1)) continue;
    const double up = column.value[k] - column.value[k - 1];
    const double down = column.value[k] - column.value[k + 1];
    if (up * down <= 0 || std::min(std::abs(up), std::abs(down)) <= rule.greatest_step) continue;
    if (notes.count(
            "spike",
            tr("{quantity}: an hour departs from both its neighbours by more than {step:g} {unit}",
               "quantity"_a = translated(rule.name), "step"_a = rule.greatest_step, "unit"_a = rule.unit))) {
      notes.example(fmt::format("{}: {:.1f}, {:.1f}, {:.1f}", utc_text(hours.hour(k)), column.value[k - 1],
                                column.value[k], column.value[k + 1]));
    }
    notes.reaches(hours.hour(k + 1));
  }
}

/// End of the run of one value that begins at `k`. Hours between coarse readings are part of it.
std::size_t run_end(const Column& column, std::size_t k) {
  constexpr double rounding = 1e-9;
  std::size_t end = k + 1;
  const auto goes_on = [&](std::size_t hour) {
    return (is_measured(column, hour) || column.origin[hour] == Origin::filled) &&
           std::abs(column.value[hour] - column.value[k]) < rounding;
  };
  while (end < column.value.size() && goes_on(end)) ++end;
  return end;
}

void check_stuck(const QuantityHours& hours, const Rule& rule, NoteBook& notes) {
  constexpr std::size_t calm_h = 96;
  const Column& column = hours[rule.quantity];
  for (std::size_t k = 0, end = 0; k < hours.size(); k = end) {
    end = k + 1;
    if (!is_measured(column, k)) continue;
    end = run_end(column, k);
    const double value = column.value[k];
    const bool calm = rule.quantity == Quantity::wind_speed && value == 0;
    const bool may_stay = !calm && (value <= rule.stuck_above || value >= rule.stuck_below);
    if (may_stay || end - k < (calm ? calm_h : rule.stuck_h)) continue;
    if (notes.count("stuck-sensor",
                    tr("{quantity}: the same value for hours on end", "quantity"_a = translated(rule.name)),
                    end - k)) {
      notes.example(tr("{time}: {value:g} {unit} for {hours} h", "time"_a = utc_text(hours.hour(k)),
                       "value"_a = value, "unit"_a = rule.unit, "hours"_a = end - k));
    }
    notes.reaches(hours.hour(end));
  }
}

void check_dew_point(const QuantityHours& hours, NoteBook& notes) {
  constexpr double rounding_k = 0.5;
  const Column& air = hours[Quantity::air_temperature];
  const Column& dew = hours[Quantity::dew_point];
  for (std::size_t k = 0; k < hours.size(); ++k) {
    // Where the humidity is to be made of the dew point, that notes it.
    const bool noted_elsewhere = std::isnan(hours[Quantity::relative_humidity].value[k]);
    if (noted_elsewhere || !is_measured(air, k) || !is_measured(dew, k)) continue;
    if (dew.value[k] <= air.value[k] + rounding_k) continue;
    if (notes.count("dew-above-air",
                    tr("the dew point is above the air; the humidity given beside it was taken"))) {
      notes.example(tr("{time}: {dew_point:.1f} above {air:.1f} degC", "time"_a = utc_text(hours.hour(k)),
                       "dew_point"_a = dew.value[k], "air"_a = air.value[k]));
    }
    notes.reaches(hours.hour(k + 1));
  }
}

void check_nights(const QuantityHours& hours, const SunHours& sun, NoteBook& notes) {
  constexpr double least_w_m2 = 10;
  const Column& light = hours[Quantity::shortwave];
  for (std::size_t k = sun.first() + 1; k + 1 < hours.size(); ++k) {
    if (!is_measured(light, k) || light.value[k] <= least_w_m2) continue;
    if (sun.outside_w_m2(k - 1) > 0 || sun.outside_w_m2(k) > 0 || sun.outside_w_m2(k + 1) > 0) continue;
    if (notes.count("night-sunshine", tr("radiation while the sun is down")))
      notes.example(fmt::format("{}: {:.0f} W/m2", utc_text(hours.hour(k)), light.value[k]));
    notes.reaches(hours.hour(k + 1));
  }
}

/// Whether all hours [first, past) are measured and without any radiation though the sun shines outside.
bool is_dark_day(const QuantityHours& hours, const SunHours& sun, std::size_t first, std::size_t past) {
  constexpr double least_outside_w_h_m2 = 5e6 / 3600;
  const Column& light = hours[Quantity::shortwave];
  double outside = 0;
  for (std::size_t k = first; k < past; ++k) {
    if (!is_measured(light, k) || light.value[k] > 0) return false;
    outside += sun.outside_w_m2(k);
  }
  return outside > least_outside_w_h_m2;
}

void check_days(const QuantityHours& hours, const SunHours& sun, const Clock& clock, NoteBook& notes) {
  std::size_t first = sun.first();
  while (first < hours.size()) {
    const LocalDay day = day_of_hour(hours.hour(first), clock);
    const auto past =
        std::min(hours.size(), static_cast<std::size_t>((hours_of(day, clock).past - hours.start).count()));
    const bool whole = past - first >= 20;
    if (whole && is_dark_day(hours, sun, first, past)) {
      if (notes.count("no-radiation-day", tr("a whole day without any radiation")))
        notes.example(day_text(day));
      notes.reaches(hours.hour(past));
    }
    first = past;
  }
}

std::string lag_words(double lag_h) {
  const std::string zone_advice =
      tr("\"time_zone\" is an offset such as +01:00 for a logger that keeps one time all year, the name of a "
         "zone for one that goes along with summer time");
  if (lag_h > 0)
    return tr(
        "radiation runs {hours:.1f} h behind the sun: stamps that end an hour need \"stamp\": \"end\", or "
        "the clock is off ({zone_advice})",
        "hours"_a = lag_h, "zone_advice"_a = zone_advice);
  return tr(
      "radiation runs {hours:.1f} h ahead of the sun: stamps that begin an hour need \"stamp\": "
      "\"start\", or the clock is off ({zone_advice})",
      "hours"_a = -lag_h, "zone_advice"_a = zone_advice);
}

void check_lag(const QuantityHours& hours, const SunHours& sun, const Location& location, const Clock& clock,
               bool in_summer_time, NoteBook& notes) {
  constexpr double least_lag_h = 0.4;
  const auto lag = sun_lag(hours, sun, location, clock, in_summer_time);
  if (!lag || std::abs(lag->median_h) < least_lag_h || 2 * lag->lit < lag->days) return;
  const bool late = lag->median_h > 0;
  const std::string finding = lag_words(lag->median_h);
  const std::string text = in_summer_time ? tr("in summer time, {finding}", "finding"_a = finding) : finding;
  if (notes.count(late ? "radiation-late" : "radiation-early", text, lag->lit)) notes.example(lag->example);
  notes.reaches(lag->latest);
}

bool has_radiation(const QuantityHours& hours) {
  const Column& light = hours[Quantity::shortwave];
  for (std::size_t k = 0; k < hours.size(); ++k) {
    if (is_measured(light, k)) return true;
  }
  return false;
}

}  // namespace

std::span<const QualityCheck> quality_checks() {
  return all_checks;
}

std::vector<QualityNote> serious_findings(const std::vector<QualityNote>& findings,
                                          std::optional<Instant> measured_until) {
  constexpr std::chrono::days recent(3);
  constexpr std::chrono::days season(30);
  std::vector<QualityNote> serious;
  for (const QualityNote& finding : findings) {
    const bool out_of_step = finding.kind == "radiation-late" || finding.kind == "radiation-early";
    if (!measured_until || !finding.latest || (!out_of_step && finding.kind != "stuck-sensor")) continue;
    if (*measured_until - *finding.latest <= (out_of_step ? season : recent)) serious.push_back(finding);
  }
  return serious;
}

std::vector<QualityNote> check_quality(const QuantityHours& hours, const std::string& source,
                                       const Location& location, const Clock& clock) {
  NoteBook notes(source);
  for (const Rule& rule : rules) {
    if (rule.greatest_step > 0) check_spikes(hours, rule, notes);
    check_stuck(hours, rule, notes);
  }
  check_dew_point(hours, notes);
  if (has_radiation(hours)) {
    const SunHours sun(hours, location);
    check_nights(hours, sun, notes);
    check_days(hours, sun, clock, notes);
    for (const bool in_summer_time : {false, true})
      check_lag(hours, sun, location, clock, in_summer_time, notes);
  }
  return notes.take();
}

}  // namespace graftcast
