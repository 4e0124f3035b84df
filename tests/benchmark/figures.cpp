#include "benchmark/figures.hpp"

#include <chrono>
#include <cmath>
#include <fstream>
#include <limits>
#include <thread>

#include <fmt/chrono.h>
#include <nlohmann/json.hpp>

namespace graftcast::benchmarks {

namespace {

using Json = nlohmann::ordered_json;

Json runs_in(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return stream ? Json::parse(stream) : Json::array();
}

double rounded(double value) {
  return std::round(value * 1e3) / 1e3;
}

Json case_json(const Case& one) {
  return {{"name", one.name},
          {"wall_s", rounded(one.measured.wall_s)},
          {"processor_s", rounded(one.measured.processor_s)},
          {"peak_mb", std::round(one.measured.peak_mb)},
          {"per_reference", rounded(one.measured.per_reference)}};
}

}  // namespace

std::string processor_name() {
  std::ifstream stream("/proc/cpuinfo");
  for (std::string line; std::getline(stream, line);)
    if (line.starts_with("model name")) return line.substr(line.find(':') + 2);
  return "unknown";
}

double last_per_reference(const std::filesystem::path& file, const std::string& name) {
  double last = std::numeric_limits<double>::quiet_NaN();
  for (const Json& run : runs_in(file))
    for (const Json& one : run["cases"])
      if (one["name"] == name) last = one["per_reference"];
  return last;
}

void record(const std::filesystem::path& file, const std::string& commit, const std::vector<Case>& cases) {
  Json run{{"commit", commit},
           {"date", fmt::format("{:%F}", std::chrono::system_clock::now())},
           {"processor", processor_name()},
           {"cores", std::thread::hardware_concurrency()},
           {"cases", Json::array()}};
  for (const Case& one : cases) run["cases"].push_back(case_json(one));
  Json runs = runs_in(file);
  runs.push_back(std::move(run));
  std::ofstream(file) << runs.dump(1) << '\n';
}

}  // namespace graftcast::benchmarks
