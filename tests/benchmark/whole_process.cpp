// Whole runs of the program on sites of several sizes, as one table: median of runs, peak memory, slopes.
//
//   whole_process PROGRAM SAMPLE_SITE

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <exception>
#include <functional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "benchmark/invented_nursery.hpp"
#include "temporary_folder.hpp"

namespace {

using namespace graftcast;

constexpr int runs = 5;

struct Measured {
  double median_s = 0;
  double peak_mb = 0;
};

Measured once(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const auto begun = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_WRONLY);
    ::dup2(nowhere, STDOUT_FILENO);
    ::dup2(nowhere, STDERR_FILENO);
    ::execv(arguments.front(), arguments.data());
    ::_exit(127);
  }
  int status = 0;
  rusage usage{};
  ::wait4(child, &status, 0, &usage);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
    throw std::runtime_error(fmt::format("{} failed", words.back()));
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun;
  return {took.count(), static_cast<double>(usage.ru_maxrss) / 1024};
}

/// `before` is done before each run and not counted.
Measured measured(
    const std::vector<std::string>& words, const std::function<void()>& before = [] {}) {
  std::vector<double> seconds;
  Measured result;
  for (int run = 0; run < runs; ++run) {
    before();
    const Measured one = once(words);
    seconds.push_back(one.median_s);
    result.peak_mb = std::max(result.peak_mb, one.peak_mb);
  }
  std::ranges::nth_element(seconds, seconds.begin() + runs / 2);
  result.median_s = seconds[runs / 2];
  return result;
}

/// A site folder with the invented nursery in it.
class NurseryFolder {
 public:
  NurseryFolder(std::size_t rows, int count, int days_back) {
    using namespace benchmarks;
    const Site site = nursery_site();
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
    for (const GraftRecord& graft : nursery_grafts(rows, count)) {
      const GraftRow& row = graft.row;
      const auto age = std::min(this_morning() - *row.grafted_at,
                                Instant::duration(std::chrono::hours(24 * (days_back - 1))));
      grafts += fmt::format("{},{},{},{},{},{},{},{},{},{}\n", row.id,
                            utc_text(this_morning() - age).substr(0, 16), row.species, row.method, row.wrap,
                            row.cover, row.spot, *row.shade, row.count, row.pot_litres ? "5" : "");
    }
    folder_.write("grafts.csv", grafts);
    folder_.write("diary.csv", "when,graft,event,value,comment\n");
    const HourlyWeather weather = fine_weather(site, days_behind + days_ahead);
    const auto now = static_cast<std::size_t>((this_morning() - weather.start).count());
    folder_.write("weather/log.csv", table(weather, now - std::min(now, std::size_t(24 * days_back)), now));
    folder_.write("weather/forecast.csv", table(weather, now, weather.size()));
  }

  std::vector<std::string> words(const std::string& program, std::vector<std::string> command) const {
    std::vector<std::string> all{program, "--site", folder_.path().string(), "--at",
                                 utc_text(benchmarks::this_morning())};
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

void print(const std::string& what, const Measured& measured, const std::string& aim = "") {
  fmt::print("| {} | {:.2f} s | {:.0f} MB | {} |\n", what, measured.median_s, measured.peak_mb, aim);
  std::fflush(stdout);
}

void print_table(const std::string& program, const std::string& sample) {
  fmt::print("| whole process, median of {} runs | time | peak memory | aim |\n| --- | --- | --- | --- |\n",
             runs);
  const std::vector<std::string> on_sample{program, "--site", sample, "--at", "2025-06-09T06:30"};
  for (const auto& [command, aim] : std::vector<std::pair<std::string, std::string>>{
           {"morning", "0.15 s"}, {"since", ""}, {"when", ""}, {"page", ""}, {"calendar", ""}}) {
    std::vector<std::string> words = on_sample;
    words.push_back(command);
    print(fmt::format("sample site, `{}`", command), measured(words), aim);
  }
  const auto morning = [&](const NurseryFolder& site, int members = 64) {
    return measured(site.words(program, {"--members", std::to_string(members), "morning"}));
  };
  const NurseryFolder hundred(100, 1, 60), five_hundred(500, 1, 60), younger(500, 1, 30);
  const Measured of_hundred = morning(hundred), of_five_hundred = morning(five_hundred);
  const Measured of_younger = morning(younger), of_more_members = morning(hundred, 256);
  print("`morning`, 100 grafts", of_hundred);
  print("`morning`, 100 grafts, 256 members", of_more_members);
  print("`morning`, 500 grafts", of_five_hundred);
  print("`morning`, 500 grafts, none over 30 days old", of_younger);
  const NurseryFolder thousand(1000, 1, 60);
  print("`morning`, 1,000 grafts", morning(thousand), "2 s, 200 MB");
  print("`morning`, 2,000 batches of 50", morning(NurseryFolder(2000, 50, 60)), "5 s");
  print("`page`, 60 grafts, 90 days told",
        measured(NurseryFolder(60, 1, 60).words(program, {"page", "--no-weeks"})), "0.5 s");
  fmt::print("\nslopes: {:.2f} ms a graft, {:.3f} ms a graft and member, {:.1f} us a graft and day behind\n",
             (of_five_hundred.median_s - of_hundred.median_s) / 400 * 1e3,
             (of_more_members.median_s - of_hundred.median_s) / 100 / 192 * 1e3,
             (of_five_hundred.median_s - of_younger.median_s) / 500 / 15 * 1e6);
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 3) {
    fmt::print(stderr, "whole_process PROGRAM SAMPLE_SITE\n");
    return 2;
  }
  try {
    print_table(arguments[1], arguments[2]);
  } catch (const std::exception& fault) {
    fmt::print(stderr, "whole_process: {}\n", fault.what());
    return 1;
  }
  return 0;
}
