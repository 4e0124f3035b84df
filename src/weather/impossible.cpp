#include "impossible.hpp"

#include <cmath>

#include "graftcast/sun.hpp"
#include "humidity.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

void drop(HourlyWeather::Column& column, std::size_t k) {
  column.value[k] = unknown;
  column.origin[k] = Origin::missing;
}

void note(NoteBook& notes, std::string_view kind, std::string_view text, const std::string& example) {
  if (notes.count(kind, text)) notes.example(example);
}

bool is_too_moist(double temperature_c, double humidity_pct) {
  return temperature_c > highest_dew_point_c &&
         dew_point_of(temperature_c, humidity_pct) > highest_dew_point_c;
}

bool extremes_are_turned(double minimum, double maximum) {
  return minimum > maximum;
}

void check_temperature(DayReading& day, NoteBook& notes) {
  if (extremes_are_turned(day.minimum_temperature_c, day.maximum_temperature_c)) {
    note(notes, "minimum-above-maximum",
         tr("the day's minimum temperature is above its maximum; both are set aside"), day_text(day.day));
    day.minimum_temperature_c = day.maximum_temperature_c = unknown;
  }
  if (!day.has_extremes() && !std::isnan(day.mean_temperature_c)) {
    note(notes, "mean-only",
         tr("the day has a mean temperature but not both extremes, so no hours can be made of it"),
         day_text(day.day));
  }
}

void check_humidity(DayReading& day, NoteBook& notes) {
  if (extremes_are_turned(day.minimum_humidity_pct, day.maximum_humidity_pct)) {
    note(notes, "minimum-above-maximum",
         tr("the day's minimum humidity is above its maximum; both are set aside"), day_text(day.day));
    day.minimum_humidity_pct = day.maximum_humidity_pct = unknown;
  }
  if (is_too_moist(day.minimum_temperature_c, day.maximum_humidity_pct) ||
      is_too_moist(day.maximum_temperature_c, day.minimum_humidity_pct) ||
      is_too_moist(day.maximum_temperature_c, day.mean_humidity_pct)) {
    note(notes, "too-moist", tr("no air is so warm and so moist at once; the humidity is set aside"),
         day_text(day.day));
    day.minimum_humidity_pct = day.maximum_humidity_pct = day.mean_humidity_pct = unknown;
  }
}

void check_shortwave(DayReading& day, const Location& location, NoteBook& notes) {
  constexpr double rounding_mj_m2 = 0.5;
  if (std::isnan(day.shortwave_mj_m2)) return;
  const int of_year =
      day_of_year(std::chrono::year_month_day(std::chrono::sys_days(day.day.time_since_epoch())));
  const double outside = extraterrestrial_day_mj_m2(location.latitude_deg, of_year);
  if (day.shortwave_mj_m2 <= outside + rounding_mj_m2) return;
  note(notes, "too-bright", tr("more radiation than falls on top of the atmosphere that day; set aside"),
       tr("{day}: {radiation:.1f} above {outside:.1f} MJ/m2", "day"_a = day_text(day.day),
          "radiation"_a = day.shortwave_mj_m2, "outside"_a = outside));
  day.shortwave_mj_m2 = unknown;
}

}  // namespace

void set_aside_impossible(QuantityHours& hours, NoteBook& notes) {
  const auto& air = hours[Quantity::air_temperature];
  auto& humidity = hours[Quantity::relative_humidity];
  auto& shortwave = hours[Quantity::shortwave];
  for (std::size_t k = 0; k < hours.size(); ++k) {
    if (is_too_moist(air.value[k], humidity.value[k])) {
      note(notes, "too-moist", tr("no air is so warm and so moist at once; the humidity is set aside"),
           utc_text(hours.hour(k)));
      drop(humidity, k);
    }
    if (shortwave.value[k] > brightest_hour_w_m2) {
      note(notes, "too-bright", tr("an hour's mean irradiance above 1380 W/m2; set aside"),
           utc_text(hours.hour(k)));
      drop(shortwave, k);
    }
  }
}

void set_aside_impossible(std::vector<DayReading>& days, const Location& location, NoteBook& notes) {
  for (DayReading& day : days) {
    check_temperature(day, notes);
    check_humidity(day, notes);
    check_shortwave(day, location, notes);
  }
}

}  // namespace graftcast
