#include "small_site.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include <fmt/format.h>

namespace graftcast::testing {

namespace {

constexpr const char* site_json = R"site({"format": 1, "name": "Test orchard (invented)",
 "latitude": 40.9, "longitude": 0.4, "elevation_m": 110, "time_zone": "Europe/Madrid",
 "spots": {"bench": {"sun": 0.9, "wind": 0.5, "rain": true, "movable": true},
           "shed": {"sun": 0.1, "wind": 0.2, "rain": false, "movable": true}},
 "supplies": {"clear-bag": 4, "paper": 4}, "weather": {"sources": [
   {"file": "weather/station.csv"},
   {"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"}]}}
)site";

constexpr const char* grafts_csv =
    "id,grafted_on,scion,species,method,stock,spot,wrap,cover,count,comment,grown by\n"
    "A1,2025-06-03,Millrace,apple,cleft,row A,bench,film-waxed-tip,none,10,,N\n"
    "B1,2025-06-08,Red Pith,citrus,chip,pot 7,bench,film-bud-out,clear-bag,3,\"tight, good\",N\n"
    "C1,2025-06-09T18:30,Two Crop,fig,chip,pot 8,bench,film-bud-out,none,2,,T\n"
    "D1,2025-06-02,Old Bridge,cherry,whip-and-tongue,pot 9,shed,film-waxed-tip,none,1,,T\n";

constexpr const char* diary_csv =
    "when,graft,event,value,comment\n"
    "2025-06-05T08:00,A1,watered,,\n"
    "2025-06-10T09:00,A1,green,10,all of them\n";

/// Hotter by the day, so that the forecast holds a heat day.
double temperature_c(int day, int hour) {
  const double warming = day <= 10 ? 0.4 * (day - 1) : std::min(4 + 3.0 * (day - 10), 13.0);
  return 20 + warming + 7 * std::cos(2 * std::numbers::pi * (hour - 15) / 24.0);
}

}  // namespace

std::string hourly_log(int first_day, int days) {
  std::string text =
      "time,air_temperature [degC],relative_humidity [%],wind_speed [m s-1],"
      "surface_downwelling_shortwave_flux_in_air [W m-2],precipitation_amount [mm]\n";
  for (int hour = 0; hour < 24 * days; ++hour) {
    const int day = first_day + hour / 24;
    const int clock = hour % 24;
    const double warmth = temperature_c(day, clock);
    const double sun = std::max(0.0, 900 * std::sin(std::numbers::pi * (clock - 6.5) / 14.5));
    text +=
        fmt::format("2025-06-{:02}T{:02}:00,{:.1f},{:.0f},{:.1f},{:.0f},0\n", day, clock, warmth,
                    std::clamp(110 - 2.4 * warmth, 12.0, 95.0), 1.2 + 0.8 * (clock > 9 && clock < 20), sun);
  }
  return text;
}

SmallSite::SmallSite() {
  write("site.json", site_json);
  write("grafts.csv", grafts_csv);
  write("diary.csv", diary_csv);
  write("weather/station.csv", hourly_log(1, 10));
  write("weather/forecast.csv", hourly_log(11, 3));
}

void SmallSite::replace(const std::string& name, const std::string& from, const std::string& to) const {
  std::string content = read(name);
  const std::size_t at = content.find(from);
  if (at == std::string::npos) throw std::logic_error("the small site has no " + from);
  write(name, content.replace(at, from.size(), to));
}

Said SmallSite::run(std::vector<std::string> arguments, const Surroundings& surroundings) const {
  std::vector<std::string> words{"--site", text(), "--at", small_morning, "--members", "8"};
  words.insert(words.end(), arguments.begin(), arguments.end());
  return testing::run(words, surroundings);
}

std::string SmallSite::fingerprint() const {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(path())) {
    const std::string name = std::filesystem::relative(entry.path(), path()).string();
    const auto permissions = static_cast<unsigned>(entry.status().permissions());
    files.push_back(fmt::format("{} {:o}\n{}", name, permissions, entry.is_regular_file() ? read(name) : ""));
  }
  std::ranges::sort(files);
  return fmt::format("{}", fmt::join(files, "\n"));
}

}  // namespace graftcast::testing
