#include "benchmark/invented_nursery.hpp"

#include <array>
#include <cmath>
#include <iterator>
#include <numbers>
#include <numeric>

#include <fmt/format.h>

namespace graftcast::benchmarks {

namespace {

/// What the air does at `hour` of a series that begins at midnight.
struct AirHour {
  double temperature_c, humidity_pct, wind_m_s;
};

AirHour air_of(std::size_t hour) {
  constexpr double hours_a_week = 168;
  const double clock_h = static_cast<double>(hour % 24);
  const double warmth = -std::cos(2 * std::numbers::pi * (clock_h - 3) / 24);  // -1 at three, +1 at fifteen
  const double week = std::sin(2 * std::numbers::pi * static_cast<double>(hour) / hours_a_week);
  return {22 + 2 * week + 7 * warmth, 55 - 25 * warmth, 2 + warmth};
}

void put(HourlyWeather& weather, Variable variable, std::size_t hour, double value) {
  auto& column = weather[variable];
  column.value[hour] = value;
  column.origin[hour] = weather.hour(hour) < this_morning() ? Origin::measured : Origin::forecast;
}

Spot spot(double sun_share, double wind_share, bool movable) {
  Spot made;
  made.sun_share = sun_share;
  made.wind_share = wind_share;
  made.movable = movable;
  return made;
}

HourlyWeather blank_weather(std::size_t hours) {
  HourlyWeather weather;
  weather.start = first_hour();
  weather.sources = {"invented"};
  for (auto& column : weather.columns) {
    column.value.assign(hours, unknown);
    column.origin.assign(hours, Origin::missing);
    column.source.assign(hours, 0);
  }
  weather.forecast_lead_h.assign(hours, 0);
  return weather;
}

constexpr std::array spot_names{"field", "bench", "wall", "lath-house"};

std::string spot_name(std::size_t index) {
  return index < spot_names.size() ? spot_names[index] : fmt::format("row-{}", index + 1);
}

/// A step that goes through all of `count` before it comes back, the next far from the last.
std::size_t step_through(std::size_t count) {
  std::size_t step = count * 5 / 8 + 1;
  while (std::gcd(step, count) != 1) ++step;
  return step;
}

/// Combination `index` of `kinds`.
void put_kind(std::size_t index, const NurseryKinds& kinds, GraftRow& row) {
  constexpr std::array species{"apple", "pear", "citrus", "walnut", "persimmon", "avocado"};
  constexpr std::array methods{"cleft", "whip-and-tongue", "chip", "side-veneer", "t-bud", "bark"};
  constexpr std::array wraps{"film", "film-bud-out", "none", "film-waxed-tip"};
  constexpr std::array covers{"none", "clear-bag", "paper-over-bag", "vented-bag", "paper-bag"};
  const auto digit = [&index](std::size_t base) {
    const std::size_t value = index % base;
    index /= base;
    return value;
  };
  row.spot = spot_name(digit(kinds.spots));
  row.shade = 0.7 * static_cast<double>(digit(kinds.shades)) / static_cast<double>(kinds.shades);
  row.cover = covers.at(digit(kinds.covers));
  row.wrap = wraps.at(digit(kinds.wraps));
  row.species = species.at(digit(kinds.species));
  row.method = methods.at(digit(kinds.methods));
}

}  // namespace

Hour first_hour() {
  using namespace std::chrono;
  return sys_days(year(2025) / April / 10);
}

Hour this_morning() {
  return first_hour() + std::chrono::hours(24 * days_behind + 5);
}

HourlyWeather fine_weather(const Site& site, int days, double hotter_ahead_k) {
  const auto hours = static_cast<std::size_t>(days) * 24;
  HourlyWeather weather = blank_weather(hours);
  const std::vector<SunHour> sun = sun_of_hours(site.location, weather.start, hours);
  for (std::size_t hour = 0; hour < hours; ++hour) {
    const AirHour air = air_of(hour);
    const bool is_ahead = weather.hour(hour) >= this_morning();
    put(weather, Variable::air_temperature, hour, air.temperature_c + (is_ahead ? hotter_ahead_k : 0));
    put(weather, Variable::relative_humidity, hour, air.humidity_pct);
    put(weather, Variable::wind_speed, hour, air.wind_m_s);
    put(weather, Variable::shortwave, hour, 0.9 * sun[hour].clear_sky_w_m2);
    put(weather, Variable::precipitation, hour, 0);
    put(weather, Variable::pressure, hour, 100);
    const auto lead = weather.hour(hour) - this_morning();
    weather.forecast_lead_h[hour] = static_cast<float>(std::max<long>(0, lead.count()));
  }
  return weather;
}

std::string hourly_table(int years) {
  constexpr std::size_t hours_a_year = 8766;
  std::string table =
      "time,air_temperature [degC],relative_humidity [%],wind_speed [m s-1],"
      "surface_downwelling_shortwave_flux_in_air [W m-2],precipitation_amount [kg m-2]\n";
  using namespace std::chrono;
  const Hour start = sys_days(year(1995) / January / 1);
  for (std::size_t hour = 0; hour < hours_a_year * static_cast<std::size_t>(years); ++hour) {
    const AirHour air = air_of(hour);
    const double light_w_m2 =
        std::max(0.0, 800 * std::sin(std::numbers::pi * (static_cast<double>(hour % 24) - 6) / 12));
    fmt::format_to(std::back_inserter(table), "{},{:.1f},{:.0f},{:.1f},{:.0f},0.0\n",
                   utc_text(start + hours(static_cast<long>(hour))), air.temperature_c, air.humidity_pct,
                   air.wind_m_s, light_w_m2);
  }
  return table;
}

Site nursery_site(const NurseryKinds& kinds) {
  Site site;
  site.name = "invented nursery";
  site.location = {40.95, 0.45, 110};
  site.time_zone = "Europe/Madrid";
  site.spots = {{"field", spot(1, 0.8, false)},
                {"bench", spot(0.85, 0.4, true)},
                {"wall", spot(0.8, 0.35, true)},
                {"lath-house", spot(0.35, 0.3, true)}};
  site.spots["wall"].sun_to_h = 13;
  for (std::size_t i = site.spots.size(); i < kinds.spots; ++i) {
    const auto place = static_cast<double>(i);
    site.spots[spot_name(i)] = spot(1 - 0.05 * place, 0.8 - 0.04 * place, i % 2 == 0);
  }
  site.supplies = {{"clear-bag", 50}, {"paper", 50}, {"shade-cloth", 10}};
  return site;
}

std::vector<GraftRecord> nursery_grafts(std::size_t rows, int count, const NurseryKinds& kinds) {
  std::vector<GraftRecord> grafts(rows);
  const std::size_t step = step_through(kinds.combinations());
  for (std::size_t i = 0; i < rows; ++i) {
    GraftRow& row = grafts[i].row;
    row.id = fmt::format("G{}", i + 1);
    put_kind(i * step % kinds.combinations(), kinds, row);
    row.count = count;
    if (i % 2 == 0) row.pot_litres = 5;
    const auto age = std::chrono::hours(static_cast<long>(24 + i * 37 % (24 * (days_behind - 2))));
    row.grafted_at = this_morning() - age;
    row.grafted_on = Clock("Europe/Madrid").day_of(*row.grafted_at);
  }
  return grafts;
}

const Models& published_models() {
  static const Models models = load_models(published_models_folder());
  return models;
}

}  // namespace graftcast::benchmarks
