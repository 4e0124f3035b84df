#include "model/made_weather.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "graftcast/air.hpp"

namespace graftcast::testing {

namespace {

HourlyWeather blank(Hour start, std::size_t hours) {
  HourlyWeather weather;
  weather.start = start;
  weather.sources = {"made"};
  for (auto& column : weather.columns) {
    column.value.assign(hours, unknown);
    column.origin.assign(hours, Origin::missing);
    column.source.assign(hours, 0);
  }
  weather.forecast_lead_h.assign(hours, 0.0F);
  return weather;
}

void put(HourlyWeather& weather, Variable variable, std::size_t index, double value) {
  weather[variable].value[index] = value;
  weather[variable].origin[index] = Origin::measured;
}

void put_hour(HourlyWeather& weather, std::size_t index, double h, const MadeDay& day) {
  using std::numbers::pi;
  const double mean = 0.5 * (day.minimum_c + day.maximum_c);
  const double temperature = mean + 0.5 * (day.maximum_c - day.minimum_c) * std::cos(2 * pi * (h - 15) / 24);
  const double vapour =
      std::min(raw::saturation_vapour_pressure_kpa(day.maximum_c) * day.humidity_at_maximum_pct / 100,
               raw::saturation_vapour_pressure_kpa(day.minimum_c));
  const double wind = day.wind_m_s * (0.6 + 0.6 * std::max(0.0, std::sin(pi * (h - 8) / 12)));
  const double light = day.peak_w_m2 * std::sin(pi * (h + 0.5 - day.sunrise_h) / (24 - 2 * day.sunrise_h));
  const bool daylight = h + 0.5 > day.sunrise_h && h + 0.5 < 24 - day.sunrise_h;
  put(weather, Variable::air_temperature, index, temperature);
  put(weather, Variable::relative_humidity, index,
      std::min(100.0, 100 * vapour / raw::saturation_vapour_pressure_kpa(temperature)));
  put(weather, Variable::wind_speed, index, wind);
  put(weather, Variable::shortwave, index, daylight ? std::max(0.0, light) : 0.0);
  put(weather, Variable::precipitation, index, 0);
  put(weather, Variable::pressure, index, 101.3);
}

}  // namespace

HourlyWeather made_weather(std::chrono::year_month_day first_day, int days,
                           const std::function<MadeDay(int)>& day_of) {
  HourlyWeather weather = blank(std::chrono::sys_days{first_day}, static_cast<std::size_t>(days) * 24);
  for (int day = 0; day < days; ++day) {
    const MadeDay shape = day_of(day);
    for (int h = 0; h < 24; ++h) put_hour(weather, static_cast<std::size_t>(day * 24 + h), h, shape);
  }
  return weather;
}

const Models& published_models() {
  static const Models models = load_models(GRAFTCAST_SOURCE_DIR "/models");
  return models;
}

Site made_site(const MadeCase& made) {
  Site site;
  site.name = "made";
  site.location = {made.latitude_deg, 0, 100};
  site.time_zone = "UTC";
  Spot spot;
  spot.sun_share = made.sun_share;
  spot.wind_share = made.wind_share;
  site.spots["here"] = spot;
  return site;
}

MadeRun run_made(const MadeCase& made, const HourlyWeather& weather) {
  const Models& models = published_models();
  const Site site = made_site(made);
  GraftRow row;
  row.id = "made";
  row.species = made.species;
  row.method = made.method;
  row.wrap = made.wrap;
  row.cover = made.cover;
  row.scion_state = made.scion_state;
  row.spot = "here";
  row.shade = made.shade;
  row.tip = made.tip_open ? "open" : "sealed";
  row.cambium_match_word = made.match;
  row.diameter_mm = made.diameter_mm;
  row.grafted_at = weather.start;

  MadeRun run;
  run.graft = graft_case(row, {}, site, Clock("UTC"), models, weather.end());
  const Ambient ambient =
      ambient_of(site.location, weather, 0, one_course(weather, 0, weather.size()), models.climate);
  run.climate = scion_climate(ambient, exposure_of(run.graft, run.graft.settings[0], site, models), models);
  MemberQuantiles quantiles(made.seed, made.members);
  quantiles.set_match_shapes(models);
  const UnionMembers members = union_members(run.graft, run.graft.settings[0], models, quantiles);
  const std::vector<double> stress(weather.size(), made.stock_stress);
  std::vector<double> daylight;
  for (const SunHour& sun : ambient.sun) daylight.push_back(sun.daylight ? 1 : 0);
  std::vector<std::size_t> marks;
  for (std::size_t h = 0; h <= weather.size(); h += 24) marks.push_back(h);
  const Stretch stretch{0, weather.size(), &run.climate, 0, &members, true};
  run.states = fresh_states(members.members());
  run_union(union_constants(models),
            {stress, daylight, heat_factor(models.heat, *run.graft.species), run.graft.cold_rows},
            std::span(&stretch, 1), run.states, marks, run.daily);
  run.limits = survival_limits(run.graft, models);
  run.stages = stage_limits(models, *run.graft.species);
  run.survival = survival(run.limits, run.states);
  return run;
}

double MadeRun::mean_survival() const {
  double sum = 0;
  for (const double s : survival) sum += s;
  return sum / static_cast<double>(survival.size());
}

double MadeRun::mean_part(double SurvivalParts::*part) const {
  double sum = 0;
  for (std::size_t i = 0; i < survival.size(); ++i) sum += survival_parts(limits, states, i).*part;
  return sum / static_cast<double>(survival.size());
}

double MadeRun::mean_at(std::size_t day, Eigen::ArrayXd UnionStates::*number) const {
  return (daily.at(day).*number).mean();
}

int MadeRun::median_day(Eigen::ArrayXd UnionStates::*number, double level) const {
  for (std::size_t day = 0; day < daily.size(); ++day) {
    const Eigen::ArrayXd& values = daily[day].*number;
    if (2 * (values >= level).count() >= values.size()) return static_cast<int>(day);
  }
  return -1;
}

}  // namespace graftcast::testing
