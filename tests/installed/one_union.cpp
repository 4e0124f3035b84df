// The installed library in thirty lines: the chance that weather loses one graft in the coming week.
//
//   one_union FOLDER_OF_MODELS

#include <cstdio>

#include <advice/morning.hpp>
#include <graftcast/error.hpp>

namespace gc = graftcast;

/// Ten equal days of 16 to 28 degC from 1 June 2025 on; what comes after them is not known.
gc::HourlyWeather ten_days() {
  constexpr std::size_t hours = 240;
  gc::HourlyWeather weather;
  weather.start = std::chrono::sys_days{std::chrono::June / 1 / 2025};
  weather.sources = {"made"};
  weather.forecast_lead_h.assign(hours, 0);
  const auto fill = [&](gc::Variable variable, double by_day, double by_night) {
    auto& column = weather[variable];
    column = {{}, std::vector(hours, gc::Origin::measured), std::vector<std::uint16_t>(hours)};
    for (std::size_t hour = 0; hour < hours; ++hour)
      column.value.push_back(hour % 24 >= 6 && hour % 24 < 18 ? by_day : by_night);
  };
  for (const auto variable : {gc::Variable::precipitation, gc::Variable::gust}) fill(variable, 0, 0);
  fill(gc::Variable::air_temperature, 28, 16);
  fill(gc::Variable::relative_humidity, 45, 80);
  fill(gc::Variable::wind_speed, 1.5, 1.5);
  fill(gc::Variable::shortwave, 500, 0);
  fill(gc::Variable::pressure, 100.3, 100.3);
  return weather;
}

int main(int count, char** arguments) try {
  gc::Site site;
  site.location = {41.0, 0.5, 90};
  gc::GraftRecord graft;
  graft.row.id = "A1";
  graft.row.grafted_on = std::chrono::local_days{std::chrono::June / 3 / 2025};
  graft.row.species = "citrus";
  graft.row.method = "chip";
  graft.row.wrap = "film-bud-out";
  const gc::Clock clock("UTC");
  const gc::Models models = gc::load_models(count > 1 ? arguments[1] : "models");
  const gc::HourlyWeather weather = ten_days();
  gc::SeasonSettings settings;
  settings.as_of = weather.start + std::chrono::days(8);
  const gc::Season season(site, clock, models, weather, weather.start, settings);
  const gc::GraftMorning one = gc::morning(season, {graft}, 1).grafts.at(0);
  std::printf("%s: risk %.3f (%.3f to %.3f), %s\n", one.id.c_str(), one.risk.p, one.risk.low, one.risk.high,
              one.advice.text.c_str());
  return one.risk.p > 0 && one.risk.p < 1 ? 0 : 1;
} catch (const gc::Error& error) {
  std::fprintf(stderr, "%s\n", error.what());
  return error.exit_code();
}
