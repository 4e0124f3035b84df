// The installed library in a few lines: the chance that weather loses one graft in the coming week.

#include <cstdio>

#include <graftcast/morning.hpp>

int main(int, char** arguments) {
  using namespace graftcast;
  Site site;
  site.location = {41.0, 0.5, 90};
  const Clock clock("UTC");
  const Models models = load_models(arguments[1]);

  // Ten equal days of 16 to 28 degC, then six days more that are not known.
  HourlyWeather weather;
  weather.start = std::chrono::sys_days{std::chrono::June / 1 / 2025};
  weather.sources = {"made"};
  weather.forecast_lead_h.assign(240, 0);
  for (auto& column : weather.columns) {
    column = {std::vector<double>(240, 0.0), std::vector<Origin>(240, Origin::measured),
              std::vector<std::uint16_t>(240)};
  }
  for (std::size_t hour = 0; hour < 240; ++hour) {
    const bool day = hour % 24 >= 6 && hour % 24 < 18;
    weather[Variable::air_temperature].value[hour] = day ? 28 : 16;
    weather[Variable::relative_humidity].value[hour] = day ? 45 : 80;
    weather[Variable::wind_speed].value[hour] = 1.5;
    weather[Variable::shortwave].value[hour] = day ? 500 : 0;
    weather[Variable::pressure].value[hour] = 100.3;
  }

  GraftRecord graft;
  graft.row.id = "A1";
  graft.row.grafted_on = std::chrono::local_days{std::chrono::June / 3 / 2025};
  graft.row.species = "citrus";
  graft.row.method = "chip";
  graft.row.wrap = "film-bud-out";
  SeasonSettings settings;
  settings.as_of = weather.start + std::chrono::hours(24 * 8);
  const Season season(site, clock, models, weather, weather.start, settings);
  const GraftMorning one = morning(season, {graft}, 1).grafts.at(0);
  std::printf("risk %.3f (%.3f to %.3f), %s\n", one.risk.p, one.risk.low, one.risk.high,
              one.advice.text.c_str());
  return one.risk.p > 0 && one.risk.p < 1 ? 0 : 1;
}
