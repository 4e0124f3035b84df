// Whole runs of the program on sites of several sizes, as one table, compared with the last run on record.
//
//   whole_process PROGRAM SAMPLE_SITE FIGURES [COMMIT]
//
// FIGURES is the file of runs on record (figures.json); with COMMIT this run is added to it.

#include <chrono>
#include <cmath>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "benchmark/figures.hpp"
#include "benchmark/invented_nursery.hpp"
#include "temporary_folder.hpp"

namespace graftcast::benchmarks {
namespace {

constexpr int runs = 5;

/// What a nursery costs depends on how many grafts there are, how differently they stand, how long ago they
/// were made, and on weather that calls for acts.
struct NurseryAsk {
  std::size_t rows = 1000;
  int count = 1;
  int days_back = 60;
  NurseryKinds kinds = {};
  double hotter_ahead_k = 0;
};

/// A site folder with the invented nursery in it.
class NurseryFolder {
 public:
  explicit NurseryFolder(const NurseryAsk& ask) {
    const Site site = nursery_site(ask.kinds);
    std::string spots;
    for (const auto& [name, spot] : site.spots)
      spots += fmt::format(R"({}"{}": {{"sun": {}, "wind": {}, "movable": {}}})", spots.empty() ? "" : ", ",
                           name, spot.sun_share, spot.wind_share, spot.movable);
    folder_.write(
        "site.json",
        fmt::format(R"({{"format": 1, "name": "{}", "latitude": {}, "longitude": {}, "elevation_m": {},
 "time_zone": "{}", "spots": {{{}}}, "supplies": {{"clear-bag": 50, "paper": 50, "shade-cloth": 10}},
 "weather": {{"sources": [{{"file": "weather/log.csv"}},
   {{"file": "weather/forecast.csv", "as": "forecast", "made_at": "{}"}}]}}}})",
                    site.name, site.location.latitude_deg, site.location.longitude_deg,
                    site.location.elevation_m, site.time_zone, spots, utc_text(this_morning())));
    std::string grafts = "id,grafted_on,species,method,wrap,cover,spot,shade,count,pot_litres\n";
    for (const GraftRecord& graft : nursery_grafts(ask.rows, ask.count, ask.kinds)) {
      const GraftRow& row = graft.row;
      const auto age = std::min(this_morning() - *row.grafted_at,
                                Instant::duration(std::chrono::hours(24 * (ask.days_back - 1))));
      grafts += fmt::format("{},{},{},{},{},{},{},{},{},{}\n", row.id,
                            utc_text(this_morning() - age).substr(0, 16), row.species, row.method, row.wrap,
                            row.cover, row.spot, *row.shade, row.count, row.pot_litres ? "5" : "");
    }
    folder_.write("grafts.csv", grafts);
    folder_.write("diary.csv", "when,graft,event,value,comment\n");
    const HourlyWeather weather = fine_weather(site, days_behind + days_ahead, ask.hotter_ahead_k);
    const auto now = static_cast<std::size_t>((this_morning() - weather.start).count());
    folder_.write("weather/log.csv",
                  table(weather, now - std::min(now, std::size_t(24 * ask.days_back)), now));
    folder_.write("weather/forecast.csv", table(weather, now, weather.size()));
  }

  std::vector<std::string> words(std::vector<std::string> command) const {
    std::vector<std::string> all{"--site", folder_.path().string(), "--at", utc_text(this_morning())};
    all.insert(all.end(), command.begin(), command.end());
    return all;
  }

 private:
  static std::string table(const HourlyWeather& weather, std::size_t from, std::size_t to) {
    std::string text =
        "time,air_temperature [degC],relative_humidity [%],wind_speed [m s-1],"
        "surface_downwelling_shortwave_flux_in_air [W m-2],precipitation_amount [kg m-2]\n";
    for (std::size_t hour = from; hour < to; ++hour)
      text += fmt::format(
          "{},{:.2f},{:.1f},{:.2f},{:.1f},0.0\n", utc_text(weather.hour(hour)),
          weather[Variable::air_temperature].value[hour], weather[Variable::relative_humidity].value[hour],
          weather[Variable::wind_speed].value[hour], weather[Variable::shortwave].value[hour]);
    return text;
  }
  testing::TemporaryFolder folder_;
};

/// Puts a row of the table, and keeps it.
class Table {
 public:
  Table(std::string program, std::filesystem::path figures)
      : program_(std::move(program)), figures_(std::move(figures)) {
    fmt::print(
        "| whole process, median of {} runs | time | processor | peak memory | of the last | aim |\n"
        "| --- | --- | --- | --- | --- | --- |\n",
        runs);
  }

  void add(const std::string& name, const std::vector<std::string>& words, const std::string& aim = "") {
    std::vector<std::string> all{program_};
    all.insert(all.end(), words.begin(), words.end());
    cases_.push_back({name, measured(all, runs), aim});
    const Measured& one = cases_.back().measured;
    const double last = last_per_reference(figures_, name);
    fmt::print("| {} | {:.2f} s | {:.2f} s | {:.0f} MB | {} | {} |\n", name, one.wall_s, one.processor_s,
               one.peak_mb, std::isnan(last) ? "" : fmt::format("{:.2f}", one.per_reference / last), aim);
    std::fflush(stdout);
  }
  void add(const std::string& name, const NurseryAsk& ask, std::vector<std::string> command,
           const std::string& aim = "") {
    const NurseryFolder folder(ask);
    add(name, folder.words(std::move(command)), aim);
  }

  void record_as(const std::string& commit) const { record(figures_, commit, cases_); }

 private:
  std::string program_;
  std::filesystem::path figures_;
  std::vector<Case> cases_;
};

void add_sample(Table& table, const std::string& sample) {
  for (const auto& [command, aim] : std::vector<std::pair<std::string, std::string>>{
           {"morning", "0.1 s"}, {"since", ""}, {"when", ""}, {"page", ""}, {"calendar", ""}})
    table.add(fmt::format("sample site, `{}`", command),
              {"--site", sample, "--at", "2025-06-09T06:30", command}, aim);
}

void add_nurseries(Table& table) {
  const std::vector<std::string> morning{"morning"};
  const NurseryKinds few{.spots = 4, .shades = 2, .covers = 5, .wraps = 1, .species = 1, .methods = 1};
  const NurseryKinds many{.spots = 12, .shades = 70, .covers = 3, .wraps = 3, .species = 6, .methods = 6};
  table.add("`morning`, 100 grafts", {.rows = 100}, morning);
  table.add("`morning`, 100 grafts, 256 members", {.rows = 100}, {"--members", "256", "morning"});
  table.add("`morning`, 1,000 grafts in 40 exposures", {.kinds = few}, morning, "0.7 s, 120 MB");
  table.add("`morning`, 1,000 grafts in 40 exposures, none over 30 days old", {.days_back = 30, .kinds = few},
            morning);
  table.add("`morning`, 1,000 grafts all distinct", {.kinds = many}, morning, "4 s, 200 MB");
  table.add("`morning`, 1,000 grafts all distinct, 8 K hotter ahead", {.kinds = many, .hotter_ahead_k = 8},
            morning, "4 s, 200 MB");
  table.add("`morning`, 100,000 grafts in 2,000 batches", {.rows = 2000, .count = 50}, morning, "4 s");
  table.add("`page`, 60 grafts, with their hours", {.rows = 60}, {"page", "--no-weeks"}, "0.5 s");
}

}  // namespace
}  // namespace graftcast::benchmarks

int main(int count, char** arguments) {
  if (count != 4 && count != 5) {
    std::fputs("whole_process PROGRAM SAMPLE_SITE FIGURES [COMMIT]\n", stderr);
    return 2;
  }
  try {
    graftcast::benchmarks::Table table(arguments[1], arguments[3]);
    graftcast::benchmarks::add_sample(table, arguments[2]);
    graftcast::benchmarks::add_nurseries(table);
    if (count == 5) table.record_as(arguments[4]);
  } catch (const std::exception& fault) {
    fmt::print(stderr, "whole_process: {}\n", fault.what());
    return 1;
  }
  return 0;
}
