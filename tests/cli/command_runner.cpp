#include "cli/command_runner.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <numbers>

#include <fmt/format.h>

#include "temporary_folder.hpp"

namespace graftcast::testing {

namespace {

std::string quoted(const std::string& text) {
  std::string result = "'";
  for (const char c : text) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return result + "'";
}

void put(const std::filesystem::path& file, const std::string& content) {
  std::filesystem::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << content;
}

/// Ten days from 1 June 2025, UTC, each half a degree warmer than the one before.
std::string small_log() {
  std::string text =
      "time,air_temperature [degC],relative_humidity [%],wind_speed [m s-1],"
      "surface_downwelling_shortwave_flux_in_air [W m-2],precipitation_amount [kg m-2]\n";
  for (int hour = 0; hour < 240; ++hour) {
    const double sun = std::max(0.0, std::sin((hour % 24 - 5) * std::numbers::pi / 14));
    const bool day = hour % 24 >= 5 && hour % 24 < 19;
    text += fmt::format("2025-06-{:02}T{:02}:00Z,{:.1f},{:.0f},{:.1f},{:.0f},0\n", 1 + hour / 24, hour % 24,
                        16 + 0.5 * (hour / 24) + (day ? 12 * sun : 0.0), day ? 70 - 30 * sun : 80.0, 1.5,
                        day ? 800 * sun : 0.0);
  }
  return text;
}

}  // namespace

CommandOutcome run_graftcast(const std::vector<std::string>& arguments, const std::string& input) {
  const TemporaryFolder folder;
  const auto in = folder.write("in", input);
  std::string command = "env -u NO_COLOR LC_ALL=C.UTF-8 " + quoted(GRAFTCAST_PROGRAM);
  for (const std::string& argument : arguments) command += ' ' + quoted(argument);
  command += fmt::format(" <{} >{} 2>{}", quoted(in.string()), quoted((folder.path() / "out").string()),
                         quoted((folder.path() / "err").string()));
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, folder.read("out"), folder.read("err")};
}

std::map<std::string, std::string> files_below(const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    const std::string name = std::filesystem::relative(entry.path(), folder).string();
    if (entry.is_regular_file()) {
      std::ifstream stream(entry.path(), std::ios::binary);
      files[name] = {std::istreambuf_iterator<char>(stream), {}};
    } else {
      files[name] = "(no file)";
    }
  }
  return files;
}

void write_small_site(const std::filesystem::path& folder) {
  put(folder / "site.json",
      R"({"format": 1, "name": "Little Weir", "latitude": 41.0, "longitude": 0.5, "elevation_m": 90,
 "time_zone": "UTC",
 "spots": {"bench": {"sun": 0.9, "wind": 0.5, "rain": true, "movable": true}, "shed": {"sun": 0.1, "wind": 0.2, "rain": false, "movable": true}},
 "supplies": {"clear-bag": 2, "paper": 2, "shade-cloth": 1},
 "weather": {"sources": [{"file": "weather/log.csv"}]}}
)");
  put(folder / "grafts.csv",
      "id,grafted_on,species,method,spot,wrap,cover,pot_litres,count\n"
      "R1,2025-06-02,citrus,chip,bench,film-bud-out,none,5,3\n"
      "R2,2025-06-03,apple,cleft,bench,film,clear-bag,,1\n"
      "R3,2025-06-04,mango,side-veneer,shed,film,none,8,2\n");
  put(folder / "diary.csv", "when,graft,event,value,comment\n2025-06-05T08:00Z,R2,green,,\n");
  put(folder / "weather/log.csv", small_log());
}

}  // namespace graftcast::testing
